import { asClipped, differenceOf, fromClipped, intersectionOf, unionOf } from "./clip.ts";
import { distance2 } from "./point.ts";
import { area, type Polygon } from "./polygon.ts";

/** A polygon parted in two: what of it lies within others, and the rest. Together they fill it, and they share no area. */
export interface Split {
  /** Outlines counter-clockwise, holes clockwise, none collapsed. */
  readonly within: readonly Polygon[];
  readonly beyond: readonly Polygon[];
}

/** Parts a plan polygon by others of the same space, which may overlap each other. All rings have to be sound (`ringProblems`). */
export function splitPolygon(whole: Polygon, by: readonly Polygon[]): Split {
  const [first, ...more] = by.map(asClipped);
  if (!first) return { within: [], beyond: [whole] };
  const all = unionOf(first, ...more);
  const within = fromClipped(intersectionOf(asClipped(whole), all));
  // Nothing of it is cut off: it stays as it was traced, point by point.
  if (within.length === 0) return { within, beyond: [whole] };
  return { within, beyond: fromClipped(differenceOf(asClipped(whole), all)) };
}

/**
 * Mean width of a polygon, in the unit of its points: twice its area by the length of its edges. Of a long strip its width, bent or
 * straight; of anything more compact less than its width, down to half of it for a square.
 */
export function meanWidth(polygon: Polygon): number {
  const around = [polygon.outline, ...polygon.holes].reduce(
    (sum, ring) => ring.reduce((length, at, i) => length + distance2(at, ring[(i + 1) % ring.length]!), sum),
    0,
  );
  return around > 0 ? (2 * area(polygon)) / around : 0;
}
