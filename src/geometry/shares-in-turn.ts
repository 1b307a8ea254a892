import { differenceOf } from "./clip.ts";
import type { Point2 } from "./point.ts";
import { type Polygon, signedArea } from "./polygon.ts";

/** How much of a convex or other simple outline lies in each of some polygons and in none of those before it, unit of the points squared; in their order. */
export function sharesInTurn(outline: readonly Point2[], polygons: readonly Polygon[]): number[] {
  let rest: Rings[] = [[closed(outline)]];
  let left = areaOf(rest);
  return polygons.map((polygon) => {
    if (rest.length === 0) return 0;
    rest = differenceOf(rest, [polygon.outline, ...polygon.holes].map(closed));
    const before = left;
    left = areaOf(rest);
    return Math.max(0, before - left);
  });
}

type Rings = [number, number][][];

/** A ring as the clipper takes it: its first point repeated at the end. */
const closed = (ring: readonly Point2[]): [number, number][] =>
  [...ring, ...ring.slice(0, 1)].map(([x, y]): [number, number] => [x, y]);

const areaOf = (polygons: readonly Rings[]): number =>
  polygons.reduce(
    (sum, [outline = [], ...holes]) =>
      sum + Math.abs(signedArea(outline)) - holes.reduce((inside, hole) => inside + Math.abs(signedArea(hole)), 0),
    0,
  );
