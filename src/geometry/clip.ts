import { difference, intersection, union } from "polyclip-ts";
import { type Polygon, type Ring, signedArea } from "./polygon.ts";

/** Polygons as the clipper takes and gives them: a list of rings each, the outline first, the first point repeated at the end. */
export type Clipped = [number, number][][];

/** One polygon, or several as the clipper gives them. */
type Shape = Clipped | readonly Clipped[];
type Operation = (first: Clipped | Clipped[], ...more: (Clipped | Clipped[])[]) => Clipped[];

/**
 * Where two edges lie within rounding of each other, as those of one outline registered twice do, the clipper fails, or gives a wrong answer.
 * Points put on a grid finer than anything traced bring such edges together: the steps of the grid tried, in parts of the largest coordinate.
 */
const GRIDS = [2 ** -44, 2 ** -40, 2 ** -36, 2 ** -32];

/** What all shapes have in common, what any of them covers, and what of the first none of the others does. */
export const intersectionOf = sturdy(intersection);
export const unionOf = sturdy(union);
export const differenceOf = sturdy(difference);

function sturdy(operation: Operation): (first: Shape, ...more: readonly Shape[]) => Clipped[] {
  return (...shapes) => {
    const size = 2 ** Math.ceil(Math.log2(largestIn(shapes)));
    let failed: unknown;
    for (const grid of GRIDS) {
      try {
        return operation(...(onGrid(shapes, size * grid) as [Clipped, ...Clipped[]]));
      } catch (error) {
        // The next grid is coarser.
        failed = error;
      }
    }
    throw failed;
  };
}

const largestIn = (value: unknown): number =>
  typeof value === "number"
    ? Math.abs(value)
    : (value as unknown[]).reduce<number>((most, each) => Math.max(most, largestIn(each)), Number.MIN_VALUE);

const onGrid = (value: unknown, step: number): unknown =>
  typeof value === "number" ? Math.round(value / step) * step : (value as unknown[]).map((each) => onGrid(each, step));

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
