import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { makeFace } from "../../src/geometry/face.ts";
import { levelLines, partBelow } from "../../src/geometry/level-lines.ts";
import { elevationAt, planeFromSlope, planeLevel } from "../../src/geometry/plane.ts";
import { distance2, type Point2 } from "../../src/geometry/point.ts";
import { area, locate } from "../../src/geometry/polygon.ts";
import { inches } from "../../src/units/quantity.ts";
import { evenly } from "./evenly.ts";

/** A square of 400 in. with a hole of 100 in. in its middle, falling 1 in 40 towards +x from 100 at x = 0: 90 at x = 400. */
const square: Point2[] = [
  [0, 0],
  [400, 0],
  [400, 400],
  [0, 400],
];
const hole: Point2[] = [
  [150, 150],
  [250, 150],
  [250, 250],
  [150, 250],
];
const face = makeFace({ outline: square, holes: [hole] }, planeFromSlope([0, 0], inches(100), 1 / 40, [1, 0]));

describe("lines of equal elevation on a face", () => {
  it("stand square to the fall, and stop at an opening", () => {
    const ends = (z: number) =>
      levelLines(face, z)
        .map((piece) =>
          piece.map(([x, y]) => [x, y].map((n) => Math.round(n * 1e6) / 1e6)).sort((a, b) => a[1]! - b[1]!),
        )
        .sort((a, b) => a[0]![1]! - b[0]![1]!);
    // 97.5 is at x = 100, left of the hole; 95 is at x = 200, through it.
    expect(ends(97.5)).toEqual([
      [
        [100, 0],
        [100, 400],
      ],
    ]);
    expect(ends(95)).toEqual([
      [
        [200, 0],
        [200, 150],
      ],
      [
        [200, 250],
        [200, 400],
      ],
    ]);
    expect(ends(100.1)).toEqual([]);
    expect(ends(89.9)).toEqual([]);
    expect(levelLines(makeFace({ outline: square, holes: [] }, planeLevel(inches(95))), 95)).toEqual([]);
  });

  it("part a face in what lies below and what does not", () => {
    const below = (z: number) => partBelow(face, z).reduce((sum, each) => sum + area(each), 0);
    // Below 92.5 lies what is right of x = 300; below 95 half of all, half of the hole left out.
    expect(below(92.5)).toBeCloseTo(100 * 400, 6);
    expect(below(95)).toBeCloseTo(200 * 400 - 50 * 100, 6);
    expect(below(90)).toBe(0);
    expect(below(101)).toBeCloseTo(400 * 400 - 100 * 100, 6);
    const level = makeFace({ outline: square, holes: [] }, planeLevel(inches(95)));
    expect(partBelow(level, 95)).toEqual([]);
    expect(partBelow(level, 95.001).map(area)).toEqual([400 * 400]);
  });

  it("lie on the plane and in the plan, whatever the fall, far from the origin too (seed 5)", () => {
    fc.assert(
      fc.property(
        evenly(0, 2 * Math.PI),
        evenly(0.001, 1),
        evenly(0.01, 0.99),
        fc.constantFrom(0, 1e5),
        (way, slope, part, far) => {
          const moved = (ring: Point2[]) => ring.map(([x, y]): Point2 => [x + far, y - far]);
          const polygon = { outline: moved(square), holes: [moved(hole)] };
          const plane = planeFromSlope([far, -far], inches(100), slope, [Math.cos(way), Math.sin(way)]);
          const turned = makeFace(polygon, plane);
          const { min, max } = turned.box;
          const z = min[2] + (max[2] - min[2]) * part;
          for (const [a, b] of levelLines(turned, z)) {
            for (const end of [a, b]) expect(Math.abs(elevationAt(plane, end) - z)).toBeLessThan(1e-6);
            if (distance2(a, b) > 1e-6)
              expect(locate(polygon, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2])).not.toBe("outside");
          }
          const below = partBelow(turned, z).reduce((sum, each) => sum + area(each), 0);
          expect(below).toBeGreaterThanOrEqual(0);
          expect(below).toBeLessThanOrEqual(400 * 400 - 100 * 100 + 1e-3);
        },
      ),
      { seed: 5, numRuns: 200 },
    );
  });
});
