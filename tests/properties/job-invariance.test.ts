import { describe, expect, test } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { CheckResult, Verdict } from "../../src/check/finding.ts";
import type { Element } from "../../src/job/elements/element.ts";
import { parseJob } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { toInches } from "../../src/units/length.ts";
import { findingOf, inchJob, roof, run, tag } from "../check/inch-job.ts";
import { seeded } from "../geometry/random-scenes.ts";
import type { Kind } from "../oracles/drawn-scenes.ts";
import { randomJob } from "../oracles/random-jobs.ts";

/* What must not matter to a verdict: how the sheet lies, where the building stands, which unit a length was typed in, how a run was traced. */
const seed = Number(process.env.SCENES_SEED ?? 91);
const SCENES = 60;
const KINDS: readonly Kind[] = ["level", "sloped", "spots", "folded", "limit", "boxes", "bays", "far"];

type Spot = readonly [number, number];
type LengthData = { value: number; unit: "in" | "ft" | "mm" | "m" };

/** The job with every point of every sheet, and every turn about the vertical, changed. */
function respotted(job: Job, spot: (at: Spot) => Spot, turn: (deg: number) => number): Job {
  const isSpot = (value: unknown): value is Spot =>
    Array.isArray(value) && value.length === 2 && value.every((n) => typeof n === "number");
  const walk = (value: unknown, key = ""): unknown => {
    // The numbers of two spots are not a place.
    if (key === "between") return value;
    if (isSpot(value)) return spot(value);
    if (Array.isArray(value)) return value.map((item) => walk(item));
    if (key === "rotationDeg") return turn(value as number);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, walk(v, k)]));
  };
  const { viewports, areas, elements } = job;
  return { ...job, ...(walk({ viewports, areas, elements }) as Pick<Job, "viewports" | "areas" | "elements">) };
}

/** The job with every length changed; `path` names the fields that lead to it. */
function remeasured(job: Job, change: (length: LengthData, path: readonly string[]) => LengthData): Job {
  const walk = (value: unknown, path: readonly string[]): unknown => {
    if (Array.isArray(value)) return value.map((item) => walk(item, path));
    if (typeof value !== "object" || value === null) return value;
    const keys = Object.keys(value);
    if (keys.length === 2 && keys.includes("value") && keys.includes("unit")) return change(value as LengthData, path);
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, walk(v, [...path, k])]));
  };
  return walk(job, []) as Job;
}

const eachRun = (job: Job, change: (run: Extract<Element, { kind: "run" }>) => Element): Job => ({
  ...job,
  elements: Object.fromEntries(
    Object.entries(job.elements).map(([id, element]) => [id, element.kind === "run" ? change(element) : element]),
  ),
});

const PER_INCH = { in: 1, ft: 1 / 12, mm: 25.4, m: 0.0254 } as const;
const typedIn = (unit: LengthData["unit"]) => (length: LengthData) => ({
  value: length.unit === unit ? length.value : toInches(length) * PER_INCH[unit],
  unit,
});

