import { type Interval, type IntervalSet, normalise } from "../../geometry/interval-set.ts";
import type { Point2 } from "../../geometry/point.ts";
import type { Linework } from "./linework.ts";

/** How one line is looked for along another. Units of the lines searched. */
export interface AlongChoice {
  /** Which segments count. */
  readonly counts: (segment: number) => boolean;
  /** How far beside the line a segment may lie. */
  readonly within: number;
  /** Gaps this long are bridged: those between dashes, or where a symbol breaks the line. */
  readonly bridge: number;
}

/** Straight lines that can be searched: linework, or pieces of it. */
export type SearchedLines = Pick<Linework, "coords" | "count" | "index">;

/** Lines this far apart in direction, as a sine, do not run along each other. Very short ones have no direction: they are pieces of curves, cut in other places. */
const ALONG = 0.2;
const SHORT = 4;

/**
 * Where along the line from `a` to `b` (0 to its length) something is drawn that runs along it. Segments that merely cross it do not count.
 * Empty for a line without length.
 */
export function linesAlong(lines: SearchedLines, a: Point2, b: Point2, choice: AlongChoice): IntervalSet {
  const found: Interval[] = [];
  forLinesAlong(lines, a, b, choice, (from, to) => {
    found.push([from, to]);
  });
  return normalise(found);
}

/** The same, stretch by stretch with the segment that draws it. */
export function forLinesAlong(
  { coords, count, index }: SearchedLines,
  a: Point2,
  b: Point2,
  { counts, within, bridge }: AlongChoice,
  tell: (from: number, to: number, segment: number) => void,
): void {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = Math.hypot(dx, dy);
  if (length === 0) return;
  const [ux, uy] = [dx / length, dy / length];
  const take = (segment: number): boolean => {
    if (segment >= count || !counts(segment)) return false;
    const at = 4 * segment;
    const [px, py] = [coords[at]! - a[0], coords[at + 1]! - a[1]];
    const [qx, qy] = [coords[at + 2]! - a[0], coords[at + 3]! - a[1]];
    const [p, q] = [px * ux + py * uy, qx * ux + qy * uy];
    const [pOff, qOff] = [py * ux - px * uy, qy * ux - qx * uy];
    const own = Math.hypot(qx - px, qy - py);
    const slope = qOff - pOff;
    if (own > SHORT * within && Math.abs(slope) > ALONG * own) return false;
    // The part of it that lies within reach of the line.
    let [t0, t1] = [0, 1];
    if (Math.abs(slope) > 1e-9) {
      const [s0, s1] = [(-within - pOff) / slope, (within - pOff) / slope];
      t0 = Math.max(t0, Math.min(s0, s1));
      t1 = Math.min(t1, Math.max(s0, s1));
    } else if (Math.abs(pOff) > within) return false;
    if (t0 >= t1) return false;
    const [from, to] = [p + (q - p) * t0, p + (q - p) * t1];
    const low = Math.max(0, Math.min(from, to) - bridge / 2);
    const high = Math.min(length, Math.max(from, to) + bridge / 2);
    if (low < high) tell(low, high, segment);
    return false;
  };
  const more = Math.max(within, bridge / 2);
  index.search(
    Math.min(a[0], b[0]) - more,
    Math.min(a[1], b[1]) - more,
    Math.max(a[0], b[0]) + more,
    Math.max(a[1], b[1]) + more,
    take,
  );
}

/** The sum of the lengths of disjoint intervals. */
export const lengthOfSet = (set: IntervalSet): number => set.reduce((sum, [from, to]) => sum + (to - from), 0);
