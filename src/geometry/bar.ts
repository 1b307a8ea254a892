import type { Inches } from "../units/quantity.ts";
import type { Point2, Point3 } from "./point.ts";
import type { Box3 } from "./solid.ts";

/** A straight bar of rectangular section with square ends, building space, inches: two sides level, the section square to its axis. */
export interface Bar {
  readonly p: Point3;
  readonly q: Point3;
  readonly halfWidth: Inches;
  readonly halfHeight: Inches;
  /** Length of the axis; 0 for a plate. */
  readonly length: number;
  /** Three directions of length 1, each square to the others: along the axis, level across it, and up across it. */
  readonly along: Point3;
  readonly across: Point3;
  readonly up: Point3;
}

/**
 * The bar from p to q. `ahead` is the plan direction in which an axis that stands upright, or has no length, was going before: it says which way the
 * section is turned then, since the axis does not. A zero vector counts as the building's x.
 */
export function makeBar(p: Point3, q: Point3, halfWidth: Inches, halfHeight: Inches, ahead: Point2 = [1, 0]): Bar {
  const [dx, dy, dz] = [q[0] - p[0], q[1] - p[1], q[2] - p[2]];
  const plan = Math.hypot(dx, dy);
  const length = Math.hypot(plan, dz);
  const held = Math.hypot(ahead[0], ahead[1]);
  // A plan length within rounding of none gives no direction.
  const upright = !(plan > 1e-9 * length);
  const [cx, cy] = !upright
    ? [dx / plan, dy / plan]
    : held > 0
      ? [ahead[0] / held, ahead[1] / held]
      : ([1, 0] as const);
  const along: Point3 = length > 0 ? [dx / length, dy / length, dz / length] : [cx, cy, 0];
  const across: Point3 = [-cy, cx, 0];
  const up: Point3 = [
    along[1] * across[2] - along[2] * across[1],
    along[2] * across[0] - along[0] * across[2],
    along[0] * across[1] - along[1] * across[0],
  ];
  return { p, q, halfWidth, halfHeight, length, along, across, up };
}

/** A point of the bar: so far along the axis, across and up from it. */
export function barPoint({ p, along, across, up }: Bar, s: number, v: number, w: number): Point3 {
  return [
    p[0] + s * along[0] + v * across[0] + w * up[0],
    p[1] + s * along[1] + v * across[1] + w * up[1],
    p[2] + s * along[2] + v * across[2] + w * up[2],
  ];
}

/** Signs of the corners of the section, in order round it. */
export const SECTION_CORNERS = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const;

/** The eight corners: those of the section at p in the order of `SECTION_CORNERS`, then those at q. */
export const barCorners = (bar: Bar): Point3[] =>
  [0, bar.length].flatMap((s) =>
    SECTION_CORNERS.map(([v, w]) => barPoint(bar, s, v * bar.halfWidth, w * bar.halfHeight)),
  );

/** The box along the axes that just holds a bar. */
export function boxOfBar(bar: Bar): Box3 {
  const reach = [0, 1, 2].map(
    (k) => Math.abs(bar.across[k]!) * bar.halfWidth + Math.abs(bar.up[k]!) * bar.halfHeight,
  ) as [number, number, number];
  const least = (k: 0 | 1 | 2): number => Math.min(bar.p[k], bar.q[k]) - reach[k];
  const most = (k: 0 | 1 | 2): number => Math.max(bar.p[k], bar.q[k]) + reach[k];
  return { min: [least(0), least(1), least(2)], max: [most(0), most(1), most(2)] };
}
