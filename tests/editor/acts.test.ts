import { describe, expect, it } from "vitest";
import type { CheckResult, Finding, Verdict } from "../../src/check/finding.ts";
import { ACTS, act, actOfKey } from "../../src/editor/acts.ts";
import { classifyArea, setDeck, setElevation } from "../../src/editor/edits/areas.ts";
import { setTag } from "../../src/editor/edits/elements.ts";
import { registerViewport } from "../../src/editor/edits/registration.ts";
import { removeScale } from "../../src/editor/edits/scale.ts";
import { setSettings } from "../../src/editor/edits/settings.ts";
import { lacks } from "../../src/editor/lacks.ts";
import { editorMessage } from "../../src/editor/messages.ts";
import { TOOL_NAMES } from "../../src/editor/tools/tools.ts";
import { wordLack } from "../../src/editor/words.ts";
import type { Edit } from "../../src/job/edit.ts";
import { emptyJob, type Job } from "../../src/job/schema.ts";
import type { Result } from "../../src/units/problem.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork, NOTHING_FOUND } from "./at-work.ts";
import { furnished, twoSheets } from "./sample-job.ts";

const finding = (elementId: string, verdict: Verdict, sheet = "s-ceiling"): Finding => ({
  number: 1,
  element: elementId,
  elementId,
  kind: "run",
  verdict,
  section: "",
  edition: "us-2023",
  requiredIn: 1.5,
  leastIn: 1,
  intervalIn: [1, 1],
  verticalIn: 1,
  sheet,
  at: [0, 0],
  areas: [],
  stretches: [],
  reasons: { text: "", children: [] },
  remedies: [],
});
const found = (...findings: Finding[]): CheckResult => ({ ...NOTHING_FOUND, findings });

describe("acts", () => {
  it("have ids and keys of their own, and a tool can be started by each kind of act", () => {
    const ids = ACTS.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const keys = ACTS.flatMap(({ key }) => (key === undefined ? [] : [key]));
    expect(new Set(keys).size).toBe(keys.length);
    for (const name of TOOL_NAMES.filter((one) => one !== "edit")) expect(ids).toContain(name);
    expect(() => act("no-such-act")).toThrow("no-such-act");
    expect(actOfKey({ key: "T", shift: false, alt: false, ctrl: false })?.id).toBe("trace-run");
    expect(actOfKey({ key: "z", shift: false, alt: false, ctrl: true })?.id).toBe("undo");
    expect(actOfKey({ key: "t", shift: false, alt: true, ctrl: false })).toBeUndefined();
  });

  it("can be done only where they make sense", () => {
    const empty = new AtWork(emptyJob("None", "us-2023"));
    const able = (work: AtWork) => ACTS.filter((one) => one.enabled(work.state)).map(({ id }) => id);
    expect(able(empty)).toEqual([]);
    const work = new AtWork(furnished());
    expect(able(work)).not.toContain("slope-direction");
    work.session.select({ table: "areas", id: "a1" });
    expect(able(work)).toEqual(expect.arrayContaining(["slope-direction", "settle-roof", "delete", "trace-run"]));
    expect(able(work)).not.toContain("settle-not-settled");
    expect(able(work)).not.toContain("undo");
    work.session.select({ table: "viewports", id: "v-roof" });
    expect(able(work)).not.toContain("delete");
  });

  it("do what they say", () => {
    const work = new AtWork(furnished());
    work.session.select({ table: "areas", id: "a1" });
    act("settle-roof").run(work.session);
    expect(work.state.job.areas.a1?.classification.is).toBe("roof");
    act("undo").run(work.session);
    expect(work.state.job.areas.a1?.classification.is).toBe("not-settled");
    act("redo").run(work.session);
    act("delete").run(work.session);
    expect(work.state.job.areas).toEqual({});
    act("next-sheet").run(work.session);
    expect(work.state.sheet).toBe("s-roof");
    act("next-sheet").run(work.session);
    expect(work.state.sheet).toBe("s-ceiling");
    act("trace-run").run(work.session);
    expect(work.state).toMatchObject({ stage: "wiring", tool: { tool: "trace-run" } });
  });

  it("go round the findings that need attention", () => {
    const result = found(
      finding("r1", "too-close"),
      finding("b1", "clear"),
      finding("r1", "cannot-tell"),
      finding("b1", "borderline"),
    );
    const work = new AtWork(furnished(), { check: () => result });
    const went: unknown[] = [];
    for (const id of ["next-finding", "next-finding", "next-finding", "next-finding", "previous-finding"]) {
      act(id).run(work.session);
      went.push(work.state.selection);
    }
    const selected = (elementId: string, verdict: Verdict) => ({ finding: { elementId, verdict } });
    expect(went).toEqual([
      selected("r1", "too-close"),
      selected("r1", "cannot-tell"),
      selected("b1", "borderline"),
      selected("r1", "too-close"),
      selected("b1", "borderline"),
    ]);
  });
});

