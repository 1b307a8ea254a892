import { ShapeUtils, Vector2, Vector3 } from "three";
import { ExtendedTriangle } from "three-mesh-bvh";
import { expect } from "vitest";
import type { Face } from "../../src/geometry/face.ts";
import { elevationAt } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { area, signedArea } from "../../src/geometry/polygon.ts";

/** A point for the library. */
export const vector = ([x, y, z]: Point3) => new Vector3(x, y, z);
/** A triangle of the library from three corners. */
export const triangle = (a: Point3, b: Point3, c: Point3) => new ExtendedTriangle(vector(a), vector(b), vector(c));

/** The triangles that three's own triangulation cuts a face into. */
export function trianglesOf({ polygon, plane }: Face): ExtendedTriangle[] {
  const oriented = (ring: readonly Point2[], sign: number) =>
    signedArea(ring) * sign < 0 ? [...ring].reverse() : [...ring];
  const rings = [oriented(polygon.outline, 1), ...polygon.holes.map((hole) => oriented(hole, -1))];
  const [contour, ...holes] = rings.map((ring) => ring.map(([x, y]) => new Vector2(x, y)));
  const points = rings.flat().map((p): Point3 => [...p, elevationAt(plane, p)]);
  const triples = ShapeUtils.triangulateShape(contour!, holes) as [number, number, number][];
  const covered = triples.reduce(
    (sum, triple) => sum + Math.abs(signedArea(triple.map((i) => [points[i]![0], points[i]![1]]))),
    0,
  );
  // Only a triangulation that covers the face, no more and no less, is a fair judge.
  expect(covered / area(polygon)).toBeCloseTo(1, 9);
  return triples.map(([i, j, k]) => triangle(points[i]!, points[j]!, points[k]!));
}
