import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Linework } from "./linework.ts";
import { endOf, startOf } from "./segment-geometry.ts";

/** Widest gap between the dashes of one line, in 1/72 in. of paper. */
export const DASH_GAP_PT = 24;
/** How far the pieces of one line may lie beside it, in 1/72 in. of paper; and what is no farther beside it than another is as good. */
const BESIDE_PT = 0.3;
const AS_GOOD_PT = 0.08;
/** Dashes one line has at most. */
const MOST_PIECES = 4000;

/** A straight line made of pieces. Sheet space. */
export interface CollinearLine {
  /** Where it starts, and where its last piece ends. */
  readonly ends: readonly [Point2, Point2];
  /** The straight line nearest to all its pieces, cut off at those ends. */
  readonly fitted: readonly [Point2, Point2];
}

/**
 * The line that a segment from `near` to `far` begins, going straight on from `far` through further pieces and dashes of
 * its style. Where lines run side by side, it goes on with the one that lies straightest ahead.
 */
export function collinearReach(linework: Linework, segment: number, near: Point2, far: Point2): CollinearLine {
  const gap = DASH_GAP_PT / linework.userUnit;
  const aside = BESIDE_PT / linework.userUnit;
  const asGood = AS_GOOD_PT / linework.userUnit;
  const style = linework.style[segment]!;
  const pieces: [Point2, Point2][] = [[near, far]];
  let tip = far;
  while (pieces.length < MOST_PIECES) {
    // The direction of all so far: that of a first short dash is coarse, and gets better with each piece.
    const reach = distance2(near, tip);
    const [ux, uy] = [(tip[0] - near[0]) / reach, (tip[1] - near[1]) / reach];
    // What the ends of a short start may be off by rounding, it is off by more farther on.
    const slack = (along: number): number => aside + (aside * Math.max(0, along)) / Math.max(reach, 1e-9) / 2;
    let next: [Point2, Point2] | undefined;
    let [most, off] = [0, Number.POSITIVE_INFINITY];
    const look = (other: number): boolean => {
      if (other >= linework.count || linework.style[other] !== style) return false;
      const [a, b] = [startOf(linework, other), endOf(linework, other)];
      const alongOf = ([x, y]: Point2): number => (x - tip[0]) * ux + (y - tip[1]) * uy;
      const [first, last] = alongOf(a) <= alongOf(b) ? [a, b] : [b, a];
      const onward = alongOf(last);
      if (alongOf(first) > gap || onward <= asGood) return false;
      const across = Math.max(...[first, last].map(([x, y]) => Math.abs((x - tip[0]) * uy - (y - tip[1]) * ux)));
      if (across > slack(onward)) return false;
      if (across < off - asGood || (across < off + asGood && onward > most)) {
        [next, most] = [[first, last], onward];
        off = Math.min(off, across);
      }
      return false;
    };
    linework.index.search(tip[0] - gap, tip[1] - gap, tip[0] + gap, tip[1] + gap, look);
    if (!next) break;
    pieces.push(next);
    tip = next[1];
  }
  return { ends: [near, tip], fitted: nearestLine(pieces, near, tip) };
}

/** The straight line of least squares through the ends of pieces, each weighted by its piece's length. */
function nearestLine(
  pieces: readonly (readonly [Point2, Point2])[],
  from: Point2,
  to: Point2,
): readonly [Point2, Point2] {
  let [weight, mx, my] = [0, 0, 0];
  const ends = pieces.flatMap(([a, b]) => [a, b].map((at) => ({ at, length: distance2(a, b) })));
  for (const { at, length } of ends) {
    weight += length;
    mx += length * at[0];
    my += length * at[1];
  }
  [mx, my] = [mx / weight, my / weight];
  let [sxx, syy, sxy] = [0, 0, 0];
  for (const { at, length } of ends) {
    const [x, y] = [at[0] - mx, at[1] - my];
    sxx += length * x * x;
    syy += length * y * y;
    sxy += length * x * y;
  }
  const angle = Math.atan2(2 * sxy, sxx - syy) / 2;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const onLine = ([x, y]: Point2): Point2 => {
    const along = (x - mx) * c + (y - my) * s;
    return [mx + c * along, my + s * along];
  };
  return [onLine(from), onLine(to)];
}
