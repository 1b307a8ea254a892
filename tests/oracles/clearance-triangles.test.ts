import { Line3 } from "three";
import type { ExtendedTriangle } from "three-mesh-bvh";
import { describe, expect, test } from "vitest";
import { boxToFace, segmentToFace } from "../../src/geometry/clearance.ts";
import { makeFaceIndex } from "../../src/geometry/face-index.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import type { OrientedBox } from "../../src/geometry/solid.ts";
import { randomBox, randomFace, randomSegment, seeded } from "../geometry/random-scenes.ts";
import { triangle, trianglesOf, vector } from "./face-triangles.ts";

/*
 * An independent library's closest points: three-mesh-bvh (segment to triangle, triangle to triangle, 64-bit here),
 * over the triangles that three's own triangulation cuts each face into.
 */
const seed = 41;
const within = 1e-6;

const distanceTo = (triangles: ExtendedTriangle[], p: Point3, q: Point3) => {
  const segment = new Line3(vector(p), vector(q));
  return Math.min(...triangles.map((t) => t.closestPointToSegment(segment)));
};

function boxTriangles({ centre, half, rotation }: OrientedBox): ExtendedTriangle[] {
  const corner = (i: number): Point3 => {
    const [x, y, z] = [0, 1, 2].map((k) => ((i >> k) & 1 ? half[k]! : -half[k]!)) as [number, number, number];
    const [c, s] = [Math.cos(rotation), Math.sin(rotation)];
    return [centre[0] + c * x - s * y, centre[1] + s * x + c * y, centre[2] + z];
  };
  const sides = [
    [0, 1, 3, 2],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 3, 7, 6],
    [0, 2, 6, 4],
    [1, 3, 7, 5],
  ];
  return sides.flatMap(([a, b, c, d]) => [
    triangle(corner(a!), corner(b!), corner(c!)),
    triangle(corner(a!), corner(c!), corner(d!)),
  ]);
}

describe(`distances against three-mesh-bvh (seed ${seed})`, () => {
  test("segment to face, 600 scenes of ten segments", () => {
    const random = seeded(seed);
    let [zero, positive] = [0, 0];
    for (let scene = 0; scene < 600; scene++) {
      const [x, y] = scene % 3 === 0 ? [1e5, -7e4] : [0, 0];
      const face = randomFace(random, x, y);
      const triangles = trianglesOf(face);
      for (let i = 0; i < 10; i++) {
        const [p, q] = randomSegment(random, x, y);
        const ours = segmentToFace(p, q, face).distance;
        const theirs = distanceTo(triangles, p, q);
        expect(Math.abs(ours - theirs), `scene ${scene}, segment ${i}`).toBeLessThan(within);
        if (ours === 0) zero++;
        else positive++;
      }
    }
    // Both answers must have been put to the test.
    expect(zero).toBeGreaterThan(100);
    expect(positive).toBeGreaterThan(1000);
  });

  test("box to face, 300 scenes", () => {
    const random = seeded(seed + 1);
    let [zero, positive] = [0, 0];
    for (let scene = 0; scene < 300; scene++) {
      const face = randomFace(random);
      const box = randomBox(random);
      const triangles = trianglesOf(face);
      const theirs = Math.min(...boxTriangles(box).flatMap((side) => triangles.map((t) => side.distanceToTriangle(t))));
      const ours = boxToFace(box, face).distance;
      // A face wholly inside the box cannot occur here: faces are larger than boxes.
      expect(Math.abs(ours - theirs), `scene ${scene}`).toBeLessThan(within);
      if (ours === 0) zero++;
      else positive++;
    }
    expect(zero).toBeGreaterThan(10);
    expect(positive).toBeGreaterThan(100);
  });

  test("the nearest of many faces", () => {
    const random = seeded(seed + 2);
    const places = Array.from({ length: 40 }, (): Point2 => [1500 * random(), 1500 * random()]);
    const faces = places.map(([x, y]) => randomFace(random, x, y));
    const triangles = faces.flatMap(trianglesOf);
    const index = makeFaceIndex(faces);
    for (let i = 0; i < 200; i++) {
      const [p, q] = randomSegment(random, 1500 * random(), 1500 * random());
      expect(Math.abs(index.nearestToSegment(p, q)!.distance - distanceTo(triangles, p, q))).toBeLessThan(within);
    }
  });
});
