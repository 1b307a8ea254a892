import { type Polygon, type Ring, signedArea } from "./polygon.ts";

/** Polygons as the clipper takes and gives them: a list of rings each, the outline first, the first point repeated at the end. */
export type Clipped = [number, number][][];

/** A polygon for the clipper. */
export const asClipped = ({ outline, holes }: Polygon): Clipped =>
  [outline, ...holes].map((ring) => [...ring, ...ring.slice(0, 1)].map(([x, y]): [number, number] => [x, y]));

/** The polygons of the clipper's answer: outlines counter-clockwise, holes clockwise; those without area are left out. */
export function fromClipped(pieces: readonly Clipped[]): Polygon[] {
  const polygons: Polygon[] = [];
  for (const [outline, ...holes] of pieces) {
    if (!outline) continue;
    const polygon: Polygon = { outline: opened(outline), holes: holes.map(opened) };
    if (netArea(polygon) > 0) polygons.push(polygon);
  }
  return polygons;
}

/** Area of a polygon whose holes run the other way round than its outline. */
export const netArea = ({ outline, holes }: Polygon): number =>
  [outline, ...holes].reduce((sum, ring) => sum + signedArea(ring), 0);

/** A ring of the clipper without its repeated last point. */
const opened = (ring: readonly (readonly [number, number])[]): Ring =>
  ring.slice(0, -1).map(([x, y]) => [x, y] as const);
