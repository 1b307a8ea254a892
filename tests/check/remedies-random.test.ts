import fc from "fast-check";
import { expect, test } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { type Finding, isQuiet, isSameFinding, type Remedy } from "../../src/check/finding.ts";
import { leastShifts, type PlanBody } from "../../src/check/remedies/least-shift.ts";
import { remedyEdit } from "../../src/check/remedies/remedy-edit.ts";
import { rewiredJob } from "../../src/check/remedies/wiring-remedy.ts";
import { distance2, type Point2 } from "../../src/geometry/point.ts";
import { locate, type Polygon } from "../../src/geometry/polygon.ts";
import { apply } from "../../src/job/edit.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Run } from "../../src/job/elements/run.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { box, inch, inchJob, rectangle, roof, run, tag, withParts } from "./inch-job.ts";

const seed = 471;

/** Places and elevations on a coarse grid, so that things often touch, coincide and lie exactly at a limit. */
const place = fc.integer({ min: 0, max: 60 }).map((n) => n * 5);
const elevation = fc.integer({ min: 0, max: 32 }).map((n) => 138 + n / 4);
const bases = fc.constantFrom("centre" as const, "top" as const, "bottom" as const);
const tags = fc.oneof(
  { weight: 6, arbitrary: fc.tuple(elevation, bases).map(([z, basis]) => tag(z, basis)) },
  { weight: 1, arbitrary: fc.constant(null) },
  { weight: 1, arbitrary: bases.map((basis) => tag(1.25, basis, { datum: { from: "below-deck" } })) },
  { weight: 1, arbitrary: elevation.map((z) => tag(0, "centre", { length: { value: z * 25.4, unit: "mm" } })) },
);
const level = (z: number): Area["elevation"]["shape"] => ({ is: "level", at: inch(z) });
const shapes = fc.oneof(
  { weight: 4, arbitrary: elevation.map(level) },
  {
    weight: 2,
    arbitrary: elevation.map((z): Area["elevation"]["shape"] => ({
      is: "slope",
      at: inch(z),
      point: [0, 0],
      towards: [300, 100],
      rise: 1 / 48,
      text: "1/4 in. per foot",
    })),
  },
  { weight: 1, arbitrary: fc.constant<Area["elevation"]["shape"]>({ is: "level", at: null }) },
);
const outlines = fc.oneof(
  fc
    .tuple(place, place, fc.integer({ min: 10, max: 200 }), fc.integer({ min: 10, max: 200 }))
    .map(([x, y, w, h]) => rectangle(x, y, x + w, y + h)),
  // An L, so that corners point inwards too.
  fc.tuple(place, place, fc.integer({ min: 20, max: 200 })).map(([x, y, s]): [number, number][] => [
    [x, y],
    [x + s, y],
    [x + s, y + s / 2],
    [x + s / 2, y + s / 2],
    [x + s / 2, y + s],
    [x, y + s],
  ]),
);
const areas = fc
  .tuple(outlines, shapes, fc.constantFrom("roof", "roof", "roof", "floor-above", "not-settled"))
  .map(([outline, shape, is]): Area => {
    const base = roof(144);
    return {
      ...base,
      outline,
      classification: { ...base.classification, is: is as "roof" },
      elevation: { ...base.elevation, shape },
    };
  });
/** A roof over all of it, high up, so that there is somewhere to go; and a few others. */
const areaTables = fc
  .array(areas, { minLength: 1, maxLength: 3 })
  .map((list) =>
    Object.fromEntries(
      [roof(170, { outline: rectangle(-400, -400, 800, 800) }), ...list].map((area, i) => [
        `a${i}`,
        { ...area, label: `A-${i}` },
      ]),
    ),
  );
