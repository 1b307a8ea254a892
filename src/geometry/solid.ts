import type { Inches, Radians } from "../units/quantity.ts";
import type { Point3 } from "./point.ts";

/** A round run segment with ball ends, building space, inches. p and q may coincide (a ball). */
export interface Capsule {
  readonly p: Point3;
  readonly q: Point3;
  readonly radius: Inches;
}

/** An upright box turned about the vertical, building space, inches. */
export interface OrientedBox {
  readonly centre: Point3;
  /** Half its sizes along its own three axes; none negative. */
  readonly half: Point3;
  /** Turn about z, counter-clockwise, of its first axis from the building's x. */
  readonly rotation: Radians;
}

/** A box along the axes, inches in building space. */
export interface Box3 {
  readonly min: Point3;
  readonly max: Point3;
}

/** The box along the axes that just holds a capsule. */
export function boxOfCapsule({ p, q, radius: r }: Capsule): Box3 {
  return {
    min: [Math.min(p[0], q[0]) - r, Math.min(p[1], q[1]) - r, Math.min(p[2], q[2]) - r],
    max: [Math.max(p[0], q[0]) + r, Math.max(p[1], q[1]) + r, Math.max(p[2], q[2]) + r],
  };
}

/** The box along the axes that just holds a turned box. */
export function boxOfOrientedBox({ centre: [x, y, z], half: [hx, hy, hz], rotation }: OrientedBox): Box3 {
  const c = Math.abs(Math.cos(rotation));
  const s = Math.abs(Math.sin(rotation));
  const ex = c * hx + s * hy;
  const ey = s * hx + c * hy;
  return { min: [x - ex, y - ey, z - hz], max: [x + ex, y + ey, z + hz] };
}
