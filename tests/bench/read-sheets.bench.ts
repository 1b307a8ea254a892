import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { basename, dirname, join } from "node:path";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { Point2 } from "../../src/geometry/point.ts";
import { closedRegion } from "../../src/pdf/read/closed-region.ts";
import { followLine } from "../../src/pdf/read/follow-line.ts";
import { bytesOf, type Linework } from "../../src/pdf/read/linework.ts";
import { type OpenPlan, openPlan, type PdfEngine } from "../../src/pdf/read/open-plan.ts";
import type { TextRun } from "../../src/pdf/read/plan-contents.ts";
import { readPage } from "../../src/pdf/read/plan-reader.ts";
import { readSheet } from "../../src/pdf/read/read-linework.ts";
import { runNoteIn } from "../../src/pdf/read/run-notes.ts";
import { SNAP_KINDS, snapTo } from "../../src/pdf/read/snap-to.ts";
import { tagsIn } from "../../src/pdf/read/stacked-tags.ts";
import { sheetUnits } from "../../src/units/quantity.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { type BenchRow, benchRow } from "./bench-row.ts";
import { slowest } from "./slowest.ts";

const SEED = 92;
const ROUNDS = 4;
const PLACES = 200;
const fonts = join(dirname(createRequire(import.meta.url).resolve("pdfjs-dist/package.json")), "standard_fonts/");

/** The page with the most lines of each real drawing that is at hand, the largest first; and of a sample. */
const SHEETS = (
  [
    ["../shared/drawings/metal-building-set.pdf", 8],
    ["../shared/drawings/ti-conference-rcp.pdf", 1],
    ["../shared/drawings/house-A103-roof-11x17-reduced.pdf", 1],
    ["../shared/drawings/cad-a3-rot270-vp.pdf", 1],
    ["samples/fennick-lane-store/fennick-lane-store.pdf", 2],
  ] as const
).filter(([path]) => existsSync(path));

/** The time of some work on a newly opened drawing: the engine keeps what it has read of a page. */
async function timed(path: string, work: (plan: OpenPlan) => Promise<unknown>): Promise<number> {
  const plan = await openPlan({ getDocument } as unknown as PdfEngine, new Uint8Array(readFileSync(path)), {
    engineSettings: { standardFontDataUrl: fonts },
  });
  if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
  try {
    const start = performance.now();
    await work(plan.value);
    return performance.now() - start;
  } finally {
    await plan.value.close();
  }
}

/** The least times of some works on a drawing, taken in turn; the first round warms up. */
async function leastOf(path: string, works: readonly ((plan: OpenPlan) => Promise<unknown>)[]): Promise<number[]> {
  const least = works.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round <= ROUNDS; round++) {
    for (const [i, work] of works.entries()) {
      const time = await timed(path, work);
      if (round > 0) least[i] = Math.min(least[i]!, time);
    }
  }
  return least;
}

/** Reading whole sheets beside the engine's own list of them, what their text tells beside reading it, and pointing at the largest. */
export async function run(): Promise<BenchRow[]> {
  const rows: BenchRow[] = [];
  let largest: Linework | undefined;
  let wordiest: { path: string; page: number; texts: readonly TextRun[] } | undefined;
  for (const [path, page] of SHEETS) {
    let linework: Linework | undefined;
    let texts: readonly TextRun[] = [];
    const [list, ours] = (await leastOf(path, [
      async (plan) => (await plan.document.getPage(page)).getOperatorList(),
      async (plan) => {
        const sheet = await readSheet(plan, page);
        linework = sheet.linework;
        texts = sheet.contents.texts;
      },
    ])) as [number, number];
    const what = `${basename(path)}, page ${page} (${linework!.count} segments, ${texts.length} texts)`;
    rows.push(benchRow(`read ${what}`, ours, "the engine's own operator list of it", list, "at most 1.3x wanted"));
    largest ??= linework;
    if (!wordiest || texts.length > wordiest.texts.length) wordiest = { path, page, texts };
  }
  const { path, page, texts } = wordiest!;
  const [reading] = (await leastOf(path, [(plan) => readPage(plan, page)])) as [number];
  const told = slowest([
    () => texts.flatMap((run) => tagsIn(run, texts)).length + texts.flatMap((run) => runNoteIn(run) ?? []).length,
  ]);
  rows.push(benchRow(`tags and notes of runs in ${texts.length} texts`, told.ms, "reading those texts", reading));

  const lines = largest!;
  const [x0, y0, x1, y1] = lines.view;
  const random = seeded(SEED);
  const places = Array.from({ length: PLACES }, (): Point2 => [x0 + (x1 - x0) * random(), y0 + (y1 - y0) * random()]);
  const from = places[0]!;
  const memory = bytesOf(lines) / lines.count;
  rows.push(benchRow("memory of its lines, bytes a segment", memory, "wanted at most", 60, "bytes, not ms"));
  const wanted = (name: string, most: number, { ms, some }: { ms: number; some: number }): BenchRow =>
    benchRow(`${name}, the slowest of ${PLACES} places`, ms, "wanted at most", most, `${some} found`);
  return [
    ...rows,
    wanted(
      "snap on the largest",
      1,
      slowest(places.map((at) => () => snapTo(lines, at, sheetUnits(5), SNAP_KINDS, { from }))),
    ),
    wanted(
      "follow a line on the largest",
      50,
      slowest(places.map((at) => () => followLine(lines, at, { reach: sheetUnits(20), atTees: "straight" }))),
    ),
    wanted("closed region on the largest", 50, slowest(places.map((at) => () => closedRegion(lines, at).found))),
  ];
}
