import { describe, expect, it } from "vitest";
import { barPoint, makeBar } from "../../src/geometry/bar.ts";
import { barNearStretches, barToFace } from "../../src/geometry/bar-clearance.ts";
import { boxToFace, nearStretches, segmentToFace } from "../../src/geometry/clearance.ts";
import { type Face, makeFace } from "../../src/geometry/face.ts";
import { planeLevel } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { LIMIT_TOLERANCE } from "../../src/geometry/tolerance.ts";
import { inches, radians } from "../../src/units/quantity.ts";
import { pointAt, pointToFace } from "./plain-twin.ts";
import { randomFace, randomSegment, seeded } from "./random-scenes.ts";

/*
 * What is drawn runs along the axes and at 45 degrees, parallel and square to the edges of decks, far more often than random numbers do: then
 * much that is divided by is nought.
 */
const SEED = 61;
const rectangle = (x0: number, y0: number, x1: number, y1: number): Point2[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];
const deck = rectangle(0, 0, 96, 64);
const faces: Face[] = [
  makeFace({ outline: deck, holes: [] }, planeLevel(inches(144))),
  makeFace({ outline: deck, holes: [rectangle(32, 24, 48, 40)] }, planeLevel(inches(144))),
  makeFace({ outline: deck, holes: [] }, { gx: 1 / 4, gy: 0, c: inches(144) }),
  makeFace({ outline: [...deck].reverse(), holes: [rectangle(64, 8, 80, 56)] }, { gx: 0, gy: -1, c: inches(176) }),
];

