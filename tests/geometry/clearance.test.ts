import { describe, expect, test } from "vitest";
import { boxToFace, boxVerticalGap, nearStretches, segmentToFace, verticalGaps } from "../../src/geometry/clearance.ts";
import { makeFace } from "../../src/geometry/face.ts";
import { makeFaceIndex } from "../../src/geometry/face-index.ts";
import { planeFromSlope, planeLevel } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { isCloserThan, LIMIT_TOLERANCE } from "../../src/geometry/tolerance.ts";
import { inches, radians } from "../../src/units/quantity.ts";

const square: Point2[] = [
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
];
const hole: Point2[] = [
  [40, 40],
  [60, 40],
  [60, 60],
  [40, 60],
];
const level = makeFace({ outline: square, holes: [] }, planeLevel(inches(144)));
const holed = makeFace({ outline: square, holes: [hole] }, planeLevel(inches(144)));
/** 1/4 in. per foot, falling along x. */
const quarter = makeFace({ outline: square, holes: [] }, planeFromSlope([0, 50], inches(144), 1 / 48, [1, 0]));
const distance = (p: Point3, q: Point3, face = level) => segmentToFace(p, q, face).distance;

describe("segment to face", () => {
  test("under a level deck it is the vertical gap, wherever the segment ends", () => {
    expect(distance([10, 10, 140], [90, 20, 140])).toBe(4);
    expect(distance([-50, 10, 140], [190, 20, 140])).toBe(4);
    expect(distance([-50, 10, 130], [190, 20, 142])).toBeLessThan(8);
  });

  test("1/4 in. per foot: perpendicular = vertical x cos(atan(1/48)), worked by hand", () => {
    // Under (60, 50) the deck is at 144 - 60/48 = 142.75; an axis at 140.75 has 2 in. above it vertically.
    const nearest = segmentToFace([60, 50, 140.75], [60, 50, 140.75], quarter);
    expect(nearest.distance).toBeCloseTo(2 * Math.cos(Math.atan(1 / 48)), 12);
    // 2 x 0.999783... to six digits, worked on paper: 48 / sqrt(48² + 1) = 0.99978306.
    expect(nearest.distance).toBeCloseTo(1.999566, 6);
    expect(verticalGaps([60, 50, 140.75], [60, 50, 140.75], quarter)).toEqual([
      { from: 0, to: 1, gapFrom: expect.closeTo(2, 12), gapTo: expect.closeTo(2, 12) },
    ]);
    // The foot of the perpendicular is downhill of the point, where the deck comes lower.
    expect(nearest.onFace[0]).toBeGreaterThan(60);
  });

  test("beside the edge, beside the corner", () => {
    expect(distance([-3, 50, 140], [-3, 60, 140])).toBe(5);
    expect(distance([-3, -4, 132], [-30, -4, 132])).toBe(13);
    expect(distance([110, -100, 144], [110, 300, 144])).toBe(10);
  });

  test("crossing, touching and lying in the deck are 0", () => {
    expect(distance([50, 50, 100], [50, 50, 200])).toBe(0);
    expect(distance([50, 50, 100], [50, 50, 144])).toBe(0);
    expect(distance([10, 10, 144], [20, 20, 144])).toBe(0);
    expect(distance([-10, 50, 144], [0, 50, 144])).toBe(0);
    expect(distance([-10, 50, 144], [500, 50, 144])).toBe(0);
  });

  test("through a hole it is the distance to the rim", () => {
    expect(distance([50, 50, 100], [50, 50, 200], holed)).toBe(10);
    expect(distance([45, 50, 100], [45, 50, 200], holed)).toBe(5);
    expect(distance([50, 50, 141], [50, 50, 141], holed)).toBeCloseTo(Math.hypot(10, 3), 12);
    expect(distance([20, 50, 100], [20, 50, 200], holed)).toBe(0);
  });

  test("the answer is a pair of points that far apart, on the segment and on the face", () => {
    const { onElement, onFace, t, distance: d } = segmentToFace([120, 20, 130], [130, 80, 144], level);
    expect(onElement).toEqual([120, 20, 130]);
    expect(onFace).toEqual([100, 20, 144]);
    expect(t).toBe(0);
    expect(d).toBeCloseTo(Math.hypot(20, 14), 12);
  });

  test("distance has no sign; the vertical gap has", () => {
    expect(distance([10, 10, 148], [20, 10, 148])).toBe(4);
    expect(verticalGaps([10, 10, 148], [20, 10, 148], level)[0]).toMatchObject({ gapFrom: -4, gapTo: -4 });
  });

  test("far from the origin nothing is lost", () => {
    const shift = 1e5;
    const far = makeFace(
      { outline: square.map(([x, y]) => [x + shift, y - shift]), holes: [] },
      planeFromSlope([shift, 50 - shift], inches(144), 1 / 48, [1, 0]),
    );
    const near = segmentToFace([60, 50, 140.75], [70, 20, 139], quarter).distance;
    const there = segmentToFace([60 + shift, 50 - shift, 140.75], [70 + shift, 20 - shift, 139], far).distance;
    expect(Math.abs(there - near)).toBeLessThan(1e-9);
  });

  test("slivers and collapsed faces still have a distance", () => {
    const sliver = makeFace(
      {
        outline: [
          [0, 0],
          [100, 0],
          [50, 1e-9],
        ],
        holes: [],
      },
      planeLevel(inches(144)),
    );
    expect(distance([50, 0, 140], [50, 0, 140], sliver)).toBeCloseTo(4, 9);
    expect(distance([50, 3, 140], [60, 3, 140], sliver)).toBeCloseTo(5, 8);
    const line = makeFace(
      {
        outline: [
          [0, 0],
          [100, 0],
        ],
        holes: [],
      },
      planeLevel(inches(144)),
    );
    expect(distance([50, 3, 140], [60, 3, 140], line)).toBe(5);
    const point = makeFace(
      {
        outline: [
          [7, 7],
          [7, 7],
          [7, 7],
        ],
        holes: [],
      },
      planeLevel(inches(144)),
    );
    expect(distance([7, 10, 140], [7, 20, 140], point)).toBe(5);
    expect(distance([7, 10, 140], [7, 20, 140], makeFace({ outline: [], holes: [] }, planeLevel(inches(1))))).toBe(
      Number.POSITIVE_INFINITY,
    );
  });

  test("what is not a number throws; it never reads as far away", () => {
    const nan = Number.NaN;
    const square4 = { outline: square, holes: [] };
    expect(() => segmentToFace([nan, 0, 0], [1, 1, 1], level)).toThrow(RangeError);
    expect(() => segmentToFace([0, 0, 0], [1, 1, nan], level)).toThrow(RangeError);
    expect(() => boxToFace({ centre: [0, 0, nan], half: [1, 1, 1], rotation: radians(0) }, level)).toThrow(RangeError);
    expect(() => verticalGaps([0, 0, 0], [1, nan, 1], level)).toThrow(RangeError);
    expect(() => boxVerticalGap({ centre: [0, 0, 0], half: [1, 1, nan], rotation: radians(0) }, level)).toThrow(
      RangeError,
    );
    expect(() => nearStretches([0, 0, 0], [1, 1, 1], level, inches(nan))).toThrow(RangeError);
    expect(() => makeFace(square4, planeLevel(inches(nan)))).toThrow(RangeError);
    expect(() =>
      makeFace(
        {
          outline: [
            [0, 0],
            [1, nan],
            [1, 1],
          ],
          holes: [],
        },
        planeLevel(inches(1)),
      ),
    ).toThrow(RangeError);
    expect(() => makeFaceIndex([level]).nearestToSegment([0, 0, nan], [1, 1, 1])).toThrow(RangeError);
    expect(() => isCloserThan(nan, 1)).toThrow(RangeError);
    expect(() => isCloserThan(1, nan)).toThrow(RangeError);
    expect(isCloserThan(Number.POSITIVE_INFINITY, 1)).toBe(false);
  });

  test("nearly parallel to an edge", () => {
    for (const tilt of [0, 1e-15, 1e-12, 1e-9, 1e-6]) {
      expect(distance([0, -3, 140], [100, -3 - 100 * tilt, 140])).toBeCloseTo(5, 12);
      expect(distance([-20, -3 - 120 * tilt, 140], [120, -3, 140])).toBeCloseTo(5, 3);
    }
  });
});