const types = fc.constantFrom("emt", "emt", "rmc", "imc", "pvc40");
const steel = fc.constantFrom(null, null, true, false);
const noFacts = { steelFittings: null, inConcrete: null, concreteThickness: null, accessible: null };
const elements = fc.oneof(
  fc.tuple(fc.array(fc.tuple(place, place, tags), { minLength: 2, maxLength: 4 }), types, steel).map(
    ([vertices, type, steelFittings]): Element =>
      run(vertices, {
        wiring: { type, tradeSize: "3/4", outsideDiameter: null },
        facts: { ...noFacts, steelFittings },
      }),
  ),
  fc
    .tuple(place, place, tags, fc.integer({ min: 0, max: 11 }), steel)
    .map(
      ([x, y, t, turn, steelFittings]): Element =>
        box(x, y, t, { rotationDeg: turn * 15, facts: { ...noFacts, steelFittings } }),
    ),
);
/** Racks, couplings, bends and wireways: whatever is offered for them has to work as well. */
const besides = fc.constantFrom<Partial<Run>>(
  {},
  { couplings: { is: "table" } },
  { bends: { is: "table" } },
  { wiring: { type: "wireway", tradeSize: "4x4", outsideDiameter: null } },
);
const moreElements = fc.oneof(
  fc
    .tuple(fc.array(fc.tuple(place, place, tags), { minLength: 2, maxLength: 4 }), besides)
    .map(([vertices, more]): Element => run(vertices, more)),
  fc
    .tuple(
      fc.array(fc.tuple(place, place, tags), { minLength: 2, maxLength: 3 }),
      fc.array(fc.tuple(types, fc.constantFrom("3/4", "2"), steel, besides), { minLength: 1, maxLength: 3 }),
    )
    .map(
      ([vertices, list]): Element => ({
        kind: "rack",
        label: "K-1",
        viewport: "v1",
        raceways: list.map(([type, tradeSize, steelFittings, more]) => ({
          label: "",
          wiring: { type, tradeSize, outsideDiameter: null },
          facts: { ...noFacts, steelFittings },
          ...more,
        })),
        spacing: { is: "centres", apart: inch(4) },
        vertices: vertices.map(([x, y, t]) => ({ at: [x, y] as const, tag: t })),
      }),
    ),
);
const jobsOf = (of: fc.Arbitrary<Element>) =>
  fc
    .tuple(
      areaTables,
      fc.array(of, { minLength: 1, maxLength: 4 }),
      fc.constantFrom("us-2008", "us-2020", "us-2023", "us-2026"),
      fc.constantFrom(0, 0, 0.25),
      fc.boolean(),
    )
    .map(([table, list, edition, plusMinus, metric]) => {
      const base = inchJob(edition);
      const tolerances = { tags: inch(plusMinus), decks: inch(plusMinus / 2), plan: inch(plusMinus * 2) };
      const system = metric ? ("metric" as const) : ("imperial" as const);
      return withParts(
        { ...base, settings: { job: { ...base.settings.job, tolerances, system } } },
        table,
        Object.fromEntries(list.map((element, i) => [`e${i}`, { ...element, label: `E-${i}` }])),
      );
    });

const jobs = jobsOf(elements);
const moreJobs = jobsOf(moreElements);

/** Every job that a remedy may lead to; none for what a person has to record or to settle. */
function carriedOut(job: Job, finding: Finding, remedy: Remedy): Job[] {
  if (remedy.wiring) {
    const { types: kinds, needs } = remedy.wiring;
    return kinds.map((type) => rewiredJob(job, finding.elementId, type, needs, finding.about)!);
  }
  const edit = remedyEdit(job, finding.elementId, remedy);
  return edit ? [apply(job, edit)] : [];
}

