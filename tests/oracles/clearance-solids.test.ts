import Module, { type Manifold, type ManifoldToplevel, type Mat4, type SimplePolygon } from "manifold-3d";
import { beforeAll, describe, expect, test } from "vitest";
import { boxToFace, segmentToFace } from "../../src/geometry/clearance.ts";
import type { Face } from "../../src/geometry/face.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { signedArea } from "../../src/geometry/polygon.ts";
import { randomBox, randomFace, randomSegment, seeded } from "../geometry/random-scenes.ts";

/*
 * Solid models in manifold-3d: the deck as a sheet 1e-4 in. thick, a run as a prism of many sides with rounded ends, a
 * box as it is. Their least gap may differ from ours by what the model leaves out: the sheet's thickness, and how far
 * the flats of the many-sided solid lie inside the round one.
 */
const seed = 51;
const thickness = 1e-4;
const sides = 32;
let solid: ManifoldToplevel;
let flats = 0;

beforeAll(async () => {
  solid = await Module();
  solid.setup();
  flats = 1 - inradius(solid.Manifold.sphere(1, sides));
});

/** Least distance of the sides of a solid about the origin from the origin. */
function inradius(ball: Manifold): number {
  const { vertProperties, triVerts, numProp } = ball.getMesh();
  const corner = (i: number): Point3 =>
    [0, 1, 2].map((k) => vertProperties[triVerts[i]! * numProp + k]!) as unknown as Point3;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < triVerts.length; i += 3) {
    const [a, b, c] = [corner(i), corner(i + 1), corner(i + 2)];
    const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
    const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const;
    const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]] as const;
    least = Math.min(least, Math.abs(n[0] * a[0] + n[1] * a[1] + n[2] * a[2]) / Math.hypot(...n));
  }
  return least;
}

function sheet({ polygon, plane }: Face): Manifold {
  const ring = (points: readonly Point2[], sign: number): SimplePolygon => {
    const turned = signedArea(points) * sign < 0 ? [...points].reverse() : points;
    return turned.map(([x, y]): [number, number] => [x, y]);
  };
  const flat = solid.Manifold.extrude(
    [ring(polygon.outline, 1), ...polygon.holes.map((hole) => ring(hole, -1))],
    thickness,
  );
  const shear: Mat4 = [1, 0, plane.gx, 0, 0, 1, plane.gy, 0, 0, 0, 1, 0, 0, 0, plane.c, 1];
  const tilted = flat.transform(shear);
  flat.delete();
  return tilted;
}

function capsule(p: Point3, q: Point3, radius: number): Manifold {
  const ball = solid.Manifold.sphere(radius, sides);
  const ends = [ball.translate([...p]), ball.translate([...q])];
  const hull = solid.Manifold.hull(ends);
  for (const used of [ball, ...ends]) used.delete();
  return hull;
}

describe(`gaps against manifold-3d (seed ${seed})`, () => {
  test("runs of several sizes against 300 faces", () => {
    const random = seeded(seed);
    let [zero, positive] = [0, 0];
    for (let scene = 0; scene < 300; scene++) {
      const face = randomFace(random);
      const [p, q] = randomSegment(random);
      const radius = [0.353, 0.461, 1.1, 2.25][scene % 4]!;
      const deck = sheet(face);
      const run = capsule(p, q, radius);
      const theirs = run.minGap(deck, 2000);
      const ours = Math.max(0, segmentToFace(p, q, face).distance - radius);
      expect(theirs, `scene ${scene}`).toBeGreaterThanOrEqual(ours - thickness - 1e-6);
      expect(theirs, `scene ${scene}`).toBeLessThanOrEqual(ours + radius * flats + 1e-6);
      if (ours === 0) zero++;
      else positive++;
      run.delete();
      deck.delete();
    }
    expect(zero).toBeGreaterThan(20);
    expect(positive).toBeGreaterThan(100);
  });

  test("boxes against 200 faces", () => {
    const random = seeded(seed + 1);
    for (let scene = 0; scene < 200; scene++) {
      const face = randomFace(random);
      const box = randomBox(random);
      const deck = sheet(face);
      const cube = solid.Manifold.cube([2 * box.half[0], 2 * box.half[1], 2 * box.half[2]], true);
      const turned = cube.rotate([0, 0, (box.rotation * 180) / Math.PI]);
      const placed = turned.translate([...box.centre]);
      const gap = placed.minGap(deck, 2000);
      expect(Math.abs(gap - boxToFace(box, face).distance), `scene ${scene}`).toBeLessThan(thickness + 1e-6);
      for (const used of [cube, turned, placed, deck]) used.delete();
    }
  });

  test("the flats of the many-sided run lie in by no more than a fiftieth of its radius", () => {
    expect(flats).toBeGreaterThan(0);
    expect(flats).toBeLessThan(0.02);
  });
});
