import { distance2, type Point2 } from "../../../src/geometry/point.ts";
import { findGrid } from "../../../src/pdf/read/find-grid.ts";
import { followLine } from "../../../src/pdf/read/follow-line.ts";
import type { Linework } from "../../../src/pdf/read/linework.ts";
import { nearestLine } from "../../../src/pdf/read/nearest-line.ts";
import type { PageContents } from "../../../src/pdf/read/plan-contents.ts";
import { readSheet } from "../../../src/pdf/read/read-linework.ts";
import { readViewports } from "../../../src/pdf/read/read-viewports.ts";
import { runNoteIn } from "../../../src/pdf/read/run-notes.ts";
import { readScales } from "../../../src/pdf/read/scale-witnesses.ts";
import { slopeArrow } from "../../../src/pdf/read/slope-arrows.ts";
import { tagsIn } from "../../../src/pdf/read/stacked-tags.ts";
import { titleOfSheet } from "../../../src/pdf/read/title-block.ts";
import { sheetUnits } from "../../../src/units/quantity.ts";
import { type DrawnPlan, type DrawnRun, drawnPlan } from "./drawn-plan.ts";
import { distanceToLine, farthest, frames, type Tally } from "./measure-reading.ts";
import { withPlan } from "./open-bytes.ts";
import type { SheetFrame } from "./sheet-drawing.ts";

/** What is counted on drawn plans. `ties` are the lines that tags and notes of runs are tied to. */
export const PLAN_COUNTS = [
  "notes",
  "grids",
  "tags",
  "runNotes",
  "slopes",
  "dimensions",
  "runs",
  "ties",
  "titles",
  "viewports",
] as const;
export type PlanTallies = Readonly<Record<(typeof PLAN_COUNTS)[number], Tally>>;

/** Reads random plans, each on a page of the next frame, and compares all that is found with what was drawn. */
export async function measurePlans(
  seeds: readonly number[],
  lying: readonly SheetFrame[] = frames,
): Promise<PlanTallies> {
  const tallies = Object.fromEntries(
    PLAN_COUNTS.map((name): [string, Tally] => [name, { drawn: 0, found: 0, right: 0, notes: [] }]),
  ) as PlanTallies;
  for (const [i, seed] of seeds.entries()) {
    const drawn = await drawnPlan(seed, lying[i % lying.length]!);
    await withPlan(drawn.bytes.slice(), async (plan) => {
      const { contents, linework } = await readSheet(plan, 1);
      const viewports = readViewports(drawn.bytes.slice());
      pair(
        tallies.viewports,
        `seed ${seed}`,
        [drawn.viewport],
        viewports.ok ? viewports.value : [],
        ({ box, ratio }, each) =>
          Math.abs((each.measure?.ratio ?? 0) - ratio) < 1e-6 &&
          box.every((edge, k) => Math.abs(edge - each.box[k]!) < 1e-6),
        named,
      );
      count(tallies, `seed ${seed}`, drawn, contents, linework);
    });
  }
  return tallies;
}

/** Counts pairs: each truth takes the first that fits of what was found; what stays is missed or made up. */
function pair<T, U>(
  tally: Tally,
  seed: string,
  truths: readonly T[],
  found: readonly U[],
  fits: (truth: T, each: U) => boolean,
  told: (each: T | U) => string,
): void {
  const left = [...found];
  tally.drawn += truths.length;
  tally.found += found.length;
  for (const truth of truths) {
    const i = left.findIndex((each) => fits(truth, each));
    if (i < 0) tally.notes.push(`${seed}: ${told(truth)} missed`);
    else {
      tally.right++;
      left.splice(i, 1);
    }
  }
  for (const each of left) tally.notes.push(`${seed}: ${told(each)} made up or misread`);
}

const near = (a: Point2, b: Point2): boolean => distance2(a, b) < 0.5;
const named = (each: object): string => JSON.stringify(each, (key, value) => (key === "run" ? undefined : value));

