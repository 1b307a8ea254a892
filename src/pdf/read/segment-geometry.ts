import type { Point2 } from "../../geometry/point.ts";
import type { Linework } from "./linework.ts";

/** Where a segment starts, sheet space. */
export const startOf = ({ coords }: Linework, segment: number): Point2 => [
  coords[4 * segment]!,
  coords[4 * segment + 1]!,
];
/** Where a segment ends, sheet space. */
export const endOf = ({ coords }: Linework, segment: number): Point2 => [
  coords[4 * segment + 2]!,
  coords[4 * segment + 3]!,
];

/** How far along a segment (0 at its start, 1 at its end, beyond outside) the foot of the perpendicular from a point lies. */
export function footOn({ coords }: Linework, segment: number, [x, y]: Point2): number {
  const at = 4 * segment;
  const [x0, y0] = [coords[at]!, coords[at + 1]!];
  const [dx, dy] = [coords[at + 2]! - x0, coords[at + 3]! - y0];
  return ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy);
}

/** The point of a segment at that part of its length. */
export function pointOn({ coords }: Linework, segment: number, t: number): Point2 {
  const at = 4 * segment;
  const [x0, y0] = [coords[at]!, coords[at + 1]!];
  return [x0 + (coords[at + 2]! - x0) * t, y0 + (coords[at + 3]! - y0) * t];
}

/** The distance from a point to a segment, sheet units. */
export function distanceTo(linework: Linework, segment: number, point: Point2): number {
  const [x, y] = pointOn(linework, segment, Math.min(1, Math.max(0, footOn(linework, segment, point))));
  return Math.hypot(point[0] - x, point[1] - y);
}

/** The length of a segment, sheet units. */
export const lengthOf = ({ coords }: Linework, segment: number): number =>
  Math.hypot(coords[4 * segment + 2]! - coords[4 * segment]!, coords[4 * segment + 3]! - coords[4 * segment + 1]!);

/**
 * Where two segments cross or touch, as parts of their lengths; undefined for none and for such as run along each other.
 * A touch that misses by `slack` sheet units still counts, its part put back to 0 or 1.
 */
export function crossingOf(
  { coords }: Linework,
  a: number,
  b: number,
  slack: number,
): { readonly onA: number; readonly onB: number } | undefined {
  const [ax, ay] = [coords[4 * a]!, coords[4 * a + 1]!];
  const [adx, ady] = [coords[4 * a + 2]! - ax, coords[4 * a + 3]! - ay];
  const [bx, by] = [coords[4 * b]!, coords[4 * b + 1]!];
  const [bdx, bdy] = [coords[4 * b + 2]! - bx, coords[4 * b + 3]! - by];
  const cross = adx * bdy - ady * bdx;
  const [la, lb] = [Math.hypot(adx, ady), Math.hypot(bdx, bdy)];
  // A sine of less than a thousandth: they run along each other.
  if (Math.abs(cross) <= 1e-3 * la * lb) return undefined;
  const onA = ((bx - ax) * bdy - (by - ay) * bdx) / cross;
  const onB = ((bx - ax) * ady - (by - ay) * adx) / cross;
  const [slackA, slackB] = [slack / la, slack / lb];
  if (onA < -slackA || onA > 1 + slackA || onB < -slackB || onB > 1 + slackB) return undefined;
  return { onA: Math.min(1, Math.max(0, onA)), onB: Math.min(1, Math.max(0, onB)) };
}