describe("stretches too near", () => {
  test("exactly at the limit is not near, a little less is", () => {
    const at: [Point3, Point3] = [
      [10, 10, 142.5],
      [90, 10, 142.5],
    ];
    expect(nearStretches(...at, level, inches(1.5))).toEqual([]);
    expect(nearStretches(...at, level, inches(1.5 + 0.5 * LIMIT_TOLERANCE))).toEqual([]);
    expect(nearStretches(...at, level, inches(1.5 + 2 * LIMIT_TOLERANCE))).toEqual([[0, 1]]);
    expect(isCloserThan(1.5, 1.5)).toBe(false);
    expect(isCloserThan(1.5 - 2e-7, 1.5)).toBe(true);
  });

  test("a run that rises toward the deck is near from where it comes within reach", () => {
    // The gap is 8 - 8t: within 2 from t = 3/4.
    const [[from, to]] = nearStretches([10, 50, 136], [90, 50, 144], level, inches(2)) as [[number, number]];
    expect(from).toBeCloseTo(0.75, 7);
    expect(to).toBe(1);
  });

  test("past the edge of the deck the tube round the edge counts", () => {
    // At 3 in. below the edge, reach 5 leaves 4 in. beside it: x from -4 to 104 on a run from -100 to 200.
    const [[from, to]] = nearStretches([-100, 50, 141], [200, 50, 141], level, inches(5)) as [[number, number]];
    expect(from * 300 - 100).toBeCloseTo(-4, 6);
    expect(to * 300 - 100).toBeCloseTo(104, 6);
  });

  test("past a corner only the ball round it counts", () => {
    // Across the corner at 45 degrees: nearest at (-2, -2); 3 below; in reach 5 within sqrt(25 - 9 - 8) = sqrt 8 of it.
    const [[from, to]] = nearStretches([-12, 8, 141], [8, -12, 141], level, inches(5)) as [[number, number]];
    const length = Math.hypot(20, 20);
    expect((to - from) * length).toBeGreaterThan(2 * Math.sqrt(8) - 1e-6);
    const [only] = nearStretches([-3.5, -40, 141], [-3.5, 0, 141], level, inches(5)) as [[number, number]];
    expect(only[0] * 40 - 40).toBeCloseTo(-Math.sqrt(25 - 9 - 3.5 ** 2), 6);
    expect(only[1]).toBe(1);
  });

  test("under a hole the run is clear in the middle", () => {
    const parts = nearStretches([0, 50, 141], [100, 50, 141], holed, inches(5));
    expect(parts).toHaveLength(2);
    expect(parts[0]![1] * 100).toBeCloseTo(44, 6);
    expect(parts[1]![0] * 100).toBeCloseTo(56, 6);
  });

  test("a point is all or nothing; nothing is nearer than 0", () => {
    expect(nearStretches([50, 50, 143], [50, 50, 143], level, inches(1.5))).toEqual([[0, 1]]);
    expect(nearStretches([50, 50, 141], [50, 50, 141], level, inches(1.5))).toEqual([]);
    expect(nearStretches([50, 50, 144], [60, 50, 144], level, inches(0))).toEqual([]);
    expect(nearStretches([50, 50, 144], [60, 50, 144], level, inches(-1))).toEqual([]);
  });

  test("a vertical run, and one through the deck", () => {
    const [[from, to]] = nearStretches([50, 50, 100], [50, 50, 200], level, inches(2)) as [[number, number]];
    expect(from).toBeCloseTo(0.42, 7);
    expect(to).toBeCloseTo(0.46, 7);
  });
});

