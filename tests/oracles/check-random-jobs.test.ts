import { describe, expect, test } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { Finding } from "../../src/check/finding.ts";
import { parseJob } from "../../src/job/parse-job.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { KINDS, type Kind } from "./drawn-scenes.ts";
import { wrongOf } from "./plain-check.ts";
import { randomJob } from "./random-jobs.ts";

/*
 * 10,000 random jobs a run, from the job file to the findings, against the plain answer. The seed is the number of the day unless
 * SCENES_SEED names one; a failure names its seed and the number of its scene, and SCENES_ONLY checks that one alone.
 */
const seed = Number(process.env.SCENES_SEED ?? Math.floor(Date.now() / 86_400_000));
const only = process.env.SCENES_ONLY;

type Break = (job: Job) => Job;
type Twist = (findings: readonly Finding[]) => readonly Finding[];
const asIs: Break = (job) => job;
const untouched: Twist = (findings) => findings;

/** What is wrong with the findings of a scene; its job broken first, or its findings twisted after, where a test wants to be noticed. */
function checked(kind: Kind, number: number, breaks = asIs, twists = untouched) {
  const { scene, json } = randomJob(kind, seeded(seed * 100_003 + number * 31 + kind.length));
  const job = parseJob(json);
  if (!job.ok) return { wrong: [JSON.stringify(job.problems)], findings: [] };
  const findings = twists(checkJob(breaks(job.value)).findings);
  return { wrong: wrongOf(scene, findings), findings };
}

describe(`random jobs against the plain answer (SCENES_SEED=${seed})`, () => {
  test.each(Object.entries(KINDS) as [Kind, number][])(
    "%s, %d scenes",
    (kind, count) => {
      const failed: string[] = [];
      const verdicts = new Set<string>();
      for (let number = 0; number < count; number++) {
        if (only !== undefined && number !== Number(only)) continue;
        const { wrong, findings } = checked(kind, number);
        for (const { verdict } of findings) verdicts.add(verdict);
        if (wrong.length > 0)
          failed.push(`SCENES_SEED=${seed} SCENES_ONLY=${number} (${kind}): ${wrong.slice(0, 4).join("; ")}`);
      }
      expect(failed.slice(0, 10), `${failed.length} of ${count} scenes`).toEqual([]);
      if (only === undefined)
        expect([...verdicts]).toEqual(expect.arrayContaining(["clear", "too-close", "cannot-tell"]));
    },
    120_000,
  );
});

const areasOf = (job: Job, change: (area: Area) => Area): Job => ({
  ...job,
  areas: Object.fromEntries(Object.entries(job.areas).map(([id, area]) => [id, change(area)])),
});
type Elements = Job["elements"][string];
type OfKind<K extends Elements["kind"]> = Extract<Elements, { kind: K }>;
const elementsOf = <K extends Elements["kind"]>(job: Job, kind: K, change: (element: OfKind<K>) => Elements): Job => ({
  ...job,
  elements: Object.fromEntries(
    Object.entries(job.elements).map(([id, element]) => [
      id,
      element.kind === kind ? change(element as OfKind<K>) : element,
    ]),
  ),
});
const runsOf = (job: Job, change: (run: OfKind<"run">) => Elements): Job => elementsOf(job, "run", change);

