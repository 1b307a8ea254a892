import type { Polygon } from "./polygon.ts";

/** The part two polygons share: its area (unit of the points squared) and its pieces. */
export interface Overlap {
  readonly area: number;
  readonly polygons: readonly Polygon[];
}

export declare function overlap(a: Polygon, b: Polygon): Overlap;
