import { describe, expect, test } from "vitest";
import {
  nearStretches,
  planSpans,
  SPOT_STRIDE,
  segmentToFace,
  writeSegmentToFace,
} from "../../src/geometry/clearance.ts";
import { type Face, makeFace } from "../../src/geometry/face.ts";
import { planeFromSlope } from "../../src/geometry/plane.ts";
import { length2, length3, type Point2, type Point3 } from "../../src/geometry/point.ts";
import { inches } from "../../src/units/quantity.ts";
import { randomSegment, seeded } from "./random-scenes.ts";

const seed = 67;

/** A bay with sides along the axes, and the same without its core: the slow way is taken for everything. */
function bay(random: () => number): { face: Face; plain: Face } {
  const [x, y, w, h] = [100 * random(), 100 * random(), 20 + 100 * random(), 20 + 100 * random()];
  const corners: Point2[] = [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ];
  const start = Math.floor(4 * random());
  const turned = corners.map((_, i) => corners[(i + start) % 4]!);
  const outline = random() < 0.5 ? turned : turned.reverse();
  const slope = random() < 0.4 ? 0 : random() / 4;
  const face = makeFace({ outline, holes: [] }, planeFromSlope([x, y], inches(100), slope, [random(), random()]));
  return { face, plain: { ...face, core: Float64Array.of(Infinity, Infinity, -Infinity, -Infinity) } };
}

describe(`what is inside a bay without looking at its edges (seed ${seed})`, () => {
  test("gives to the bit what its edges give", () => {
    const random = seeded(seed);
    let [inside, outside] = [0, 0];
    for (let n = 0; n < 4000; n++) {
      const { face, plain } = bay(random);
      const [x0, y0, x1, y1] = face.core;
      const at = (): Point3 => {
        // Corners and edges of the core, places just off them, and anywhere around.
        const pick = (low: number, high: number): number =>
          [low, high, low - 1e-6, high + 1e-6, low + (high - low) * (1.4 * random() - 0.2)][Math.floor(5 * random())]!;
        const z = 100 + (random() < 0.2 ? 0 : 20 * random() - 10);
        return [pick(x0!, x1!) + face.origin[0], pick(y0!, y1!) + face.origin[1], z];
      };
      const [p, q] = [at(), at()];
      expect(planSpans(p, q, face)).toEqual(planSpans(p, q, plain));
      expect(segmentToFace(p, q, face)).toEqual(segmentToFace(p, q, plain));
      expect(nearStretches(p, q, face, inches(3))).toEqual(nearStretches(p, q, plain, inches(3)));
      if (planSpans(p, q, face).length > 0) inside++;
      else outside++;
    }
    expect(inside).toBeGreaterThan(1000);
    expect(outside).toBeGreaterThan(150);
  });
  test("is empty for an outline with a hole, and for one that is not a rectangle", () => {
    const ring = (x: number, size: number): Point2[] => [
      [x, x],
      [x + size, x],
      [x + size, x + size],
      [x, x + size],
    ];
    const level = planeFromSlope([0, 0], inches(0), 0, [1, 0]);
    const cores = [
      makeFace({ outline: ring(0, 100), holes: [ring(40, 10)] }, level),
      makeFace({ outline: [...ring(0, 100).slice(0, 3), [-30, 100]], holes: [] }, level),
      makeFace({ outline: ring(0, 100).slice(0, 3), holes: [] }, level),
    ].map(({ core }) => core);
    for (const [x0, , x1] of cores) expect(x0!).toBeGreaterThan(x1!);
  });
});

test(`a nearest written into an array is the nearest as a value (seed ${seed})`, () => {
  const random = seeded(seed + 1);
  const spot = new Float64Array(SPOT_STRIDE);
  for (let n = 0; n < 1000; n++) {
    const { face } = bay(random);
    const [p, q] = randomSegment(random);
    const { distance, t, onElement, onFace } = segmentToFace(p, q, face);
    writeSegmentToFace(p, q, face, spot);
    expect([...spot]).toEqual([distance, t, ...onElement, ...onFace]);
  }
});

test(`lengths are those of Math.hypot to the bit (seed ${seed})`, () => {
  const random = seeded(seed + 2);
  const part = (): number =>
    [0, -0, 1e9 * (random() - 0.5), random() - 0.5, 1e-9 * random()][Math.floor(5 * random())]!;
  for (let n = 0; n < 5000; n++) {
    const [x, y, z] = [part(), part(), part()];
    expect(length2(x, y)).toBe(Math.hypot(x, y));
    expect(length3(x, y, z)).toBe(Math.hypot(x, y, z));
  }
});