describe("what the stages lack", () => {
  const lines = (job: Job, result: CheckResult | null = NOTHING_FOUND) =>
    lacks(job, result).map((lack) => `${lack.stage}: ${wordLack(lack)}`);

  it("is everything in an empty job", () => {
    expect(lines(emptyJob("None", "us-2023"), null)).toEqual([
      "sheet: No sheet yet",
      "roof: No deck area yet",
      "wiring: No wiring yet",
      "check: Nothing to check yet",
      "issue: Nothing to issue yet",
      "issue: Nobody has said by whose decision this edition applies",
    ]);
  });

  it("is counted, names its records, and goes away as it is supplied", () => {
    let job = furnished();
    const add = (edit: Result<Edit>) => {
      job = applyChecked(job, edit);
    };
    expect(lines(job, found(finding("r1", "too-close"), finding("b1", "clear")))).toEqual([
      "sheet: 1 viewport not registered",
      "roof: 1 area without an elevation",
      "roof: 1 area not settled as roof or floor",
      "roof: 1 area without a deck profile",
      "wiring: 2 elements without an elevation tag",
      "check: 1 finding needs attention",
      "issue: Nobody has said by whose decision this edition applies",
    ]);
    expect(lacks(job, null).find(({ code }) => code === "elements-without-tag")?.ids).toEqual(["b1", "r1"]);
    add(
      registerViewport(job, "v-roof", "v-ceiling", [
        { label: "1", here: [0, 0], there: [5, 5] },
        { label: "2", here: [100, 0], there: [105, 5] },
      ]),
    );
    add(setElevation(job, "a1", { shape: { is: "level", at: { value: 112, unit: "ft" } } }));
    add(classifyArea(job, "a1", { is: "roof" }));
    add(setDeck(job, "a1", { profile: "wide-rib-1-1/2" }));
    const tag = {
      length: { value: 110, unit: "ft" },
      datum: { from: "project" },
      basis: "top",
      plusMinus: null,
    } as const;
    add(setTag(job, "r1", 0, tag));
    add(setTag(job, "b1", 0, tag));
    add(setSettings(job, { editionBy: "County" }));
    expect(lines(job)).toEqual([]);
    add(removeScale(job, "v-ceiling", "stated"));
    expect(lines(job)).toContain("sheet: 1 viewport without a scale");
    add(setElevation(job, "a1", { layers: [{ name: "Insulation", thickness: null }] }));
    expect(lines(job)).toContain("roof: 1 area with a layer of unknown thickness");
  });

  it("does not ask a registered viewport for a scale of its own", () => {
    let job = twoSheets();
    job = applyChecked(
      job,
      registerViewport(job, "v-roof", "v-ceiling", [
        { label: "1", here: [0, 0], there: [5, 5] },
        { label: "2", here: [100, 0], there: [105, 5] },
      ]),
    );
    job = applyChecked(job, removeScale(job, "v-roof", "stated"));
    expect(lacks(job, null).map(({ code }) => code)).not.toContain("viewports-without-scale");
  });
});

describe("words", () => {
  it("are there for every problem the editor's own code may raise", async () => {
    const { readdirSync, readFileSync } = await import("node:fs");
    const root = new URL("../../src/editor/", import.meta.url);
    const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));
    const raised = files.flatMap((name) =>
      [...readFileSync(new URL(name, root), "utf8").matchAll(/fail\(\s*"([^"]+)"|code: "([^"]+)", where/g)].map(
        (match) => match[1] ?? match[2]!,
      ),
    );
    const problems = new Set(raised);
    expect(problems.size).toBeGreaterThan(25);
    const wordless = [...problems].filter((code) => editorMessage({ code, where: "", params: {} }) === undefined);
    expect(wordless).toEqual([]);
  });

  it("are there for whatever is wrong with a ring", () => {
    for (const code of ["not-finite", "too-few-points", "repeated-point", "crosses-itself", "collapsed"])
      expect(editorMessage({ code: `ring.${code}`, where: "", params: {} })).toBeTruthy();
  });
});
