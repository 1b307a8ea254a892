import { describe, expect, it } from "vitest";
import { barCorners, boxOfBar, makeBar } from "../../src/geometry/bar.ts";
import { barNearStretches, barToFace, barVerticalGap } from "../../src/geometry/bar-clearance.ts";
import { makeFace } from "../../src/geometry/face.ts";
import { planeFromSlope, planeLevel } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { inches } from "../../src/units/quantity.ts";
import { randomFace, randomSegment, seeded } from "./random-scenes.ts";

const square: Point2[] = [
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
];
const level = makeFace({ outline: square, holes: [] }, planeLevel(inches(100)));
/** A 6 x 4 section. */
const bar = (p: Point3, q: Point3, ahead?: Point2) => makeBar(p, q, inches(3), inches(2), ahead);

describe("a bar under a level deck", () => {
  it("is half its height nearer than its axis", () => {
    expect(barToFace(bar([10, 50, 95], [90, 50, 95]), level).distance).toBeCloseTo(3, 12);
    expect(barNearStretches(bar([10, 50, 95], [90, 50, 95]), level, inches(3))).toEqual([]);
    expect(barNearStretches(bar([10, 50, 95], [90, 50, 95]), level, inches(3.1))).toEqual([[0, 80]]);
  });

  it("is near from where its upper edge comes near, in a rising bar", () => {
    // Rises 3 in 4: up across the section is (-0.6, 0, 0.8), so the upper edge starts at z = 90 + 0.8 x 2 and rises 0.6 an inch.
    const rising = bar([10, 50, 90], [18, 50, 96]);
    const [[from, to]] = barNearStretches(rising, level, inches(4)) as [[number, number]];
    expect(from).toBeCloseTo((100 - 4 - 91.6) / 0.6, 6);
    expect(to).toBeCloseTo(10, 12);
  });

  it("is near beside an edge by its own side, at a slant by its corners", () => {
    // Along the edge, 4 in. out in plan and 2 in. down from its upper edge: the corner is (1, 2) away.
    const beside = bar([10, -4, 96], [90, -4, 96]);
    expect(barToFace(beside, level).distance).toBeCloseTo(Math.hypot(1, 2), 12);
    // Past a corner of the face, going out at 45 degrees through (0, 0): nothing but the section's end is near.
    const slanted = bar([-40, -40, 99], [-4, -4, 99]);
    const near = barToFace(slanted, level);
    expect(near.s).toBeCloseTo(slanted.length, 9);
    expect(near.distance).toBeCloseTo(Math.hypot(4, 4), 9);
  });

  it("goes through the deck with a side, its corners far from it", () => {
    // A 6 x 40 plate on edge across the deck: its corners are 20 in. off, its sides go through.
    const tall = makeBar([20, 50, 100], [60, 50, 100], inches(3), inches(20));
    expect(barToFace(tall, level).distance).toBe(0);
    expect(barNearStretches(tall, level, inches(1.5))).toEqual([[0, 40]]);
    const out = makeBar([-60, 50, 100], [60, 50, 100], inches(3), inches(20));
    const [[from, to]] = barNearStretches(out, level, inches(1.5)) as [[number, number]];
    expect(from).toBeCloseTo(60 - 1.5, 5);
    expect(to).toBe(120);
  });

  it("holds a small hole's rim in its middle", () => {
    // The bar is thicker than the hole is wide, so that only its rim is near.
    const holed = makeFace(
      {
        outline: square,
        holes: [
          [
            [49, 49],
            [51, 49],
            [51, 51],
            [49, 51],
          ],
        ],
      },
      planeLevel(inches(100)),
    );
    expect(barToFace(bar([50, 50, 80], [50, 50, 97], [1, 0]), holed).distance).toBeCloseTo(3, 12);
  });

  it("stands upright with its section turned the way it was going", () => {
    const upright = bar([50, 50, 80], [50, 50, 90], [0, 1]);
    const xs = barCorners(upright).map(([x]) => x);
    // Going along y, its width lies along x.
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([47, 53]);
    expect(barToFace(upright, level).distance).toBeCloseTo(10, 12);
    expect(barNearStretches(upright, level, inches(12))).toEqual([[expect.closeTo(8, 5), 10]]);
  });

  it("tells how far it reaches above the surface, and where", () => {
    const gap = barVerticalGap(bar([10, 50, 99], [90, 50, 99]), level);
    expect(gap?.least).toBeCloseTo(-1, 12);
    expect(gap?.at[2]).toBeCloseTo(101, 12);
    expect(barVerticalGap(bar([10, -50, 99], [90, -50, 99]), level)).toBeUndefined();
  });

  it("under a slope is nearest by the uphill side of its section", () => {
    const slope = makeFace({ outline: square, holes: [] }, planeFromSlope([0, 0], inches(100), 0.25, [0, 1]));
    // At y = 50 the deck is at 87.5; the side downhill, at 53, is 0.75 lower; the upper edge is at 85.
    const gap = barVerticalGap(bar([10, 50, 83], [90, 50, 83]), slope);
    expect(gap?.least).toBeCloseTo(87.5 - 0.75 - 85, 9);
    expect(barToFace(bar([10, 50, 83], [90, 50, 83]), slope).distance).toBeCloseTo(1.75 / Math.hypot(1, 0.25), 9);
  });
});

describe("any bar", () => {
  it("has three directions square to each other, lies in its box, and mirrors itself end for end", () => {
    const random = seeded(71);
    for (let i = 0; i < 300; i++) {
      const [p, q] = randomSegment(random);
      const face = randomFace(random);
      const ahead: Point2 = [random() - 0.5, random() - 0.5];
      const one = bar(p, q, ahead);
      const { along, across, up } = one;
      for (const [a, b] of [
        [along, across],
        [across, up],
        [up, along],
      ] as const)
        expect(Math.abs(a[0] * b[0] + a[1] * b[1] + a[2] * b[2])).toBeLessThan(1e-12);
      expect(across[2]).toBe(0);
      expect(up[2]).toBeGreaterThanOrEqual(0);
      const { min, max } = boxOfBar(one);
      const corners = barCorners(one);
      for (const k of [0, 1, 2] as const) {
        expect(Math.min(...corners.map((c) => c[k]))).toBeCloseTo(min[k], 9);
        expect(Math.max(...corners.map((c) => c[k]))).toBeCloseTo(max[k], 9);
      }
      if (one.length === 0) continue;
      const back = bar(q, p, [-ahead[0], -ahead[1]]);
      expect(barToFace(back, face).distance).toBeCloseTo(barToFace(one, face).distance, 9);
      const total = (set: readonly (readonly [number, number])[]) => set.reduce((sum, [a, b]) => sum + b - a, 0);
      const reach = inches(8);
      expect(total(barNearStretches(back, face, reach))).toBeCloseTo(total(barNearStretches(one, face, reach)), 5);
    }
  });

  it("refuses what is not a number", () => {
    expect(() => barToFace(bar([0, 0, Number.NaN], [1, 0, 0]), level)).toThrow(RangeError);
  });
});