const CHANGES: readonly (readonly [name: string, change: (job: Job) => Job])[] = [
  [
    "sheets turned and shifted",
    (job) => {
      const [c, s] = [Math.cos(0.7), Math.sin(0.7)];
      const turn = (deg: number) => deg + (0.7 * 180) / Math.PI;
      return respotted(job, ([x, y]) => [c * x - s * y + 310, s * x + c * y - 77], turn);
    },
  ],
  [
    "sheets mirrored",
    (job) =>
      respotted(
        job,
        ([x, y]) => [-x, y],
        (deg) => -deg,
      ),
  ],
  [
    "pages turned for display",
    (job) => ({
      ...job,
      sheets: Object.fromEntries(
        Object.entries(job.sheets).map(([id, sheet]) => [id, { ...sheet, rotate: ((sheet.rotate + 90) % 360) as 0 }]),
      ),
    }),
  ],
  [
    "the building raised",
    (job) =>
      remeasured(job, (length, path) => {
        const isElevation =
          path.includes("storeys") || path.includes("at") || (path.includes("spots") && path.includes("elevation"));
        const isTag = path.includes("tag") && path.includes("length");
        return isElevation || isTag ? { value: toInches(length) + 512, unit: "in" } : length;
      }),
  ],
  ["everything typed in millimetres", (job) => remeasured(job, typedIn("mm"))],
  ["everything typed in inches", (job) => remeasured(job, typedIn("in"))],
  ["everything typed in feet", (job) => remeasured(job, typedIn("ft"))],
  ["everything typed in metres", (job) => remeasured(job, typedIn("m"))],
  [
    "records in the opposite order",
    (job) => {
      const turned = <T>(table: Record<string, T>): Record<string, T> =>
        Object.fromEntries(Object.entries(table).reverse());
      return {
        ...job,
        sheets: turned(job.sheets),
        storeys: turned(job.storeys),
        viewports: turned(job.viewports),
        areas: turned(job.areas),
        elements: turned(job.elements),
      };
    },
  ],
  [
    "a vertex in the middle of every segment",
    (job) =>
      eachRun(job, (element) => ({
        ...element,
        vertices: element.vertices.flatMap((v, i) => {
          const after = element.vertices[i + 1];
          if (!after) return [v];
          const at: Spot = [(v.at[0] + after.at[0]) / 2, (v.at[1] + after.at[1]) / 2];
          return [v, { at, tag: null }];
        }),
      })),
  ],
  [
    "runs traced from their other end",
    (job) => eachRun(job, (element) => ({ ...element, vertices: [...element.vertices].reverse() })),
  ],
  [
    "outlines started at another corner, the other way round",
    (job) => ({
      ...job,
      areas: Object.fromEntries(
        Object.entries(job.areas).map(([id, area]) => {
          const [first, ...rest] = area.outline;
          return [id, { ...area, outline: [...rest, first!].reverse() }];
        }),
      ),
    }),
  ],
];

/** For each element its verdicts, and the least distance with each, where there is one. */
function told({ findings }: CheckResult): Map<string, Map<Verdict, number | null>> {
  const all = new Map<string, Map<Verdict, number | null>>();
  for (const { elementId, verdict, leastIn } of findings) {
    const verdicts = all.get(elementId) ?? new Map<Verdict, number | null>();
    const before = verdicts.get(verdict) ?? null;
    // An element may have several findings of one verdict, at several places.
    verdicts.set(verdict, before === null ? leastIn : Math.min(before, leastIn ?? before));
    all.set(elementId, verdicts);
  }
  return all;
}

/**
 * One datum for the whole job: the building is raised by raising every elevation that is not counted from another. Tags and decks that are
 * counted from a storey go up with it.
 */
function fromProject(job: Job): Job {
  return {
    ...job,
    areas: Object.fromEntries(
      Object.entries(job.areas).map(([id, area]) => {
        const { datum, shape } = area.elevation;
        const floor = datum.from === "storey" ? toInches(job.storeys[datum.storey]!.floor) : 0;
        const up = (length: LengthData | null) => length && { value: toInches(length) + floor, unit: "in" as const };
        const raised =
          shape.is === "spots"
            ? { ...shape, spots: shape.spots.map((spot) => ({ ...spot, elevation: up(spot.elevation) })) }
            : { ...shape, at: up(shape.at) };
        return [id, { ...area, elevation: { ...area.elevation, datum: { from: "project" as const }, shape: raised } }];
      }),
    ),
  };
}

