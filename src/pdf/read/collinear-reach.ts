import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Linework } from "./linework.ts";
import { endOf, startOf } from "./segment-geometry.ts";

/** Widest gap between the dashes of one line, in 1/72 in. of paper. */
export const DASH_GAP_PT = 24;
/** How far the pieces of one line may lie beside it, in 1/72 in. of paper. */
const BESIDE_PT = 0.35;
/** Dashes one line has at most. */
const MOST_PIECES = 4000;

/** How far a line goes on straight through further pieces and dashes of its style, from the end `far` of a segment that runs from `near` to `far`. Sheet space. */
export function collinearReach(linework: Linework, segment: number, near: Point2, far: Point2): Point2 {
  const gap = DASH_GAP_PT / linework.userUnit;
  const aside = BESIDE_PT / linework.userUnit;
  const style = linework.style[segment]!;
  const length = distance2(near, far);
  const [ux, uy] = [(far[0] - near[0]) / length, (far[1] - near[1]) / length];
  let tip = far;
  let reach = length;
  for (let pieces = 0; pieces < MOST_PIECES; pieces++) {
    // The line drifts with the rounding of its first piece: what lies beside it is judged from the tip.
    let next: Point2 | undefined;
    let most = reach;
    const look = (other: number): boolean => {
      if (other >= linework.count || linework.style[other] !== style) return false;
      const [a, b] = [startOf(linework, other), endOf(linework, other)];
      let ahead = Number.POSITIVE_INFINITY;
      for (const [x, y] of [a, b]) {
        const along = (x - tip[0]) * ux + (y - tip[1]) * uy;
        const across = Math.abs((x - tip[0]) * uy - (y - tip[1]) * ux);
        if (across > aside + 0.002 * Math.abs(along)) return false;
        ahead = Math.min(ahead, along);
      }
      if (ahead > gap) return false;
      const farther = (b[0] - a[0]) * ux + (b[1] - a[1]) * uy > 0 ? b : a;
      const along = (farther[0] - near[0]) * ux + (farther[1] - near[1]) * uy;
      if (along > most) [most, next] = [along, farther];
      return false;
    };
    linework.index.search(tip[0] - gap, tip[1] - gap, tip[0] + gap, tip[1] + gap, look);
    if (!next) return tip;
    [tip, reach] = [next, most];
  }
  return tip;
}
