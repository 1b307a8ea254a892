import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Linework } from "./linework.ts";
import { within } from "./seen-segments.ts";
import { endOf, startOf } from "./segment-geometry.ts";

/** Longest and shortest edge of an arrowhead, in 1/72 in. of paper. */
const EDGE_PT = [1.2, 20] as const;
/** How far the point of an arrowhead may lie from the end of its line, in 1/72 in. of paper. */
export const AT_TIP_PT = 0.8;
/** Largest dot at the end of a leader, in 1/72 in. of paper: its radius. */
const DOT_PT = 4;
/** Segments looked at around one end. */
const MOST = 500;

/**
 * Whether the point of an arrowhead stands at the end of a line: two short edges that begin there and open backwards, one on
 * either side. `heading` is the direction in which the line arrives, of length 1.
 */
export function isArrowTip(linework: Linework, tip: Point2, heading: Point2): boolean {
  const { userUnit } = linework;
  const reach = AT_TIP_PT / userUnit;
  const sides = [false, false];
  for (const segment of within(linework, [tip[0] - reach, tip[1] - reach, tip[0] + reach, tip[1] + reach], MOST)) {
    const [a, b] = [startOf(linework, segment), endOf(linework, segment)];
    const [near, far] = distance2(a, tip) <= distance2(b, tip) ? [a, b] : [b, a];
    const long = distance2(near, far);
    if (distance2(near, tip) > reach || long * userUnit < EDGE_PT[0] || long * userUnit > EDGE_PT[1]) continue;
    const [dx, dy] = [far[0] - near[0], far[1] - near[1]];
    const across = (heading[0] * dy - heading[1] * dx) / long;
    const back = -(heading[0] * dx + heading[1] * dy);
    if (back > 0 && Math.abs(across) > 0.05 && Math.abs(across) < 0.75) sides[Number(across > 0)] = true;
  }
  return sides[0]! && sides[1]!;
}

/** Whether a small circle or dot stands at the end of a line: on it, or touching it. */
export function isDotTip({ arcs, userUnit }: Linework, tip: Point2): boolean {
  return arcs.some(({ full, centre, radius }) => {
    const apart = distance2(centre, tip) * userUnit;
    return full && radius * userUnit <= DOT_PT && apart <= radius * userUnit + AT_TIP_PT;
  });
}