/** The job with a run hung from deep channel under a level deck: its top 1 5/8 in. below the lowest surface, nothing off. Undefined for other runs and decks. */
function hung(job: Job, finding: Finding): Job | undefined {
  const element = job.elements[finding.elementId]!;
  const shape = job.areas[finding.areas[0]!]!.elevation.shape;
  if (!("vertices" in element) || shape.is !== "level" || !shape.at) return undefined;
  const flat = element.vertices.every(({ at }, i) => i === 0 || distance2(at, element.vertices[i - 1]!.at) > 0);
  if (!flat) return undefined;
  const nothing = inch(0);
  const t = tag(shape.at.value - 1.625, "top", { plusMinus: nothing });
  const settings = {
    job: { ...job.settings.job, tolerances: { tags: nothing, decks: nothing, plan: nothing } },
  };
  const vertices = element.vertices.map((vertex) => ({ ...vertex, tag: t }));
  return { ...job, settings, elements: { ...job.elements, [finding.elementId]: { ...element, vertices } } };
}

test(`a run hung from the support that is offered is clear of every roof (seed ${seed})`, () => {
  let tried = 0;
  fc.assert(
    fc.property(jobs, (job) => {
      for (const finding of checkJob(job).findings) {
        const after = finding.remedies.some(({ kind }) => kind === "support") ? hung(job, finding) : undefined;
        if (!after) continue;
        tried++;
        const own = checkJob(after).findings.filter(({ elementId }) => elementId === finding.elementId);
        const near = own.filter(({ verdict }) => ["too-close", "borderline", "concealed"].includes(verdict));
        expect(near).toEqual([]);
      }
    }),
    { numRuns: 250, seed },
  );
  expect(tried).toBeGreaterThan(15);
});

test(`every remedy offered that can be carried out makes its finding go away (seed ${seed})`, () => {
  const offered = new Map<string, number>();
  fc.assert(
    fc.property(jobs, (job) => {
      for (const finding of checkJob(job).findings)
        for (const remedy of finding.remedies)
          for (const after of carriedOut(job, finding, remedy)) {
            offered.set(remedy.kind, (offered.get(remedy.kind) ?? 0) + 1);
            const own = checkJob(after).findings.filter(({ elementId }) => elementId === finding.elementId);
            expect(own.filter((after) => isSameFinding(after, finding))).toEqual([]);
            if (remedy.kind === "move") expect(own.every(({ verdict }) => isQuiet(verdict))).toBe(true);
          }
    }),
    { numRuns: 400, seed },
  );
  // Each kind came up often enough for the test to mean something.
  for (const kind of ["lower", "move", "change-wiring"]) expect(offered.get(kind) ?? 0, kind).toBeGreaterThan(20);
});

test(`remedies for racks, couplings, bends and wireways make their finding go away too (seed ${seed})`, () => {
  const offered = new Map<string, number>();
  fc.assert(
    fc.property(moreJobs, (job) => {
      for (const finding of checkJob(job).findings)
        for (const remedy of finding.remedies)
          for (const after of carriedOut(job, finding, remedy)) {
            offered.set(remedy.kind, (offered.get(remedy.kind) ?? 0) + 1);
            const own = checkJob(after).findings.filter(({ elementId }) => elementId === finding.elementId);
            expect(own.filter((one) => isSameFinding(one, finding))).toEqual([]);
          }
    }),
    { numRuns: 150, seed },
  );
  for (const kind of ["lower", "move", "change-wiring"]) expect(offered.get(kind) ?? 0, kind).toBeGreaterThan(3);
});

