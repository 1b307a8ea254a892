import { asClipped, fromClipped, intersectionOf, netArea } from "./clip.ts";
import type { Polygon } from "./polygon.ts";

/** The part two polygons share: its area (unit of the points squared) and its pieces. */
export interface Overlap {
  readonly area: number;
  /** Outlines counter-clockwise, holes clockwise, none collapsed. Empty when the polygons share no area. */
  readonly polygons: readonly Polygon[];
}

/** The area two plan polygons of the same space share. Polygons that only touch share none. */
export function overlap(a: Polygon, b: Polygon): Overlap {
  const polygons = fromClipped(intersectionOf(asClipped(a), asClipped(b)));
  return { area: polygons.reduce((sum, piece) => sum + netArea(piece), 0), polygons };
}