describe("runs along the axes and at 45 degrees", () => {
  it(`are near where their points are, parallel to an edge and past its ends too (seed ${SEED})`, () => {
    const random = seeded(SEED);
    const pick = (from: number, to: number, step: number): number =>
      from + step * Math.floor(random() * ((to - from) / step + 1));
    const [wrong, seen] = [[] as string[], { near: 0, whole: 0 }];
    for (let n = 0; n < 640; n++) {
      const face = faces[Math.floor(n / 8) % faces.length]!;
      const p: Point3 = [pick(-16, 112, 8), pick(-16, 80, 8), pick(132, 152, 2)];
      const way = [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
        [1, 1, 0],
        [1, 0, 1],
        [0, -1, 1],
        [1, 0, 1 / 4],
        [1, -1, 1],
      ][n % 8]!;
      const length = pick(-96, 96, 16);
      const [x, y, z] = p.map((c, k) => c + length * way[k]! * (way[2] === 1 ? 0.25 : 1)) as [number, number, number];
      const q: Point3 = [x, y, z];
      const reach = inches(pick(2, 12, 1) + 0.3);
      const near = nearStretches(p, q, face, reach);
      const { distance } = segmentToFace(p, q, face);
      if (near.length > 0 !== distance < reach - LIMIT_TOLERANCE) wrong.push(`${n}: ${distance} within ${reach}`);
      if (near.length > 0) seen.near++;
      if (near[0]?.[0] === 0 && near[0][1] === 1) seen.whole++;
      for (let i = 0; i <= 64; i++) {
        const d = pointToFace(pointAt(p, q, i / 64), face);
        const isNear = near.some(([from, to]) => from <= i / 64 && i / 64 <= to);
        if (d < reach - 1e-5 ? !isNear : d > reach + 1e-5 && isNear)
          wrong.push(`${n}: ${d} at ${i}/64 of ${p} to ${q}`);
        if (d < distance - 1e-5) wrong.push(`${n}: ${d} at ${i}/64, told ${distance}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(seen.near).toBeGreaterThan(200);
    expect(seen.whole).toBeGreaterThan(50);
  });

  // By hand: level at 141, 3 in. below the deck, 4 in. beside its edge: 5 in. from it all along.
  it.each<[string, Point3, Point3, (readonly [number, number])[]]>([
    ["beside an edge and parallel to it", [8, -4, 141], [88, -4, 141], [[0, 1]]],
    // Past the end, at x from -16: 5.5² - 5² = 2.291² is left along the edge's line.
    [
      "on past both its ends",
      [-16, -4, 141],
      [112, -4, 141],
      [[(16 - Math.sqrt(5.25)) / 128, (112 + Math.sqrt(5.25)) / 128]],
    ],
    // Square to one edge, past the corner it ends at: near from 4 in. beside the other edge's end on.
    ["square to an edge past its end", [-32, 68, 141], [32, 68, 141], [[(32 - Math.sqrt(5.25)) / 64, 1]]],
  ])("%s, within 5.5 in.", (_, p, q, expected) => {
    const near = nearStretches(p, q, faces[0]!, inches(5.5));
    expect(near).toHaveLength(expected.length);
    for (const [i, [from, to]] of expected.entries()) {
      expect(near[i]![0]).toBeCloseTo(from, 7);
      expect(near[i]![1]).toBeCloseTo(to, 7);
    }
  });
});

describe("boxes and bars along the axes", () => {
  it("a small deck over the middle of a large box is as near as its lowest corner, whichever that is", () => {
    const low: Point3[] = [
      [-4, -4, 60],
      [6, -2, 52],
      [1, 5, 56],
    ];
    for (let start = 0; start < 3; start++)
      for (const back of [false, true]) {
        const turned = [...low.slice(start), ...low.slice(0, start)];
        const ring = (back ? turned.reverse() : turned).map(([x, y]): Point2 => [x, y]);
        // The plane through the three.
        const face = makeFace({ outline: ring, holes: [] }, slopeThrough(low));
        const box = { centre: [0, 0, 30] as Point3, half: [40, 40, 10] as Point3, rotation: radians(0) };
        const nearest = boxToFace(box, face);
        expect(nearest.distance).toBeCloseTo(12, 9);
        expect(nearest.onFace.map((n) => Math.round(n * 1e6) / 1e6)).toEqual([6, -2, 52]);
        const bar = makeBar([-60, 0, 30], [60, 0, 30], inches(40), inches(10));
        expect(barToFace(bar, face).distance).toBeCloseTo(12, 9);
        expect(barToFace(bar, face).s).toBeCloseTo(66, 9);
      }
  });

  it(`a deck no wider than a nail through a box or a bar touches it in a point of both (seed ${SEED})`, () => {
    const random = seeded(SEED + 1);
    let [through, past] = [0, 0];
    for (let n = 0; n < 240; n++) {
      const box = { centre: [10, -20, 140] as Point3, half: [9, 6, 4] as Point3, rotation: radians(0) };
      const bar = makeBar([1, -20, 140], [19, -20, 140], inches(6), inches(4));
      const end = (): Point3 => [10 + 40 * (random() - 0.5), -20 + 30 * (random() - 0.5), 140 + 20 * (random() - 0.5)];
      const [a, b] = [end(), end()];
      // Along x, along y, or anywhere; the strip is level square to its way.
      const to: Point3 = n % 3 === 0 ? [b[0], a[1], b[2]] : n % 3 === 1 ? [a[0], b[1], b[2]] : b;
      const [dx, dy] = [to[0] - a[0], to[1] - a[1]];
      const plan = Math.hypot(dx, dy);
      const [wx, wy] = [(-0.01 * dy) / plan, (0.01 * dx) / plan];
      const rise = (to[2] - a[2]) / plan ** 2;
      const outline: Point2[] = [
        [a[0] - wx, a[1] - wy],
        [to[0] - wx, to[1] - wy],
        [to[0] + wx, to[1] + wy],
        [a[0] + wx, a[1] + wy],
      ];
      const [gx, gy] = [rise * dx, rise * dy];
      const face = makeFace({ outline, holes: [] }, { gx, gy, c: inches(a[2] - gx * a[0] - gy * a[1]) });
      // How deep in the box the middle of the strip goes, point by point.
      const depth = Math.max(
        ...Array.from({ length: 401 }, (_, i) => {
          const at = pointAt(a, to, i / 400);
          return Math.min(...at.map((c, k) => box.half[k as 0 | 1 | 2] - Math.abs(c - box.centre[k as 0 | 1 | 2])));
        }),
      );
      if (Math.abs(depth) < 0.1) continue;
      for (const { distance, onElement, onFace } of [boxToFace(box, face), barToFace(bar, face)]) {
        expect(distance === 0, `${n}`).toBe(depth > 0);
        if (distance > 0) continue;
        expect(pointToFace(onFace, face), `${n}`).toBeLessThan(1e-5);
        for (const k of [0, 1, 2] as const) {
          expect(onElement[k], `${n}`).toBeCloseTo(onFace[k], 9);
          expect(Math.abs(onElement[k] - box.centre[k]), `${n}`).toBeLessThan(box.half[k] + 1e-9);
        }
      }
      if (depth > 0) through++;
      else past++;
    }
    expect(through).toBeGreaterThan(30);
    expect(past).toBeGreaterThan(30);
  });

  it("a wide tray with a steep narrow strip of deck through it is near all along the strip, along or aslant, from where its tolerance says", () => {
    // The strip, 6 in. wide, falls 1 in 1 across its way and meets the tray's upper side in the line y = 2 + aslant (x - 75); its long edges stay clear of the tray.
    for (const side of [1, -1])
      for (const aslant of [0, 0.05, -0.05, 0.8, -0.8]) {
        const middle = (x: number): number => side * 2 + aslant * (x - 75);
        const strip: Point2[] = [
          [60, middle(60) - 3],
          [90, middle(90) - 3],
          [90, middle(90) + 3],
          [60, middle(60) + 3],
        ];
        const plane = { gx: side * aslant, gy: -side, c: inches(101 + 2 - side * aslant * 75) };
        const tray = makeBar([0, 0, 100], [160, 0, 100], inches(20), inches(1));
        const near = barNearStretches(tray, makeFace({ outline: strip, holes: [] }, plane), inches(0.5));
        expect(near, `${aslant}`).toHaveLength(1);
        expect(near[0]![0]).toBeCloseTo(59.5 + LIMIT_TOLERANCE, 10);
        expect(near[0]![1]).toBeCloseTo(90.5 - LIMIT_TOLERANCE, 10);
      }
  });

  it(`where a stretch of a level bar begins or ends, its section is just as near as the reach (seed ${SEED})`, () => {
    const random = seeded(SEED + 3);
    let ends = 0;
    for (let n = 0; n < 400; n++) {
      const face = randomFace(random);
      const [p, [x, y]] = randomSegment(random);
      const bar = makeBar(p, [x, y, p[2]], inches(1 + 8 * random()), inches(1 + 8 * random()));
      const { distance } = barToFace(bar, face);
      const reach = inches(distance + 12 * random());
      for (const s of barNearStretches(bar, face, reach).flat()) {
        if (s === 0 || s === bar.length) continue;
        ends++;
        const at = barPoint(bar, s, 0, 0);
        const section = makeBar(at, at, bar.halfWidth, bar.halfHeight, [bar.along[0], bar.along[1]]);
        expect(Math.abs(barToFace(section, face).distance - (reach - LIMIT_TOLERANCE)), `${n}`).toBeLessThan(1e-6);
      }
    }
    expect(ends).toBeGreaterThan(150);
  });

  it("a bar that only just comes near is near where it does", () => {
    const random = seeded(SEED + 2);
    for (let n = 0; n < 80; n++) {
      const face = faces[n % faces.length]!;
      const end = (): Point3 => [140 * random() - 20, 100 * random() - 20, 120 + 20 * random()];
      const bar = makeBar(end(), end(), inches(3), inches(2));
      const { distance, s } = barToFace(bar, face);
      const near = barNearStretches(bar, face, inches(distance + 2e-7));
      expect(
        near.some(([from, to]) => from <= s && s <= to),
        `${n}`,
      ).toBe(true);
      expect(barNearStretches(bar, face, inches(distance + 5e-8))).toEqual([]);
    }
    const plate = makeBar([20, 20, 140], [20, 20, 140], inches(3), inches(2));
    expect(barNearStretches(plate, faces[0]!, inches(3))).toEqual([[0, 0]]);
    expect(barNearStretches(plate, faces[0]!, inches(2))).toEqual([]);
  });
});

/** The plane through three points, by Cramer's rule. */
function slopeThrough([a, b, c]: readonly Point3[]) {
  const [ux, uy, uz] = [b![0] - a![0], b![1] - a![1], b![2] - a![2]];
  const [vx, vy, vz] = [c![0] - a![0], c![1] - a![1], c![2] - a![2]];
  const d = ux * vy - uy * vx;
  const [gx, gy] = [(uz * vy - uy * vz) / d, (ux * vz - uz * vx) / d];
  return { gx, gy, c: inches(a![2] - gx * a![0] - gy * a![1]) };
}
