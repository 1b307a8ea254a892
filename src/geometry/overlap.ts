import { intersection } from "polyclip-ts";
import { type Polygon, type Ring, signedArea } from "./polygon.ts";

/** The part two polygons share: its area (unit of the points squared) and its pieces. */
export interface Overlap {
  readonly area: number;
  /** Outlines counter-clockwise, holes clockwise, none collapsed. Empty when the polygons share no area. */
  readonly polygons: readonly Polygon[];
}

/** The area two plan polygons of the same space share. Polygons that only touch share none. */
export function overlap(a: Polygon, b: Polygon): Overlap {
  const pieces = intersection(closed(a), closed(b));
  const polygons: Polygon[] = [];
  let area = 0;
  for (const [outline, ...holes] of pieces) {
    if (!outline) continue;
    const piece: Polygon = { outline: opened(outline), holes: holes.map(opened) };
    const size = [outline, ...holes].reduce((sum, ring) => sum + signedArea(opened(ring)), 0);
    if (!(size > 0)) continue;
    polygons.push(piece);
    area += size;
  }
  return { area, polygons };
}

type Coordinates = [number, number][];

/** Rings as the clipper wants them: the first point repeated at the end. */
const closed = ({ outline, holes }: Polygon): Coordinates[] =>
  [outline, ...holes].map((ring) => [...ring, ...ring.slice(0, 1)].map(([x, y]): [number, number] => [x, y]));

/** A ring of the clipper without its repeated last point. */
const opened = (ring: readonly (readonly [number, number])[]): Ring =>
  ring.slice(0, -1).map(([x, y]) => [x, y] as const);