test(`no shorter move than the one offered would do under level roofs (seed ${seed})`, () => {
  let tried = 0;
  const levelJobs = jobs.filter((job) =>
    Object.values(job.areas).every(({ elevation: { shape } }) => shape.is === "level"),
  );
  fc.assert(
    fc.property(levelJobs, (job) => {
      for (const finding of checkJob(job).findings) {
        const move = finding.remedies.find(({ kind }) => kind === "move");
        const element = job.elements[finding.elementId]!;
        if (!move?.byIn || !isLevel(element)) continue;
        tried++;
        const step = job.settings.job.system === "metric" ? 1 / 25.4 : 1 / 16;
        for (const part of [0.5, 0.9, 1])
          for (let degrees = 0; degrees < 360; degrees += 15) {
            const length = (move.byIn - step) * part - 1e-3;
            const angle = (degrees * Math.PI) / 180;
            const shift: Point2 = [length * Math.cos(angle), length * Math.sin(angle)];
            if (length <= 0) continue;
            const edit = remedyEdit(job, finding.elementId, { kind: "move", text: "", byIn: length, shift });
            const after = checkJob(apply(job, edit!)).findings.filter(
              ({ elementId }) => elementId === finding.elementId,
            );
            expect(
              after.every(({ verdict }) => isQuiet(verdict)),
              `${degrees}° ${length}`,
            ).toBe(false);
          }
      }
    }),
    { numRuns: 250, seed },
  );
  expect(tried).toBeGreaterThan(5);
});

function isLevel(element: Element): boolean {
  if (!("vertices" in element)) return true;
  const given = element.vertices.map(({ tag: t }) => JSON.stringify(t));
  return given.every((each) => each === given[0]);
}

test(`the shortest way out of an outline is out, and nothing shorter is, ring by ring (seed ${seed})`, () => {
  const bodies = fc.array(fc.tuple(place, place), { minLength: 1, maxLength: 4 }).map(
    (corners): PlanBody => ({
      corners,
      sides: corners.length === 1 ? [[corners[0]!, corners[0]!]] : corners.slice(1).map((to, i) => [corners[i]!, to]),
    }),
  );
  fc.assert(
    fc.property(bodies, outlines, fc.integer({ min: 1, max: 12 }), (body, outline, apart) => {
      const polygon: Polygon = { outline, holes: [] };
      fc.pre(roomLeft(body, polygon, [0, 0]) < apart);
      const [shift] = leastShifts(body, polygon, apart, 1000, 1);
      if (!shift) throw new Error("a bounded outline always has a way out");
      expect(roomLeft(body, polygon, shift)).toBeGreaterThanOrEqual(apart - 1e-6);
      const least = Math.hypot(shift[0], shift[1]);
      for (const part of [0, 0.5, 0.9, 0.99, 0.9999])
        for (let degrees = 0; degrees < 360; degrees += 10) {
          const angle = (degrees * Math.PI) / 180;
          const to: Point2 = [least * part * Math.cos(angle), least * part * Math.sin(angle)];
          if (least > 1e-6) expect(roomLeft(body, polygon, to), `${degrees}° ${part}`).toBeLessThan(apart);
        }
    }),
    { numRuns: 80, seed },
  );
});

/** Slow twin: least distance of points spread along the body to points spread along the outline; 0 where any lies inside. */
function roomLeft({ sides }: PlanBody, polygon: Polygon, [dx, dy]: Point2): number {
  const spread = (from: Point2, to: Point2): Point2[] => {
    const parts = Math.max(1, Math.ceil(distance2(from, to)));
    return Array.from({ length: parts + 1 }, (_, i) => [
      from[0] + ((to[0] - from[0]) * i) / parts,
      from[1] + ((to[1] - from[1]) * i) / parts,
    ]);
  };
  const along = sides.flatMap(([a, b]) => spread([a[0] + dx, a[1] + dy], [b[0] + dx, b[1] + dy]));
  if (along.some((point) => locate(polygon, point) === "inside")) return 0;
  return Math.min(
    ...polygon.outline.flatMap((c, i) => {
      const d = polygon.outline[(i + 1) % polygon.outline.length]!;
      return along.map((p) => toLine(p, c, d));
    }),
    ...sides.flatMap(([a, b]) => polygon.outline.map((w) => toLine(w, [a[0] + dx, a[1] + dy], [b[0] + dx, b[1] + dy]))),
  );
}

function toLine(p: Point2, a: Point2, b: Point2): number {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const square = ux * ux + uy * uy;
  const t = square > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / square)) : 0;
  return Math.hypot(p[0] - a[0] - ux * t, p[1] - a[1] - uy * t);
}