describe(`verdicts of ${SCENES * KINDS.length} jobs (SCENES_SEED=${seed})`, () => {
  test.each(CHANGES)("stay: %s", (_name, change) => {
    const seen = new Set<Verdict>();
    for (const kind of KINDS)
      for (let number = 0; number < SCENES; number++) {
        const parsed = parseJob(randomJob(kind, seeded(seed * 7919 + number)).json);
        if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
        const job = tagsFromProject(fromProject(parsed.value));
        const before = told(checkJob(job));
        const after = told(checkJob(change(job)));
        const where = `${kind} ${number}`;
        expect([...after.keys()].sort(), where).toEqual([...before.keys()].sort());
        for (const [id, verdicts] of before) {
          const now = after.get(id)!;
          expect([...now.keys()].sort(), `${where}, ${id}`).toEqual([...verdicts.keys()].sort());
          for (const [verdict, least] of verdicts) {
            seen.add(verdict);
            const then = now.get(verdict)!;
            if (least === null) expect(then, `${where}, ${id}`).toBeNull();
            else expect(Math.abs(then - least), `${where}, ${id}`).toBeLessThan(1e-6);
          }
        }
      }
    expect([...seen].sort()).toEqual(["cannot-tell", "clear", "concealed", "not-governed", "too-close"]);
  });
});

/** Tags counted from the project datum, for the same reason. */
function tagsFromProject(job: Job): Job {
  const plain = (t: ReturnType<typeof tag> | null) => {
    if (t?.datum.from !== "storey") return t;
    const floor = toInches(job.storeys[t.datum.storey]!.floor);
    const length = { value: toInches(t.length) + floor, unit: "in" as const };
    return { ...t, datum: { from: "project" as const }, length };
  };
  return {
    ...job,
    elements: Object.fromEntries(
      Object.entries(job.elements).map(([id, element]) => {
        if (element.kind === "run")
          return [id, { ...element, vertices: element.vertices.map((v) => ({ ...v, tag: plain(v.tag) })) }];
        return [id, "tag" in element ? { ...element, tag: plain(element.tag) } : element];
      }),
    ),
  };
}

describe("the limit is stated in both systems, and each uses its own value", () => {
  const job = (system: "imperial" | "metric"): Job => {
    const base = inchJob();
    return { ...base, settings: { job: { ...base.settings.job, system } } };
  };
  /** The verdict for a level run whose top is so far below a level deck, everything typed in one unit. */
  const verdict = (system: "imperial" | "metric", gap: LengthData): Verdict => {
    const { unit } = gap;
    const of = (inches: number): LengthData => ({ value: inches * PER_INCH[unit], unit });
    const deck = of(144);
    const t = { ...tag(0, "top"), length: { value: deck.value - gap.value, unit } };
    const base = roof(144);
    const area = { ...base, elevation: { ...base.elevation, shape: { is: "level" as const, at: deck } } };
    const element = run([
      [10, 10, t],
      [200, 10, t],
    ]);
    return findingOf({ a: area }, element, job(system)).verdict;
  };

  test.each<["imperial" | "metric", LengthData, Verdict]>([
    ["imperial", { value: 1.5, unit: "in" }, "clear"],
    ["imperial", { value: 38.1, unit: "mm" }, "clear"],
    ["imperial", { value: 0.125, unit: "ft" }, "clear"],
    ["imperial", { value: 1.5 - 9e-8, unit: "in" }, "clear"],
    ["imperial", { value: 1.5 - 1.1e-7, unit: "in" }, "too-close"],
    ["imperial", { value: 1.499, unit: "in" }, "too-close"],
    ["imperial", { value: 38, unit: "mm" }, "too-close"],
    ["metric", { value: 38, unit: "mm" }, "clear"],
    ["metric", { value: 0.038, unit: "m" }, "clear"],
    ["metric", { value: 38 / 25.4, unit: "in" }, "clear"],
    ["metric", { value: 38 - 9e-8 * 25.4, unit: "mm" }, "clear"],
    ["metric", { value: 38 - 1.1e-7 * 25.4, unit: "mm" }, "too-close"],
    ["metric", { value: 37.9, unit: "mm" }, "too-close"],
    ["metric", { value: 1.5, unit: "in" }, "clear"],
  ])("%s, %j below the deck: %s", (system, gap, expected) => expect(verdict(system, gap)).toBe(expected));
});
