import type { Point2 } from "../geometry/point.ts";
import type { Viewport } from "../job/schema.ts";

/** A rectangle of a sheet with sides along its axes, sheet space: two opposite corners. */
export type Region = NonNullable<Viewport["region"]>;

/** Its corners, neighbours next to one another. */
export const cornersOf = ([x0, y0, x1, y1]: Region): readonly Point2[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];
