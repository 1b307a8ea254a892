import Module, { type ManifoldToplevel, type Mat4, type SimplePolygon } from "manifold-3d";
import type { ExtendedTriangle } from "three-mesh-bvh";
import { beforeAll, describe, expect, test } from "vitest";
import { type Bar, barCorners, barPoint, makeBar } from "../../src/geometry/bar.ts";
import { barNearStretches, barToFace } from "../../src/geometry/bar-clearance.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { signedArea } from "../../src/geometry/polygon.ts";
import { inches } from "../../src/units/quantity.ts";
import { pointToFace } from "../geometry/plain-twin.ts";
import { randomFace, randomSegment, seeded } from "../geometry/random-scenes.ts";
import { triangle, trianglesOf } from "./face-triangles.ts";

/*
 * Bars of rectangular section against two libraries: triangle to triangle of three-mesh-bvh over the twelve triangles of the bar, and the gap of
 * manifold-3d between solids, whose sheet is 1e-4 in. thick. The stretches are held between points that are surely near and a slow twin of the section.
 */
const seed = 61;
const SIDES = [
  [0, 1, 2, 3],
  [4, 5, 6, 7],
  [0, 1, 5, 4],
  [1, 2, 6, 5],
  [2, 3, 7, 6],
  [3, 0, 4, 7],
] as const;
function barTriangles(bar: Bar): ExtendedTriangle[] {
  const corners = barCorners(bar);
  return SIDES.flatMap(([a, b, c, d]) => [
    triangle(corners[a]!, corners[b]!, corners[c]!),
    triangle(corners[a]!, corners[c]!, corners[d]!),
  ]);
}
const least = (ours: readonly ExtendedTriangle[], theirs: readonly ExtendedTriangle[]): number =>
  Math.min(...ours.flatMap((one) => theirs.map((other) => one.distanceToTriangle(other))));

function randomBar(random: () => number, p: Point3, q: Point3): Bar {
  return makeBar(p, q, inches(0.5 + 6 * random()), inches(0.5 + 6 * random()), [random() - 0.5, random() - 0.5]);
}

/** The triangles of the section at s, and those of the face, for a slow answer. */
function sectionAt(bar: Bar, s: number): ExtendedTriangle[] {
  const [a, b, c, d] = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([v, w]) => barPoint(bar, s, v! * bar.halfWidth, w! * bar.halfHeight));
  return [triangle(a!, b!, c!), triangle(a!, c!, d!)];
}

describe(`bars against three-mesh-bvh (seed ${seed})`, () => {
  test("bar to face, 500 scenes", () => {
    const random = seeded(seed);
    let [zero, positive] = [0, 0];
    for (let scene = 0; scene < 500; scene++) {
      const [x, y] = scene % 3 === 0 ? [1e5, -7e4] : [0, 0];
      const face = randomFace(random, x, y);
      const bar = randomBar(random, ...randomSegment(random, x, y));
      const theirs = least(barTriangles(bar), trianglesOf(face));
      const { distance, onElement, onFace, s } = barToFace(bar, face);
      expect(Math.abs(distance - theirs), `scene ${scene}`).toBeLessThan(2e-6);
      // The two spots are that far apart, the one is on the bar at its station, the other on the face.
      expect(Math.hypot(...onElement.map((n, k) => n - onFace[k]!))).toBeCloseTo(distance, 6);
      // The slow twin loses half its digits beside an edge.
      expect(pointToFace(onFace, face)).toBeLessThan(1e-5);
      expect(s).toBeGreaterThanOrEqual(0);
      expect(s).toBeLessThanOrEqual(bar.length);
      if (distance === 0) zero++;
      else positive++;
    }
    expect(zero).toBeGreaterThan(30);
    expect(positive).toBeGreaterThan(200);
  });

  test("stretches, section by section, 250 scenes", () => {
    const random = seeded(seed + 1);
    let [inside, outside, parts] = [0, 0, 0];
    for (let scene = 0; scene < 250; scene++) {
      const face = randomFace(random);
      const bar = randomBar(random, ...randomSegment(random));
      const reach = inches([0.5, 1.5, 6, 15][scene % 4]!);
      const set = barNearStretches(bar, face, reach);
      expect(set.length > 0).toBe(barToFace(bar, face).distance < reach - 1e-7);
      if (set.length > 1) parts++;
      const theirs = trianglesOf(face);
      const ends = set.flat();
      const stations = [
        ...Array.from({ length: 25 }, (_, i) => (bar.length * i) / 24),
        ...ends.flatMap((end) => [end - 1e-3, end + 1e-3]),
      ].filter((s) => s >= 0 && s <= bar.length);
      for (const s of stations) {
        const distance = least(sectionAt(bar, s), theirs);
        const near = set.some(([from, to]) => s >= from - 1e-9 && s <= to + 1e-9);
        // Within rounding of the limit either is right.
        if (distance < reach - 1e-5) expect(near, `scene ${scene}, ${s}: ${distance} of ${reach}`).toBe(true);
        if (distance > reach + 1e-5) expect(near, `scene ${scene}, ${s}: ${distance} of ${reach}`).toBe(false);
        if (near) inside++;
        else outside++;
      }
    }
    expect(inside).toBeGreaterThan(300);
    expect(outside).toBeGreaterThan(1000);
    expect(parts).toBeGreaterThan(0);
  });
});

describe(`bars against manifold-3d (seed ${seed})`, () => {
  const thickness = 1e-4;
  let solid: ManifoldToplevel;
  beforeAll(async () => {
    solid = await Module();
    solid.setup();
  });

  test("gaps, 200 scenes", () => {
    const random = seeded(seed + 2);
    for (let scene = 0; scene < 200; scene++) {
      const face = randomFace(random);
      const bar = randomBar(random, ...randomSegment(random));
      if (bar.length < 1e-6) continue;
      const ring = (points: readonly Point2[], sign: number): SimplePolygon => {
        const turned = signedArea(points) * sign < 0 ? [...points].reverse() : points;
        return turned.map(([x, y]): [number, number] => [x, y]);
      };
      const { polygon, plane } = face;
      const flat = solid.Manifold.extrude(
        [ring(polygon.outline, 1), ...polygon.holes.map((hole) => ring(hole, -1))],
        thickness,
      );
      const shear: Mat4 = [1, 0, plane.gx, 0, 0, 1, plane.gy, 0, 0, 0, 1, 0, 0, 0, plane.c, 1];
      const deck = flat.transform(shear);
      const cube = solid.Manifold.cube([bar.length, 2 * bar.halfWidth, 2 * bar.halfHeight], false);
      const centred = cube.translate([0, -bar.halfWidth, -bar.halfHeight]);
      const turn: Mat4 = [...bar.along, 0, ...bar.across, 0, ...bar.up, 0, ...bar.p, 1];
      const placed = centred.transform(turn);
      const gap = placed.minGap(deck, 2000);
      expect(Math.abs(gap - barToFace(bar, face).distance), `scene ${scene}`).toBeLessThan(thickness + 1e-4);
      for (const used of [flat, deck, cube, centred, placed]) used.delete();
    }
  });
});