describe("vertical gaps", () => {
  test("only inside the plan, linear between the ends", () => {
    expect(verticalGaps([-100, 50, 140], [100, 50, 142], level)).toEqual([{ from: 0.5, to: 1, gapFrom: 3, gapTo: 2 }]);
    expect(verticalGaps([-100, 50, 140], [-1, 50, 142], level)).toEqual([]);
  });
  test("a hole has no deck", () => {
    expect(verticalGaps([0, 50, 140], [100, 50, 140], holed).map(({ from, to }) => [from, to])).toEqual([
      [0, 0.4],
      [0.6, 1],
    ]);
    expect(verticalGaps([50, 50, 140], [50, 50, 140], holed)).toEqual([]);
  });
  test("a vertical run is one part", () => {
    expect(verticalGaps([50, 50, 100], [50, 50, 150], level)).toEqual([{ from: 0, to: 1, gapFrom: 44, gapTo: -6 }]);
  });
});

describe("boxes", () => {
  const box = (x: number, y: number, z: number, turn = 0) => ({
    centre: [x, y, z] as Point3,
    half: [2, 3, 1] as Point3,
    rotation: radians(turn),
  });
  test("below, beside, at the corner", () => {
    expect(boxToFace(box(50, 50, 140), level).distance).toBe(3);
    expect(boxToFace(box(-6, 50, 140), level).distance).toBe(5);
    expect(boxToFace(box(-6, 50, 140, Math.PI / 2), level).distance).toBeCloseTo(Math.hypot(3, 3), 12);
    expect(boxToFace(box(-6, -15, 140), level).distance).toBeCloseTo(Math.hypot(4, 12, 3), 12);
  });
  test("piercing, holding and held", () => {
    expect(boxToFace(box(50, 50, 144), level).distance).toBe(0);
    expect(boxToFace(box(50, 50, 143), level).distance).toBe(0);
    const chip = makeFace(
      {
        outline: [
          [49, 49],
          [51, 49],
          [50, 51],
        ],
        holes: [],
      },
      planeLevel(inches(144)),
    );
    expect(boxToFace(box(50, 50, 144), chip).distance).toBe(0);
    expect(boxToFace(box(50, 50, 140), chip).distance).toBe(3);
    const spear = makeFace(
      {
        outline: [
          [-500, 50],
          [500, 50.1],
          [500, 49.9],
        ],
        holes: [],
      },
      planeLevel(inches(144)),
    );
    expect(boxToFace(box(50, 50, 144), spear).distance).toBe(0);
  });
  test("inside a hole the rim is what is near", () => {
    expect(boxToFace(box(50, 50, 144), holed).distance).toBe(7);
    expect(boxVerticalGap(box(50, 50, 140), holed)).toBeUndefined();
  });
  test("a face corner below the box's flat side", () => {
    const spike = makeFace(
      {
        outline: [
          [0, 0],
          [100, 10],
          [100, -10],
        ],
        holes: [],
      },
      planeFromSlope([0, 0], inches(144), 1, [-1, 0]),
    );
    const nearest = boxToFace({ centre: [-1, 0, 138], half: [5, 5, 1], rotation: radians(0.3) }, spike);
    expect(nearest.distance).toBeCloseTo(5, 12);
    expect(nearest.onFace[0]).toBeCloseTo(0, 12);
  });
  test("vertical gaps from its top and bottom, over the part inside the plan", () => {
    expect(boxVerticalGap(box(50, 50, 140), level)).toMatchObject({ least: 3, greatest: 5 });
    expect(boxVerticalGap(box(50, 50, 150), level)).toMatchObject({ least: -7, greatest: -5 });
    expect(boxVerticalGap(box(-5, 50, 140), level)).toBeUndefined();
    // Half inside: x from 0 to 2 under a deck that falls 1 in 48 from 144.
    const half = boxVerticalGap(box(0, 50, 140), quarter)!;
    expect(half.least).toBeCloseTo(3 - 2 / 48, 12);
    expect(half.greatest).toBeCloseTo(5, 12);
    const chip = makeFace(
      {
        outline: [
          [49, 49],
          [51, 49],
          [50, 51],
        ],
        holes: [],
      },
      planeFromSlope([50, 50], inches(144), 1, [0, 1]),
    );
    expect(boxVerticalGap(box(50, 50, 140), chip)!.least).toBeCloseTo(2, 12);
    expect(boxVerticalGap(box(50, 50, 140), chip)!.greatest).toBeCloseTo(6, 12);
  });
});
