import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { deleteRecords } from "../../src/editor/edits/delete-records.ts";
import { lookedAt, type NewIssue, replaceSheet } from "../../src/editor/edits/replace-sheet.ts";
import { setMeasuredScale } from "../../src/editor/edits/scale.ts";
import { addViewport } from "../../src/editor/edits/sheets.ts";
import { applyTo, type Similarity } from "../../src/geometry/similarity.ts";
import { drawingFiles } from "../../src/job/drawing-files.ts";
import { apply, invert } from "../../src/job/edit.ts";
import { jobText, parseJobText } from "../../src/job/parse-job.ts";
import { sheetToBuilding } from "../../src/job/registration.ts";
import type { Job, Sheet } from "../../src/job/schema.ts";
import type { ToLookAt } from "../../src/job/sheet-issue.ts";
import { radians } from "../../src/units/quantity.ts";
import { furnished } from "./sample-job.ts";

const sample = (name: string): Job => {
  const parsed = parseJobText(readFileSync(`samples/${name}/job.json`, "utf8"));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
};

interface Way {
  readonly quarter: number;
  readonly scale: number;
  readonly shift: readonly [number, number];
  readonly rotate: Sheet["rotate"];
  readonly userUnit: number;
}

/** A page of another make onto which the sheet is put. */
function issued({ quarter, scale, shift, rotate, userUnit }: Way, toLookAt: readonly ToLookAt[] = []): NewIssue {
  const angle = radians(quarter * (Math.PI / 2));
  const sim: Similarity = { scale, angle, dx: shift[0], dy: shift[1] };
  return {
    page: {
      file: { sha256: "cd".repeat(32), name: "Second issue.pdf", bytes: 4321 },
      page: 2,
      view: [-40, 25, 3000, 2900],
      rotate,
      userUnit,
    },
    sim,
    by: "grid",
    residualPt: 0.01,
    toLookAt,
  };
}

const replaced = (job: Job, id: string, issue: NewIssue) => {
  const edit = replaceSheet(job, id, issue);
  if (!edit.ok) throw new Error(JSON.stringify(edit.problems));
  return { edit: edit.value, job: apply(job, edit.value) };
};

const way = fc.record<Way>({
  quarter: fc.integer({ min: -1, max: 2 }),
  scale: fc.constantFrom(1, 0.5, 2, 0.647, 1.5454),
  shift: fc.tuple(fc.double({ min: -500, max: 500, noNaN: true }), fc.double({ min: -500, max: 500, noNaN: true })),
  rotate: fc.constantFrom(0 as const, 90 as const, 180 as const, 270 as const),
  userUnit: fc.constantFrom(1, 2, 0.5),
});

/** What every finding answers, its place on the sheet and its words aside. */
const answers = (job: Job) =>
  checkJob(job).findings.map(
    ({ element, about, verdict, section, requiredIn, leastIn, intervalIn, verticalIn, stretches, areas }) => ({
      words: [element, about, verdict, section, ...areas],
      numbers: [
        requiredIn,
        leastIn,
        verticalIn,
        ...(intervalIn ?? []),
        ...stretches.flatMap((one) => [one.fromIn, one.toIn]),
      ],
    }),
  );

/** The greatest difference between numbers of two lists of answers, inches; infinite where they differ otherwise. */
function apart(a: ReturnType<typeof answers>, b: ReturnType<typeof answers>): number {
  expect(b.map(({ words }) => words)).toEqual(a.map(({ words }) => words));
  const [before, after] = [a.flatMap(({ numbers }) => numbers), b.flatMap(({ numbers }) => numbers)];
  expect(after.length).toBe(before.length);
  return Math.max(
    ...before.map((n, i) => {
      const now = after[i] ?? null;
      return n === null || now === null ? (n === now ? 0 : Number.POSITIVE_INFINITY) : Math.abs(n - now);
    }),
  );
}