function count(tallies: PlanTallies, seed: string, drawn: DrawnPlan, contents: PageContents, linework: Linework): void {
  const { texts } = contents;
  const scales = readScales({ contents, linework });
  const { number, name } = titleOfSheet(contents.geometry, texts);
  pair(
    tallies.titles,
    seed,
    [{ number: drawn.number, name: drawn.name }],
    [{ number: number?.text ?? null, name }],
    (truth, each) => truth.number === each.number && truth.name === each.name,
    named,
  );
  pair(
    tallies.notes,
    seed,
    drawn.notes,
    scales.views,
    (note, { note: { ratio, kind, run }, title, inTitleBlock }) =>
      near(note.at, run.at) &&
      (ratio ?? 0).toFixed(6) === (note.ratio ?? 0).toFixed(6) &&
      kind === note.kind &&
      title === note.title &&
      inTitleBlock === (note.title === null),
    named,
  );
  const grids = findGrid(linework, texts);
  pair(
    tallies.grids,
    seed,
    drawn.axes,
    grids.flatMap(({ axes }) => axes),
    (axis, { label, bubbles }) =>
      label === axis.label &&
      bubbles.length === axis.bubbles.length &&
      axis.bubbles.every((at) => bubbles.some(({ centre }) => distance2(centre, at) < 0.1)),
    named,
  );
  const tags = texts.flatMap((run) => tagsIn(run, texts));
  pair(
    tallies.tags,
    seed,
    drawn.tags,
    tags,
    (tag, each) =>
      near(tag.at, each.run.at) &&
      Math.abs(each.value - tag.inches) < 1e-6 &&
      (["basis", "surface", "from", "existing", "approximate"] as const).every((key) => each[key] === tag[key]),
    named,
  );
  const runNotes = texts.flatMap((run) => runNoteIn(run) ?? []);
  pair(
    tallies.runNotes,
    seed,
    drawn.runNotes,
    runNotes,
    (note, { run, size, type, conductors }) =>
      near(note.at, run.at) &&
      size === note.size &&
      type === note.type &&
      conductors.map((each) => `${each.count} #${each.size}${each.ground ? " ground" : ""}`).join() ===
        note.conductors.join(),
    named,
  );
  pair(
    tallies.slopes,
    seed,
    drawn.slopes,
    contents.slopes.map(({ text, rise, run }) => ({ text, rise, arrow: slopeArrow(linework, run) })),
    (slope, { rise, arrow }) =>
      Math.abs(rise - slope.rise) < 1e-9 &&
      arrow !== null &&
      near(arrow.tail, slope.tail) &&
      near(arrow.tip, slope.tip),
    named,
  );
  pair(
    tallies.dimensions,
    seed,
    drawn.dimensions,
    scales.dimensions,
    (dimension, { text, ends: [a, b] }) =>
      text === dimension.text &&
      [
        [a, b],
        [b, a],
      ].some(([p, q]) => near(p!, dimension.ends[0]) && near(q!, dimension.ends[1])),
    ({ text }) => text,
  );
  for (const run of drawn.runs) countRun(tallies.runs, seed, linework, run);
  for (const { at, ofRun, text } of [...drawn.tags, ...drawn.runNotes]) {
    if (ofRun === null) continue;
    tallies.ties.drawn++;
    const run = [...tags, ...runNotes].find((each) => near(each.run.at, at))?.run;
    const line = run && nearestLine(linework, run, grids);
    // Where two lines are as near it says so, and ties to neither.
    if (!line || line.ambiguous) continue;
    tallies.ties.found++;
    const { vertices } = drawn.runs[ofRun]!;
    if (Math.min(...vertices.slice(1).map((b, i) => distanceToLine(line.at, [vertices[i]!, b]))) < 0.6)
      tallies.ties.right++;
    else tallies.ties.notes.push(`${seed}: ${text} tied to another line${line.byLeader ? " by its leader" : ""}`);
  }
}

function countRun(tally: Tally, seed: string, linework: Linework, run: DrawnRun): void {
  tally.drawn++;
  const line = followLine(linework, run.pointed, { reach: sheetUnits(2), atTees: "straight" });
  if (!line) {
    tally.notes.push(`${seed}: nothing at a run drawn as ${run.how}`);
    return;
  }
  tally.found++;
  const off = Math.max(farthest(line.vertices, run.vertices), farthest(run.vertices, line.vertices));
  if (off <= 0.5) tally.right++;
  else
    tally.notes.push(
      `${seed}: a run drawn as ${run.how} is off by ${off.toFixed(1)}; stopped: ${line.ends.map(({ why }) => why)}`,
    );
}
