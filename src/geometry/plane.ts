import { type Inches, inches, type Radians, radians } from "../units/quantity.ts";
import type { Point2, Point3 } from "./point.ts";

/** A deck plane over the plan, z = gx x + gy y + c: building space, inches. Never vertical. */
export interface Plane {
  /** Rise per run along x (inches per inch). */
  readonly gx: number;
  /** Rise per run along y. */
  readonly gy: number;
  /** Elevation above the plan's origin. */
  readonly c: Inches;
}

/** Elevation of the plane at a point of the plan. */
export const elevationAt = (plane: Plane, at: Point2): Inches => inches(plane.gx * at[0] + plane.gy * at[1] + plane.c);

/** The level plane at elevation z. */
export const planeLevel = (z: Inches): Plane => ({ gx: 0, gy: 0, c: z });

/**
 * The plane through three points; undefined when they lie on one line in plan (or two coincide), which no deck plane
 * goes through in one way only. "On one line" is decided relative to the size of the triangle: a height below 1e-9 of
 * its longest side.
 */
export function planeThrough(p: Point3, q: Point3, r: Point3): Plane | undefined {
  const ux = q[0] - p[0];
  const uy = q[1] - p[1];
  const uz = q[2] - p[2];
  const vx = r[0] - p[0];
  const vy = r[1] - p[1];
  const vz = r[2] - p[2];
  const cross = ux * vy - uy * vx;
  const side2 = Math.max(ux * ux + uy * uy, vx * vx + vy * vy, (vx - ux) ** 2 + (vy - uy) ** 2);
  if (!(Math.abs(cross) > 1e-9 * side2)) return undefined;
  const gx = (uz * vy - vz * uy) / cross;
  const gy = (ux * vz - vx * uz) / cross;
  return { gx, gy, c: inches(p[2] - gx * p[0] - gy * p[1]) };
}

/**
 * The plane that has elevation `z` at `at` and falls by `slope` (rise per run, 1/48 for 1/4 in. per foot) in the
 * direction `downhill` (a plan vector; its length does not matter, a zero vector gives the level plane).
 */
export function planeFromSlope(at: Point2, z: Inches, slope: number, downhill: Point2): Plane {
  const length = Math.hypot(downhill[0], downhill[1]);
  if (length === 0) return planeLevel(z);
  const gx = (-slope * downhill[0]) / length;
  const gy = (-slope * downhill[1]) / length;
  return { gx, gy, c: inches(z - gx * at[0] - gy * at[1]) };
}

/** Angle between the plane and the horizontal, 0 for a level deck. */
export const slopeAngle = (plane: Plane): Radians => radians(Math.atan(Math.hypot(plane.gx, plane.gy)));

/** The plane's normal of length 1 that points up. */
export function unitNormal(plane: Plane): Point3 {
  const n = Math.sqrt(1 + plane.gx * plane.gx + plane.gy * plane.gy);
  return [-plane.gx / n, -plane.gy / n, 1 / n];
}