describe("a sheet replaced by a new issue", () => {
  for (const name of ["riverside-workshop", "fennick-lane-store"])
    it(`answers the same, whichever sheet of ${name} comes on another page`, { timeout: 120_000 }, () => {
      let job = sample(name);
      const before = answers(job);
      expect(before.length).toBeGreaterThan(10);
      const ways: readonly Way[] = [
        { quarter: 1, scale: 1, shift: [1700, 20], rotate: 270, userUnit: 1 },
        { quarter: 2, scale: 0.5, shift: [900, 1200], rotate: 0, userUnit: 1 },
        { quarter: 0, scale: 1.5454, shift: [-33, 12], rotate: 90, userUnit: 2 },
      ];
      Object.keys(job.sheets).forEach((id, i) => {
        job = replaced(job, id, issued(ways[i % ways.length]!)).job;
      });
      expect(apart(before, answers(job))).toBeLessThan(1e-5);
      // What was written can be read again.
      expect(parseJobText(jobText(job)).ok).toBe(true);
    });

  it("is taken back byte for byte, and puts every point where it lies on the new issue", () => {
    const job = furnished();
    fc.assert(
      fc.property(way, fc.constantFrom(...Object.keys(job.sheets)), (how, id) => {
        const issue = issued(how);
        const { edit, job: after } = replaced(job, id, issue);
        expect(jobText(apply(after, invert(edit)))).toBe(jobText(job));
        for (const [key, element] of Object.entries(job.elements)) {
          const now = after.elements[key]!;
          const onIt = job.viewports[element.viewport]?.sheet === id;
          if ("vertices" in element && "vertices" in now)
            expect(now.vertices.map(({ at }) => at)).toEqual(
              element.vertices.map(({ at }) => (onIt ? applyTo(issue.sim, at) : at)),
            );
        }
        for (const viewport of Object.keys(job.viewports)) {
          const [was, now] = [sheetToBuilding(job, viewport), sheetToBuilding(after, viewport)];
          if (!was.ok || !now.ok) throw new Error("not registered");
          const here = job.viewports[viewport]!.sheet === id;
          // Building inches a sheet unit follow the paper.
          expect(now.value.sim.scale).toBeCloseTo(was.value.sim.scale / (here ? how.scale : 1), 9);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("keeps the issue there was, by its file and page, and how the new one was laid on it", () => {
    const job = furnished();
    const [id] = Object.keys(job.sheets);
    const first = job.sheets[id!]!;
    const { edit, job: after } = replaced(
      job,
      id!,
      issued({ quarter: 1, scale: 0.5, shift: [5, 6], rotate: 0, userUnit: 1 }),
    );
    expect(edit.name).toBe("Replace Roof framing by its new issue");
    expect(after.sheets[id!]?.file.name).toBe("Second issue.pdf");
    const { title: _, ...page } = first;
    expect(after.sheets[id!]?.earlier).toEqual([
      { ...page, laid: { by: "grid", scale: 0.5, turnDeg: 90, shift: [5, 6], residualPt: 0.01 } },
    ]);
    expect(
      drawingFiles(after)
        .map(({ name }) => name)
        .sort(),
    ).toEqual([...new Set([first.file.name, "Second issue.pdf"])].sort());
  });

  it("says of a stated scale at what size the sheet is printed now, and forgets it at the old size", () => {
    const job = furnished();
    const id = Object.keys(job.sheets)[0]!;
    const half = replaced(job, id, issued({ quarter: 0, scale: 0.5, shift: [0, 0], rotate: 0, userUnit: 1 })).job;
    expect(half.viewports["v-roof"]?.scale.stated).toEqual({ text: `1/4" = 1'-0", printed at 50 %`, ratio: 96 });
    const again: NewIssue = {
      ...issued({ quarter: 0, scale: 2, shift: [0, 0], rotate: 0, userUnit: 1 }),
      page: { ...issued({ quarter: 0, scale: 2, shift: [0, 0], rotate: 0, userUnit: 1 }).page, page: 3 },
    };
    expect(replaced(half, id, again).job.viewports["v-roof"]?.scale.stated).toEqual({
      text: `1/4" = 1'-0"`,
      ratio: 48,
    });
  });

  it("takes a measured scale and the parts of a sheet along", () => {
    const measured = setMeasuredScale(furnished(), "v-roof", [100, 100], [500, 100], { value: 30, unit: "ft" });
    if (!measured.ok) throw new Error("refused");
    const job = apply(furnished(), measured.value);
    const part = addViewport(job, "v-part", { sheet: "s-roof", name: "Part", region: [100, 200, 300, 600] });
    if (!part.ok) throw new Error("refused");
    const parted = apply(job, part.value);
    const after = replaced(
      parted,
      "s-roof",
      issued({ quarter: 1, scale: 0.5, shift: [700, 10], rotate: 0, userUnit: 1 }),
    ).job;
    // A quarter turn: x' = 700 - y / 2, y' = 10 + x / 2.
    const rounded = (list: readonly number[]) => list.map((n) => Math.round(n * 1e9) / 1e9);
    expect(rounded(after.viewports["v-part"]!.region!)).toEqual([400, 60, 600, 160]);
    const { a, b } = after.viewports["v-roof"]!.scale.measured!;
    expect([rounded(a), rounded(b)]).toEqual([
      [650, 60],
      [650, 260],
    ]);
  });

  it("leaves what there is to look at, until it has been", () => {
    const job = furnished();
    const look = (key: string): ToLookAt => ({
      table: "elements",
      id: key,
      line: { there: 0, movedPt: 30 },
      beside: true,
      texts: [{ was: "EL. 12'-6\"", now: null }],
    });
    const { job: after } = replaced(
      job,
      "s-ceiling",
      issued({ quarter: 0, scale: 1, shift: [0, 0], rotate: 0, userUnit: 1 }, [look("r1"), look("b1")]),
    );
    expect(parseJobText(jobText(after)).ok).toBe(true);
    expect(checkJob(after).notices).toContainEqual({
      code: "sheet.to-look-at",
      where: "sheets/s-ceiling/toLookAt",
      params: {
        sheet: "Reflected ceiling",
        count: 2,
        names: `${after.elements.r1!.label}, ${after.elements.b1!.label}`,
      },
    });
    const without = deleteRecords(after, [{ table: "elements", id: "r1" }]);
    if (!without.ok) throw new Error("refused");
    expect(apply(after, without.value).sheets["s-ceiling"]?.toLookAt?.map(({ id }) => id)).toEqual(["b1"]);
    const seen = lookedAt(after, "s-ceiling", "elements", "r1");
    if (!seen.ok) throw new Error("refused");
    const rest = apply(after, seen.value);
    expect(rest.sheets["s-ceiling"]?.toLookAt?.map(({ id }) => id)).toEqual(["b1"]);
    const last = lookedAt(rest, "s-ceiling", "elements", "b1");
    if (!last.ok) throw new Error("refused");
    expect(apply(rest, last.value).sheets["s-ceiling"]).not.toHaveProperty("toLookAt");
    expect(lookedAt(rest, "s-ceiling", "elements", "r1").ok).toBe(false);
  });

  it("is not the page the sheet shows already, and no way of lying without sense", () => {
    const job = furnished();
    const id = Object.keys(job.sheets)[0]!;
    const issue = issued({ quarter: 0, scale: 1, shift: [0, 0], rotate: 0, userUnit: 1 });
    const same = replaceSheet(job, id, { ...issue, page: { ...issue.page, file: job.sheets[id]!.file, page: 1 } });
    expect(same.ok ? "" : same.problems[0]?.code).toBe("edit.same-page");
    const flat = replaceSheet(job, id, { ...issue, sim: { ...issue.sim, scale: 0 } });
    expect(flat.ok ? "" : flat.problems[0]?.code).toBe("edit.not-finite");
  });
});