/** A check is worth what it can see: what a broken engine would do, done to the job it is given. */
const BREAKS: readonly (readonly [name: string, kind: Kind, breaks: Break])[] = [
  ["holes are not cut out", "level", (job) => areasOf(job, (area) => ({ ...area, holes: [] }))],
  [
    "slopes are taken as level",
    "sloped",
    (job) =>
      areasOf(job, (area) => {
        const { shape } = area.elevation;
        return shape.is === "slope"
          ? { ...area, elevation: { ...area.elevation, shape: { ...shape, rise: 0 } } }
          : area;
      }),
  ],
  [
    "slopes fall the other way",
    "sloped",
    (job) =>
      areasOf(job, (area) => {
        const { shape } = area.elevation;
        if (shape.is !== "slope") return area;
        const [[x, y], [tx, ty]] = [shape.point, shape.towards];
        const towards = [2 * x - tx, 2 * y - ty] as const;
        return { ...area, elevation: { ...area.elevation, shape: { ...shape, towards } } };
      }),
  ],
  [
    "two spots are exchanged",
    "spots",
    (job) =>
      areasOf(job, (area) => {
        const { shape } = area.elevation;
        if (shape.is !== "spots") return area;
        const [a, b, ...rest] = shape.spots;
        const spots = [{ ...a!, elevation: b!.elevation }, { ...b!, elevation: a!.elevation }, ...rest];
        return { ...area, elevation: { ...area.elevation, shape: { ...shape, spots } } };
      }),
  ],
  [
    "folds are forgotten",
    "folded",
    (job) =>
      areasOf(job, (area) => {
        const { shape } = area.elevation;
        if (shape.is !== "spots") return area;
        return { ...area, elevation: { ...area.elevation, shape: { is: "spots", spots: shape.spots } } };
      }),
  ],
  [
    "the conversion to the lowest surface is left out",
    "level",
    (job) => areasOf(job, (area) => ({ ...area, elevation: { ...area.elevation, basis: "bottom-of-deck" } })),
  ],
  [
    "the storey of a deck is left out",
    "level",
    (job) => areasOf(job, (area) => ({ ...area, elevation: { ...area.elevation, datum: { from: "project" } } })),
  ],
  [
    "tags are read to the centre whatever they name",
    "level",
    (job) =>
      runsOf(job, (run) => ({
        ...run,
        vertices: run.vertices.map((v) => ({ ...v, tag: v.tag && { ...v.tag, basis: "centre" as const } })),
      })),
  ],
  [
    "every tubing is of one size",
    "level",
    (job) => runsOf(job, (run) => ({ ...run, wiring: { type: "emt", tradeSize: "1/2", outsideDiameter: null } })),
  ],
  [
    "floors count as roofs",
    "bays",
    (job) => areasOf(job, (a) => ({ ...a, classification: { ...a.classification, is: "roof" } })),
  ],
  [
    "the wrong one of two scales is used",
    "boxes",
    (job) => ({
      ...job,
      viewports: Object.fromEntries(
        Object.entries(job.viewports).map(([id, view]) => {
          const use = view.scale.stated ? ("stated" as const) : view.scale.use;
          return [id, { ...view, scale: { ...view.scale, use } }];
        }),
      ),
    }),
  ],
  [
    "the last segment of a run is forgotten",
    "level",
    (job) => runsOf(job, (run) => ({ ...run, vertices: run.vertices.slice(0, 2) })),
  ],
  ["couplings are forgotten", "couplings", (job) => runsOf(job, ({ couplings: _, ...run }) => run)],
  [
    "the radius of bends is doubled",
    "bends",
    (job) =>
      runsOf(job, (run) => {
        const { bends } = run;
        if (bends?.is !== "own") return run;
        return { ...run, bends: { is: "own", length: { ...bends.length, value: 2 * bends.length.value } } };
      }),
  ],
  [
    "the raceways of a rack lie on its line",
    "racks",
    (job) =>
      elementsOf(job, "rack", (rack) => ({ ...rack, spacing: { is: "centres", apart: { value: 0, unit: "in" } } })),
  ],
  [
    "the raceways of a rack lie the other way round",
    "racks",
    (job) => elementsOf(job, "rack", (rack) => ({ ...rack, raceways: [...rack.raceways].reverse() })),
  ],
  [
    "a wireway lies on its side",
    "wireways",
    (job) =>
      runsOf(job, (run) => {
        const { section } = run.wiring;
        if (!section) return run;
        return { ...run, wiring: { ...run.wiring, section: { width: section.height, height: section.width } } };
      }),
  ],
  [
    "boxes are not turned",
    "boxes",
    (job) => ({
      ...job,
      elements: Object.fromEntries(
        Object.entries(job.elements).map(([id, e]) => [id, "rotationDeg" in e ? { ...e, rotationDeg: 0 } : e]),
      ),
    }),
  ],
];

const TWISTS: readonly (readonly [name: string, kind: Kind, twists: Twist])[] = [
  [
    "distances lose their sign",
    "level",
    (all) => all.map((f) => ({ ...f, leastIn: f.leastIn && Math.abs(f.leastIn) })),
  ],
  [
    "distances are off by 1e-5 in.",
    "sloped",
    (all) => all.map((f) => ({ ...f, leastIn: f.leastIn && f.leastIn + 1e-5 })),
  ],
  [
    "the vertical gap is told for the distance",
    "sloped",
    (all) => all.map((f) => ({ ...f, leastIn: f.verticalIn ?? f.leastIn })),
  ],
  [
    "exactly at the limit counts as too close",
    "limit",
    (all) =>
      all.map((f) => (f.verdict === "clear" && f.leastIn! < f.requiredIn + 1e-9 ? { ...f, verdict: "too-close" } : f)),
  ],
  [
    "a hair under the limit passes",
    "limit",
    (all) =>
      all.map((f) => (f.verdict === "too-close" && f.leastIn! > f.requiredIn - 1e-5 ? { ...f, verdict: "clear" } : f)),
  ],
  [
    "stretches start late by 1e-3 in.",
    "sloped",
    (all) => all.map((f) => ({ ...f, stretches: f.stretches.map((s) => ({ ...s, fromIn: s.fromIn + 1e-3 })) })),
  ],
  [
    "stretches end late by 1e-3 in.",
    "level",
    (all) => all.map((f) => ({ ...f, stretches: f.stretches.map((s) => ({ ...s, toIn: s.toIn + 1e-3 })) })),
  ],
  ["one stretch of several is lost", "level", (all) => all.map((f) => ({ ...f, stretches: f.stretches.slice(0, 1) }))],
  ["what cannot be told is left out", "bays", (all) => all.filter((f) => f.verdict !== "cannot-tell")],
  [
    "above the deck reads as clear",
    "level",
    (all) => all.map((f) => (f.verdict === "cannot-tell" ? { ...f, verdict: "clear" as const } : f)),
  ],
];

describe(`what the plain answer notices (SCENES_SEED=${seed})`, () => {
  const noticed = (kind: Kind, breaks: Break, twists: Twist): boolean => {
    for (let number = 0; number < 400; number++)
      if (checked(kind, number, breaks, twists).wrong.length > 0) return true;
    return false;
  };
  test.each(BREAKS)("%s (%s)", (_name, kind, breaks) => expect(noticed(kind, breaks, untouched)).toBe(true));
  test.each(TWISTS)("%s (%s)", (_name, kind, twists) => expect(noticed(kind, asIs, twists)).toBe(true));
});
