import Flatbush from "flatbush";
import { checkJob, createChecker } from "../../src/check/check-job.ts";
import type { Element } from "../../src/job/elements/element.ts";
import { NO_FACTS } from "../../src/job/fields.ts";
import { type Area, emptyJob, type Job } from "../../src/job/schema.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { type BenchRow, benchRow, leastTime } from "./bench-row.ts";
import { buildingScene } from "./building-scene.ts";

const SEED = 61;
const LIMIT_IN = 1.5;
const inch = (value: number) => ({ value, unit: "in" as const });

/** A job of the invented building, one sheet unit to the inch. */
export function buildingJob(columns: number, rows: number, runs: number, segments: number): Job {
  const scene = buildingScene(seeded(SEED), columns, rows, runs, segments);
  const job = emptyJob("Bench", "us-2026");
  const areas = scene.faces.map(({ polygon, plane }, i): [string, Area] => {
    const point = polygon.outline[0]!;
    const rise = Math.hypot(plane.gx, plane.gy);
    const towards: [number, number] = [point[0] - plane.gx * 1000, point[1] - plane.gy * 1000];
    const at = inch(plane.gx * point[0] + plane.gy * point[1] + plane.c);
    return [
      `a${i}`,
      {
        label: `A-${i + 1}`,
        viewport: "v",
        outline: [...polygon.outline],
        holes: polygon.holes.map((hole) => [...hole]),
        classification: { is: "roof", reason: "", by: "" },
        deck: { profile: "wide-rib-1-1/2", depth: null, concreteCover: { is: "none" } },
        elevation: {
          datum: { from: "project" },
          basis: "bottom-of-deck",
          layers: [],
          shape: rise > 0 ? { is: "slope", at, point, towards, rise, text: "" } : { is: "level", at },
          plusMinus: null,
        },
      },
    ];
  });
  const elements = scene.runs.map(({ vertices, radius }, i): [string, Element] => [
    `r${i}`,
    {
      kind: "run",
      label: `R-${i + 1}`,
      viewport: "v",
      wiring: { type: "emt", tradeSize: "3/4", outsideDiameter: inch(2 * radius) },
      vertices: vertices.map(([x, y, z]) => ({
        at: [x, y],
        tag: { length: inch(z), datum: { from: "project" }, basis: "centre", plusMinus: null },
      })),
      facts: NO_FACTS,
    },
  ]);
  return {
    ...job,
    sheets: {
      s: {
        title: "S",
        file: { sha256: "0".repeat(64), name: "s.pdf", bytes: 1 },
        page: 1,
        view: [0, 0, 20000, 20000],
        rotate: 0,
        userUnit: 1,
      },
    },
    viewports: {
      v: {
        sheet: "s",
        name: "Plan",
        region: null,
        storey: null,
        scale: { stated: { text: "", ratio: 72 }, measured: null, use: "stated" },
        registration: null,
      },
    },
    areas: Object.fromEntries(areas),
    elements: Object.fromEntries(elements),
  };
}

/**
 * The whole check of a job of 10,000 runs (100,000 segments) under 1,000 deck areas, reasons and remedies included, beside the same
 * segments through the bare index queries; and one moved vertex in that job beside one bare query of that run.
 */
export async function run(): Promise<BenchRow[]> {
  const job = buildingJob(40, 25, 10_000, 10);
  const scene = buildingScene(seeded(SEED), 40, 25, 10_000, 10);
  const tree = new Flatbush(scene.faces.length);
  for (const { box } of scene.faces) tree.add(box.min[0], box.min[1], box.max[0], box.max[1]);
  tree.finish();
  const query = (from: number, to: number): number => {
    let hits = 0;
    for (const { vertices, radius } of scene.runs.slice(from, to)) {
      const reach = LIMIT_IN + radius;
      for (let i = 1; i < vertices.length; i++) {
        const [p, q] = [vertices[i - 1]!, vertices[i]!];
        hits += tree.search(
          Math.min(p[0], q[0]) - reach,
          Math.min(p[1], q[1]) - reach,
          Math.max(p[0], q[0]) + reach,
          Math.max(p[1], q[1]) + reach,
        ).length;
      }
    }
    return hits;
  };
  let sink = 0;
  const keep = (n: number): void => {
    sink += n;
  };
  const floor = leastTime(5, () => query(0, 10_000), keep);
  const whole = leastTime(3, () => checkJob(job).findings.length, keep);

  const checker = createChecker();
  checker(job);
  let present = job;
  let moves = 0;
  const move = (): number => {
    const id = `r${(moves++ * 37) % 10_000}`;
    const run = present.elements[id] as Extract<Element, { kind: "run" }>;
    const vertices = run.vertices.map((v, i) => (i === 3 ? { ...v, at: [v.at[0] + 1, v.at[1]] as const } : v));
    present = { ...present, elements: { ...present.elements, [id]: { ...run, vertices } } };
    return checker(present).findings.length;
  };
  const one = leastTime(20, move, keep);
  const bareOne = leastTime(5, () => query(0, 100), keep) / 100;
  if (!(sink > 0)) throw new Error("nothing was measured");
  return [
    benchRow(
      "check a job: 10,000 runs, 100,000 segments, 1,000 deck areas, with reasons",
      whole,
      "the same segments through the bare index queries",
      floor,
    ),
    benchRow(
      "check again after one moved vertex in that job",
      one,
      "bare index queries of one run",
      bareOne,
      "the whole list of findings is put in order again",
    ),
  ];
}
