import { distance2, type Point2 } from "../../../src/geometry/point.ts";
import { findGrid } from "../../../src/pdf/read/find-grid.ts";
import { followLine } from "../../../src/pdf/read/follow-line.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { readLinework } from "../../../src/pdf/read/read-linework.ts";
import { sheetUnits } from "../../../src/units/quantity.ts";
import { type DrawnSheet, drawnSheet } from "./drawn-sheet.ts";
import { withPlan } from "./open-bytes.ts";
import type { SheetFrame } from "./sheet-drawing.ts";

/** How much of what was drawn was found, and how much of what was found had been drawn. */
export interface Tally {
  drawn: number;
  found: number;
  right: number;
  /** What went wrong, in words. */
  readonly notes: string[];
}

/** Every way a page can lie: rotation, a crop box away from the origin or not, user unit. */
export const frames: readonly SheetFrame[] = ([0, 90, 180, 270] as const).flatMap((rotate) =>
  [[0, 0] as const, [-140, 260] as const].flatMap((corner) => [1, 2].map((userUnit) => ({ rotate, corner, userUnit }))),
);

/** Reads random drawn sheets and compares grids and followed runs with what was drawn. */
export async function measureReading(seeds: readonly number[]): Promise<{ grid: Tally; runs: Tally }> {
  const grid: Tally = { drawn: 0, found: 0, right: 0, notes: [] };
  const runs: Tally = { drawn: 0, found: 0, right: 0, notes: [] };
  for (const [i, seed] of seeds.entries()) {
    const sheet = await drawnSheet(seed, frames[i % frames.length]!);
    await withPlan(sheet.bytes, async (plan) => {
      const { texts } = await readPage(plan, 1);
      const linework = await readLinework(plan, 1);
      countGrid(
        grid,
        seed,
        sheet,
        findGrid(linework, texts).flatMap(({ axes }) => axes),
      );
      for (const run of sheet.runs) {
        runs.drawn++;
        const line = followLine(linework, run.pointed, { reach: sheetUnits(2) });
        if (!line) {
          runs.notes.push(`seed ${seed}: nothing at a run drawn as ${run.how}`);
          continue;
        }
        runs.found++;
        const off = Math.max(farthest(line.vertices, run.vertices), farthest(run.vertices, line.vertices));
        if (off <= 0.5) runs.right++;
        else
          runs.notes.push(
            `seed ${seed}: a run drawn as ${run.how} is off by ${off.toFixed(1)}; stopped: ${line.ends.map(({ why }) => why)}`,
          );
      }
    });
  }
  return { grid, runs };
}

function countGrid(
  tally: Tally,
  seed: number,
  { axes }: DrawnSheet,
  found: ReturnType<typeof findGrid>[number]["axes"],
): void {
  tally.drawn += axes.length;
  tally.found += found.length;
  for (const axis of axes) {
    const twin = found.find(
      ({ label, bubbles, line }) =>
        label === axis.label &&
        bubbles.length === axis.bubbles.length &&
        axis.bubbles.every((at) => bubbles.some(({ centre }) => distance2(centre, at) < 0.1)) &&
        axis.crossings.every((at) => distanceToLine(at, line) < 0.1),
    );
    if (twin) tally.right++;
    else tally.notes.push(`seed ${seed}: grid ${axis.label} missed`);
  }
  for (const { label, bubbles } of found)
    if (!axes.some((axis) => axis.label === label && distance2(axis.bubbles[0]!, bubbles[0]!.centre) < 500))
      tally.notes.push(`seed ${seed}: ${label} is no grid`);
}

/** The greatest distance from the vertices and the middles of the legs of one line to another line. */
export function farthest(from: readonly Point2[], to: readonly Point2[]): number {
  const asked = from.flatMap((p, i) => {
    const q = from[i + 1];
    return q ? [p, [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2] as Point2] : [p];
  });
  return Math.max(...asked.map((p) => Math.min(...to.slice(1).map((b, i) => distanceToLine(p, [to[i]!, b])))));
}

/** The distance from a place to the part of a line between two others. */
export function distanceToLine(p: Point2, [a, b]: readonly [Point2, Point2]): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const t = Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(p[0] - a[0] - dx * t, p[1] - a[1] - dy * t);
}
