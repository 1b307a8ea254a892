import { distance2, type Point2 } from "../../geometry/point.ts";
import { type SheetUnits, sheetUnits } from "../../units/quantity.ts";
import type { FoundGrid } from "./find-grid.ts";
import { leaderOf } from "./leader-lines.ts";
import type { Linework } from "./linework.ts";
import type { TextRun } from "./plan-contents.ts";
import { within } from "./seen-segments.ts";
import { distanceTo, endOf, footOn, lengthOf, pointOn, startOf } from "./segment-geometry.ts";

/** The line a text most likely speaks of. */
export interface NearestLine {
  /** The nearest place on it, sheet space: where to begin to follow it. */
  readonly at: Point2;
  /** From the text, or from the tip of its leader. */
  readonly distance: SheetUnits;
  /** Whether another line, not the same one drawn on, is nearly as near. */
  readonly ambiguous: boolean;
  /** Whether a leader of the text points at it: it may lie far off, and what is nearest to the text is not asked. */
  readonly byLeader: boolean;
}

/** How far a line may be from its text, in heights of the text. */
const REACH_EM = 3;
/** Lines across the text count as this much farther than those along it. */
const ACROSS = 2.5;
/** A line across the text counts as at least this far off, in heights of the text. */
const THROUGH_EM = 0.8;
/** Pieces this near to the middle of a grid line, in 1/72 in. of paper, are pieces of it. */
const ON_AXIS_PT = 0.6;
/** Another line this many times as far, or nearer, makes it doubtful. */
const DOUBTFUL = 1.5;
const MOST = 5_000;

/**
 * The line a text's leader points at; without a leader the line nearest to it, those in its own direction first. Undefined where
 * none is near, too many to look at, or the leader points at nothing drawn. Of the lines of the grids given none is taken: tags
 * stand on them and speak of something else.
 */
export function nearestLine(
  linework: Linework,
  run: TextRun,
  grids: readonly FoundGrid[] = [],
): NearestLine | undefined {
  const onAxis = ON_AXIS_PT / linework.userUnit;
  const axes = grids.flatMap((grid) => grid.axes.map(({ line }) => line));
  const isOnGrid = (segment: number): boolean =>
    axes.some((axis) =>
      [startOf(linework, segment), endOf(linework, segment)].every((end) => distanceFromLine(end, axis) <= onAxis),
    );
  const leader = leaderOf(linework, run, isOnGrid);
  if (leader)
    return leader.on
      ? {
          at: leader.on,
          distance: sheetUnits(distance2(leader.tip, leader.on)),
          ambiguous: leader.ambiguous,
          byLeader: true,
        }
      : undefined;
  const [c, s] = [Math.cos(run.angle), Math.sin(run.angle)];
  const middle: Point2 = [
    run.at[0] + (c * run.width) / 2 - s * 0.35 * run.height,
    run.at[1] + (s * run.width) / 2 + c * 0.35 * run.height,
  ];
  const reach = REACH_EM * run.height;
  const half = 0.4 * run.width;
  const [ex, ey] = [Math.abs(c) * half + reach, Math.abs(s) * half + reach];
  const places = [-1, -0.5, 0, 0.5, 1].map((k): Point2 => [middle[0] + c * half * k, middle[1] + s * half * k]);
  const list = within(linework, [middle[0] - ex, middle[1] - ey, middle[0] + ex, middle[1] + ey], MOST).flatMap(
    (segment) => {
      const long = lengthOf(linework, segment);
      if (long * linework.userUnit < 1 || isOnGrid(segment)) return [];
      const at = 4 * segment;
      const { coords } = linework;
      const [dx, dy] = [coords[at + 2]! - coords[at]!, coords[at + 3]! - coords[at + 1]!];
      const along = Math.abs(dx * s - dy * c) < 0.02 * long;
      const asked = along ? places : [middle];
      const [near, distance] = asked
        .map((place) => [place, distanceTo(linework, segment, place)] as const)
        .reduce((best, each) => (each[1] < best[1] ? each : best));
      if (distance > reach) return [];
      const foot = pointOn(linework, segment, Math.min(1, Math.max(0, footOn(linework, segment, near))));
      // The line's own place across the text tells one line from the next; dashes of one line share it.
      const off = along ? (foot[1] - middle[1]) * c - (foot[0] - middle[0]) * s : Number.NaN;
      // A line that runs through the letters from side to side is what they were written over, not what they speak of.
      return [{ foot, distance, off, cost: along ? distance : ACROSS * Math.max(distance, THROUGH_EM * run.height) }];
    },
  );
  list.sort((a, b) => a.cost - b.cost);
  const [best] = list;
  if (!best) return undefined;
  const slack = 1.5 / linework.userUnit;
  const other = list.find(({ off, foot }) =>
    Number.isNaN(off) || Number.isNaN(best.off)
      ? Math.hypot(foot[0] - best.foot[0], foot[1] - best.foot[1]) > slack
      : Math.abs(off - best.off) > slack,
  );
  return {
    at: best.foot,
    distance: sheetUnits(best.distance),
    ambiguous: other !== undefined && other.cost < DOUBTFUL * best.cost + slack / 2,
    byLeader: false,
  };
}

/** How far a place lies from the endless line through two others. */
const distanceFromLine = ([x, y]: Point2, [[x0, y0], [x1, y1]]: readonly [Point2, Point2]): number =>
  Math.abs((x - x0) * (y1 - y0) - (y - y0) * (x1 - x0)) / Math.hypot(x1 - x0, y1 - y0);
