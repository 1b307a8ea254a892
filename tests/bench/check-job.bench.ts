import Flatbush from "flatbush";
import { checkJob, createChecker } from "../../src/check/check-job.ts";
import { apply, editOf } from "../../src/job/edit.ts";
import type { Element } from "../../src/job/elements/element.ts";
import { NO_FACTS } from "../../src/job/fields.ts";
import { type Area, emptyJob, type Job } from "../../src/job/schema.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { plainSheet, plainViewport } from "../job/plain-records.ts";
import { bareQueries } from "./bare-queries.ts";
import { type BenchRow, benchRow, leastTime, leastTimes } from "./bench-row.ts";
import { buildingScene } from "./building-scene.ts";
import { answerOf } from "./forced-answer.ts";

/** Of the random building. */
export const SEED = 61;
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
    sheets: { s: plainSheet({ view: [0, 0, 20000, 20000] }) },
    viewports: { v: plainViewport("s", 72) },
    areas: Object.fromEntries(areas),
    elements: Object.fromEntries(elements),
  };
}

const FAR = 25;
const MOVES = 200;

/**
 * The whole check of a job of 10,000 runs (100,000 segments) under 1,000 deck areas beside the same segments through the bare index
 * queries; what it takes to explain its findings; one moved vertex in that job with its new findings and their reasons; and how the cost grows
 * with segments and with areas.
 */
export async function run(): Promise<BenchRow[]> {
  const job = buildingJob(40, 25, 10_000, 10);
  const tenth = { ...job, elements: Object.fromEntries(Object.entries(job.elements).slice(0, 1_000)) };
  const scene = buildingScene(seeded(SEED), 40, 25, 10_000, 10);
  const tree = new Flatbush(scene.faces.length);
  for (const { box } of scene.faces) tree.add(box.min[0], box.min[1], box.max[0], box.max[1]);
  tree.finish();
  const query = (): number => bareQueries(tree, scene.runs, LIMIT_IN);
  let sink = 0;
  const keep = (n: number): void => {
    sink += n;
  };
  // The same runs over the same plan, its bays each parted in 25.
  const fine = buildingJob(40, 25, 0, 0);
  const parted = { ...fine, elements: tenth.elements, areas: partedAreas(fine) };
  const check = (of: Job) => (): number => answerOf(checkJob(of));
  // A new scene costs by areas alone: it is kept, and all elements are made new, so that each is checked again.
  const again = (of: Job) => {
    const checker = createChecker();
    checker(of);
    return (): number => {
      const elements = Object.fromEntries(Object.entries(of.elements).map(([id, element]) => [id, { ...element }]));
      return answerOf(checker({ ...of, elements }));
    };
  };
  const works = [query, check(job), check(tenth), again(tenth), again(parted)];
  const [floor = 0, whole = 0, part = 0, overFew = 0, overMany = 0] = leastTimes(6, works, keep);
  const sample = checkJob(tenth).findings;
  const explaining = leastTime(1, () => sample.reduce((sum, { reasons }) => sum + reasons.children.length, 0), keep);
  const settling = leastTime(1, () => sample.reduce((sum, { remedies }) => sum + remedies.length, 0), keep);

  const checker = createChecker();
  let present = job;
  checker(present);
  const before = checker.checked();
  const times: number[] = [];
  for (let n = 0; n < MOVES; n++) {
    const id = `r${(n * 37) % 10_000}`;
    const run = present.elements[id] as Extract<Element, { kind: "run" }>;
    const vertices = run.vertices.map((v, i) =>
      i === 3 ? { ...v, at: [v.at[0] + 1, v.at[1]] as [number, number] } : v,
    );
    const edit = editOf(present, "Move a vertex", [{ table: "elements", id, after: { ...run, vertices } }]);
    present = apply(present, edit);
    const moved = (): number =>
      checker(present, edit)
        .findings.filter(({ elementId }) => elementId === id)
        .reduce((sum, { reasons }) => sum + reasons.children.length, 0);
    times.push(leastTime(1, moved, keep));
  }
  const median = times.sort((a, b) => a - b)[MOVES / 2]!;
  const each = (checker.checked() - before) / MOVES;
  if (!(sink > 0)) throw new Error("nothing was measured");
  return [
    benchRow(
      "check a job: 10,000 runs, 100,000 segments, 1,000 deck areas",
      whole,
      "the same segments through the bare index queries",
      floor,
      "from the job as it is stored; reasons and remedies are worked out when they are read",
    ),
    benchRow("check a job: the same, per run against a tenth of the runs", whole / 10, "a tenth of the runs", part),
    benchRow(
      `check a job: a tenth of the runs under ${FAR} times the deck areas`,
      overMany,
      "the same under 1,000",
      overFew,
      "without reading the areas; runs cross more of them",
    ),
    benchRow("the reasons of one finding", explaining / sample.length, "one frame at 60 per second", 1000 / 60),
    benchRow("the remedies of one finding", settling / sample.length, "one frame at 60 per second", 1000 / 60),
    benchRow(
      "check again after one moved vertex in that job, with the reasons of its findings, median",
      median,
      "one frame at 60 per second",
      1000 / 60,
      `${each} element checked for each`,
    ),
  ];
}

/** Areas parted into a grid of 5 by 5 within their bounding boxes. */
function partedAreas(job: Job): Job["areas"] {
  const side = Math.sqrt(FAR);
  return Object.fromEntries(
    Object.entries(job.areas).flatMap(([id, area]) => {
      const xs = area.outline.map(([x]) => x);
      const ys = area.outline.map(([, y]) => y);
      const [x0, y0] = [Math.min(...xs), Math.min(...ys)];
      const [w, h] = [(Math.max(...xs) - x0) / side, (Math.max(...ys) - y0) / side];
      return Array.from({ length: FAR }, (_, n): [string, Area] => {
        const [x, y] = [x0 + (n % side) * w, y0 + Math.floor(n / side) * h];
        const outline: Area["outline"] = [
          [x, y],
          [x + w, y],
          [x + w, y + h],
          [x, y + h],
        ];
        return [`${id}-${n}`, { ...area, label: `${area.label}.${n}`, outline, holes: [] }];
      });
    }),
  );
}
