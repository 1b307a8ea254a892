/** A point in the plan: sheet space or building space as the holder says. [x, y]. */
export type Point2 = readonly [x: number, y: number];
/** A point in building space, inches: x and y in plan, z = elevation above the project datum. */
export type Point3 = readonly [x: number, y: number, z: number];

/** Plan distance between two points, in their own unit. */
export const distance2 = (a: Point2, b: Point2): number => length2(b[0] - a[0], b[1] - a[1]);
/** Distance between two points in space, inches. */
export const distance3 = (a: Point3, b: Point3): number => length3(b[0] - a[0], b[1] - a[1], b[2] - a[2]);

/** Length of a vector in plan: to the bit what `Math.hypot` gives, which takes long for what most wiring does, to go along one axis. */
export const length2 = (x: number, y: number): number =>
  y === 0 ? Math.abs(x) : x === 0 ? Math.abs(y) : Math.hypot(x, y);

/** The same in space. */
export function length3(x: number, y: number, z: number): number {
  if (y === 0 && z === 0) return Math.abs(x);
  if (x === 0 && z === 0) return Math.abs(y);
  if (x === 0 && y === 0) return Math.abs(z);
  return Math.hypot(x, y, z);
}

/** The point at parameter t (0 at a, 1 at b) on the line through a and b. */
export const lerp2 = (a: Point2, b: Point2, t: number): Point2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
/** The point at parameter t (0 at a, 1 at b) on the line through a and b. */
export const lerp3 = (a: Point3, b: Point3, t: number): Point3 => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];
