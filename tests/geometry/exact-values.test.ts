import { describe, expect, it } from "vitest";
import {
  nearStretches,
  SPOT_STRIDE,
  segmentToFace,
  verticalGaps,
  writeSegmentToFace,
} from "../../src/geometry/clearance.ts";
import { makeFace } from "../../src/geometry/face.ts";
import { elevationAt, planeLevel, planeThrough } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { isCloserThan, LIMIT_TOLERANCE } from "../../src/geometry/tolerance.ts";
import { inches } from "../../src/units/quantity.ts";
import { randomFace, randomSegment, seeded } from "./random-scenes.ts";

describe("values that a small slip would change", () => {
  it("a plane through three points holds all three, wherever they are", () => {
    const random = seeded(41);
    const any = (): Point3 => [900 * (random() - 0.4), 900 * (random() - 0.4), 140 + 20 * random()];
    for (let i = 0; i < 500; i++) {
      const points = [any(), any(), any()] as const;
      const plane = planeThrough(...points);
      if (!plane || Math.hypot(plane.gx, plane.gy) > 2) continue;
      for (const [x, y, z] of points) expect(Math.abs(elevationAt(plane, [x, y]) - z), `${i}`).toBeLessThan(1e-8);
    }
  });

  it("a stretch begins where the distance is less than the limit by more than the tolerance", () => {
    const outline = [
      [0, 0],
      [100, 0],
      [100, 100],
      [0, 100],
    ] as const;
    const deck = makeFace({ outline, holes: [] }, planeLevel(inches(144)));
    // The gap is 8 - 8t: within 2, less the tolerance, from t = (6 + tolerance) / 8 on.
    const [[from]] = nearStretches([10, 50, 136], [90, 50, 144], deck, inches(2)) as [[number, number]];
    expect(Math.abs(from - (6 + LIMIT_TOLERANCE) / 8)).toBeLessThan(1e-11);
  });

  it("closer means by more than the tolerance: by just that much is not closer", () => {
    expect(isCloserThan(1.5 - LIMIT_TOLERANCE, 1.5)).toBe(false);
    expect(isCloserThan(1.5 - LIMIT_TOLERANCE - 2 ** -52, 1.5)).toBe(true);
  });

  it("of two edges less than an inch apart the nearer counts, whichever is looked at first", () => {
    // A strip 1/2 in. wide, run past at 1/4 in. from one of its long sides: 3/4 in. from the other.
    const strip: Point2[] = [
      [0, 0],
      [0.5, 0],
      [0.5, 64],
      [0, 64],
    ];
    for (const swap of [false, true])
      for (let start = 0; start < 4; start++) {
        const outline = [...strip.slice(start), ...strip.slice(0, start)].map(
          ([x, y]): Point2 => (swap ? [y, x] : [x, y]),
        );
        const face = makeFace({ outline, holes: [] }, planeLevel(inches(144)));
        for (const x of [-0.25, 0.75]) {
          const at = (y: number): Point3 => (swap ? [y, x, 144] : [x, y, 144]);
          expect(segmentToFace(at(24), at(40), face).distance, `${outline}`).toBe(0.25);
        }
      }
  });

  it("nothing is lost at 67 million inches from the origin, as plans in state coordinates lie", () => {
    // All of it in binary fractions, so that both plans are the same to the last bit.
    const scene = (far: number) => {
      const outline: Point2[] = [
        [far, -far],
        [far + 96, -far],
        [far + 96, 64 - far],
        [far, 64 - far],
      ];
      const face = makeFace({ outline, holes: [] }, { gx: 1 / 64, gy: 0, c: inches(144 - far / 64) });
      const at = (x: number, y: number, z: number): Point3 => [x + far, y - far, z];
      return [
        segmentToFace(at(8, 8, 140), at(40, 50, 142), face).distance,
        segmentToFace(at(-8, 8, 140), at(-3, 50, 142), face).distance,
        segmentToFace(at(-20, 30, 150), at(30, -20, 139), face).distance,
        ...nearStretches(at(-20, 30, 141), at(120, 20, 143), face, inches(3)).flat(),
        ...verticalGaps(at(-20, 30, 141), at(60, 20, 143), face).flatMap(({ from, to, gapFrom, gapTo }) => [
          from,
          to,
          gapFrom,
          gapTo,
        ]),
      ];
    };
    const near = scene(0);
    expect(near.length).toBeGreaterThan(8);
    for (const [i, value] of scene(2 ** 26).entries()) expect(Math.abs(value - near[i]!), `${i}`).toBeLessThan(1e-9);
  });

  it("a face without corners is near nothing, and says so at the element's first point", () => {
    const hollow = makeFace({ outline: [], holes: [] }, planeLevel(inches(144)));
    const spot = new Float64Array(SPOT_STRIDE);
    const p: Point3 = [1, 2, 3];
    writeSegmentToFace(p, [7, 8, 9], hollow, spot);
    expect([...spot]).toEqual([Number.POSITIVE_INFINITY, 0, ...p, ...p]);
    expect(segmentToFace(p, [7, 8, 9], hollow)).toEqual({
      distance: Number.POSITIVE_INFINITY,
      t: 0,
      onElement: p,
      onFace: p,
    });
  });

  it("a stretch is the same whether its nearest point was found before or not, down to a mere touch", () => {
    const random = seeded(43);
    for (let i = 0; i < 300; i++) {
      const face = randomFace(random);
      const [p, q] = randomSegment(random);
      const nearest = segmentToFace(p, q, face);
      for (const more of [2e-7, 1e-3, 10]) {
        const reach = inches(nearest.distance + more);
        const parts = nearStretches(p, q, face, reach, nearest);
        expect(parts).toEqual(nearStretches(p, q, face, reach));
        expect(parts.some(([from, to]) => from <= nearest.t && nearest.t <= to)).toBe(true);
      }
    }
  });
});
