import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { Point2 } from "../../src/geometry/point.ts";
import { closedRegion } from "../../src/pdf/read/closed-region.ts";
import { findGrid } from "../../src/pdf/read/find-grid.ts";
import { followLine } from "../../src/pdf/read/follow-line.ts";
import type { Linework } from "../../src/pdf/read/linework.ts";
import { openPlan, type PdfEngine } from "../../src/pdf/read/open-plan.ts";
import { readSheet } from "../../src/pdf/read/read-linework.ts";
import { SNAP_KINDS, snapTo } from "../../src/pdf/read/snap-to.ts";
import { sheetUnits } from "../../src/units/quantity.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { madeLinework } from "../pdf/read/made-linework.ts";
import { measureReading, type Tally } from "../pdf/read/measure-reading.ts";
import { measureScales } from "../pdf/read/measure-scales.ts";
import { type BenchRow, benchRow, leastTime } from "./bench-row.ts";
import { slowest } from "./slowest.ts";

const SEED = 91;
const SEGMENTS = 250_000;
const PLACES = 500;
const SHEETS = 160;
const fonts = join(dirname(createRequire(import.meta.url).resolve("pdfjs-dist/package.json")), "standard_fonts/");

/** The largest page of the real drawings, where they are at hand; else one of the samples. */
const [path, page] = existsSync("../shared/drawings/metal-building-set.pdf")
  ? (["../shared/drawings/metal-building-set.pdf", 8] as const)
  : (["samples/riverside-workshop/riverside-workshop.pdf", 2] as const);

/** Its lines and its text. */
async function largestSheet() {
  const plan = await openPlan({ getDocument } as unknown as PdfEngine, new Uint8Array(readFileSync(path)), {
    engineSettings: { standardFontDataUrl: fonts },
  });
  if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
  const { linework, contents } = await readSheet(plan.value, page);
  await plan.value.close();
  return { linework, texts: contents.texts };
}

/** A crowded sheet: walls, symbols, dashed runs drawn dash by dash, in random places. */
function crowdedSheet(random: () => number): Linework {
  const lines: { points: Point2[] }[] = [];
  while (lines.length < SEGMENTS) {
    const [x, y] = [1000 * random(), 1000 * random()];
    const turn = random() < 0.8 ? (Math.floor(random() * 4) * Math.PI) / 2 : 2 * Math.PI * random();
    const dashes = random() < 0.2 ? 40 : 1;
    for (let i = 0; i < dashes; i++) {
      const [from, to] = [12 * i, 12 * i + (dashes > 1 ? 9 : 2 + 30 * random() ** 3)];
      lines.push({
        points: [
          [x + from * Math.cos(turn), y + from * Math.sin(turn)],
          [x + to * Math.cos(turn), y + to * Math.sin(turn)],
        ],
      });
    }
  }
  return madeLinework(lines);
}

/** One long run of 4,000 dashes, up and down the sheet. */
function longRun(): Linework {
  const lines: { points: Point2[] }[] = [];
  for (let column = 0; column < 40; column++) {
    const at = (along: number): Point2 => [20 + 20 * column, column % 2 === 0 ? 20 + along : 920 - along];
    for (let i = 0; i < 100; i++) lines.push({ points: [at(9 * i), at(i === 99 ? 900 : 9 * i + 6)] });
    if (column < 39) lines.push({ points: [at(900), [at(900)[0] + 20, at(900)[1]]] });
  }
  return madeLinework(lines);
}

const share = (name: string, part: number, whole: number, note: string): BenchRow =>
  benchRow(`${name}, per cent`, (100 * part) / whole, "all", 100, note);
const shares = (name: string, { drawn, found, right }: Tally): BenchRow[] => [
  share(`${name} found, of those drawn`, right, drawn, `${right} of ${drawn} on ${SHEETS} random sheets`),
  share(`${name} found that were drawn`, right, found, `${right} of ${found}`),
];

/** Pointing at the lines of crowded sheets, and how much of what is drawn is found. Reading them is measured in read-sheets.bench.ts. */
export async function run(): Promise<BenchRow[]> {
  const { linework: whole, texts } = await largestSheet();
  const random = seeded(SEED);
  const crowded = crowdedSheet(random);
  const places = Array.from({ length: PLACES }, (): Point2 => [1000 * random(), 1000 * random()]);
  const from: Point2 = [500, 500];
  const snapped = slowest(places.map((at) => () => snapTo(crowded, at, sheetUnits(5), SNAP_KINDS, { from })));
  const crowdedRuns = slowest(
    places.slice(0, 100).map((at) => () => followLine(crowded, at, { reach: sheetUnits(5), atTees: "straight" })),
  );
  const long = longRun();
  let vertices = 0;
  const followed = leastTime(
    15,
    () => followLine(long, [20, 400], { reach: sheetUnits(5) })!.vertices.length,
    (count) => {
      vertices = count;
    },
  );
  const regions = slowest(places.slice(0, 40).map((at) => () => closedRegion(crowded, at).found));
  const gridded = slowest([() => findGrid(whole, texts)]);
  const { grid, runs } = await measureReading(Array.from({ length: SHEETS }, (_, i) => i + 1));
  const { dimensions, notes } = await measureScales(Array.from({ length: SHEETS }, (_, i) => i + 1));
  return [
    benchRow("find its grids", gridded.ms, "one frame at 60 per second", 1000 / 60),
    benchRow(
      `snap among ${crowded.count} segments, the slowest of ${PLACES} places`,
      snapped.ms,
      "wanted at most",
      1,
      `${snapped.some} snapped`,
    ),
    benchRow("follow a run of 4,000 dashes", followed, "wanted at most", 25, `${vertices} points`),
    benchRow(`follow a line among ${crowded.count} segments, the slowest of 100`, crowdedRuns.ms, "wanted at most", 50),
    benchRow(
      `closed region among ${crowded.count} segments, the slowest of 40 places`,
      regions.ms,
      "wanted at most",
      50,
      `${regions.some} found`,
    ),
    ...shares("grid lines", grid),
    ...shares("runs followed to both ends", runs),
    ...shares("dimensions with both ends", dimensions),
    ...shares("notes set against bar and dimensions", notes),
  ];
}
