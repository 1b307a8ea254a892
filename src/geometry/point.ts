/** A point in the plan: sheet space or building space as the holder says. [x, y]. */
export type Point2 = readonly [x: number, y: number];
/** A point in building space, inches: x and y in plan, z = elevation above the project datum. */
export type Point3 = readonly [x: number, y: number, z: number];

/** Plan distance between two points, in their own unit. */
export const distance2 = (a: Point2, b: Point2): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
/** Distance between two points in space, inches. */
export const distance3 = (a: Point3, b: Point3): number => Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
/** The point at parameter t (0 at a, 1 at b) on the line through a and b. */
export const lerp2 = (a: Point2, b: Point2, t: number): Point2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
/** The point at parameter t (0 at a, 1 at b) on the line through a and b. */
export const lerp3 = (a: Point3, b: Point3, t: number): Point3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];
