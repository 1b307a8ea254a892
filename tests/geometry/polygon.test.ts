import { describe, expect, test } from "vitest";
import { totalLength } from "../../src/geometry/interval-set.ts";
import { lerp2, type Point2 } from "../../src/geometry/point.ts";
import {
  area,
  boundingBox,
  labelPoint,
  locate,
  type Polygon,
  ringProblems,
  segmentInside,
  selfCrossings,
  signedArea,
} from "../../src/geometry/polygon.ts";

const square: Point2[] = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];
/** An L with its inner corner at (4, 4). */
const ell: Point2[] = [
  [0, 0],
  [10, 0],
  [10, 4],
  [4, 4],
  [4, 10],
  [0, 10],
];
const frame: Polygon = {
  outline: square,
  holes: [
    [
      [3, 3],
      [7, 3],
      [7, 7],
      [3, 7],
    ],
  ],
};
const plain = (outline: Point2[]): Polygon => ({ outline, holes: [] });

/** The ring in every rotation and both ways round: no answer may depend on where it starts. */
const turns = (ring: Point2[]): Point2[][] =>
  ring.flatMap((_, i) => {
    const turned = [...ring.slice(i), ...ring.slice(0, i)];
    return [turned, [...turned].reverse()];
  });

describe("areas and boxes", () => {
  test("signed area tells the way round", () => {
    expect(signedArea(square)).toBe(100);
    expect(signedArea([...square].reverse())).toBe(-100);
    expect(signedArea(square.map(([x, y]) => [x + 1e8, y - 1e8]))).toBe(100);
    expect(signedArea([])).toBe(0);
  });
  test("holes are taken off whichever way they run", () => {
    expect(area(frame)).toBe(84);
    expect(area({ outline: square, holes: [[...frame.holes[0]!].reverse()] })).toBe(84);
  });
  test("bounding box", () => expect(boundingBox(ell)).toEqual({ min: [0, 0], max: [10, 10] }));
});

describe("locate", () => {
  test.each(turns(ell))("L, rotation %#", (...ring) => {
    const p = plain(ring as Point2[]);
    expect(locate(p, [2, 8])).toBe("inside");
    expect(locate(p, [8, 2])).toBe("inside");
    expect(locate(p, [2, 4])).toBe("inside");
    expect(locate(p, [8, 8])).toBe("outside");
    expect(locate(p, [-1, 0])).toBe("outside");
    expect(locate(p, [-1, 4])).toBe("outside");
    expect(locate(p, [11, 10])).toBe("outside");
    for (const corner of ell) expect(locate(p, corner)).toBe("edge");
    expect(locate(p, [7, 4])).toBe("edge");
    expect(locate(p, [0, 5])).toBe("edge");
  });
  test("a hole is outside, its rim is edge", () => {
    expect(locate(frame, [5, 5])).toBe("outside");
    expect(locate(frame, [3, 5])).toBe("edge");
    expect(locate(frame, [1, 5])).toBe("inside");
  });
  test("decides exactly beside a slanting edge", () => {
    const wedge = plain([
      [0, 0],
      [3, 1],
      [0, 1],
    ]);
    expect(locate(wedge, [1.5, 0.5])).toBe("edge");
    // 1/3 in binary is a little less than a third, so the point is below the edge by 2e-17.
    expect(locate(wedge, [1, 1 / 3])).toBe("outside");
    expect(locate(wedge, [1.5, 0.5 + 2 ** -52])).toBe("inside");
    expect(locate(wedge, [1.5, 0.5 - 2 ** -53])).toBe("outside");
  });
});

describe("segmentInside", () => {
  test.each(turns(ell))("L, rotation %#", (...ring) => {
    const p = plain(ring as Point2[]);
    expect(segmentInside(p, [-10, 2], [10, 2])).toEqual([[0.5, 1]]);
    expect(segmentInside(p, [2, 2], [3, 3])).toEqual([[0, 1]]);
    const across = segmentInside(p, [2, 8], [8, 2]);
    expect(across).toHaveLength(2);
    expect(totalLength(across)).toBeCloseTo(4 / 6, 12);
    expect(segmentInside(p, [5, 5], [9, 9])).toEqual([]);
  });
  test("along an edge counts, also where it leaves the edge", () => {
    expect(segmentInside(plain(square), [-5, 0], [15, 0])).toEqual([[0.25, 0.75]]);
    expect(segmentInside(plain(ell), [0, 4], [10, 4])).toEqual([[0, 1]]);
    expect(segmentInside(plain(ell), [4, 12], [4, 2])).toEqual([[0.2, 1]]);
  });
  test("along a slanting edge far from the origin", () => {
    const far = plain([
      [1e5 + 0.1, 1e5],
      [1e5 + 70.3, 1e5 + 31.7],
      [1e5, 1e5 + 50],
    ]);
    const [from, to] = segmentInside(far, far.outline[0]!, far.outline[1]!)[0]!;
    expect([from, to]).toEqual([0, 1]);
  });
  test("along a slanting edge and past both its ends, for many slants", () => {
    for (let i = 0; i < 200; i++) {
      const turn = 0.0314 * i + 0.01;
      const at = (r: number, angle: number): Point2 => [1e5 / 3 + r * Math.cos(angle), 7e4 / 3 + r * Math.sin(angle)];
      const [a, b, c] = [at(100, turn), at(100, turn + 2), at(100, turn + 4)];
      const before = lerp2(a, b, -0.7);
      const after = lerp2(a, b, 1.3);
      const spans = segmentInside(plain([a, b, c]), before, after);
      expect(spans).toHaveLength(1);
      expect(spans[0]![0]).toBeCloseTo(0.35, 9);
      expect(spans[0]![1]).toBeCloseTo(0.85, 9);
    }
  });
  test("a hole parts it, its rim counts", () => {
    expect(segmentInside(frame, [0, 5], [10, 5])).toEqual([
      [0, 0.3],
      [0.7, 1],
    ]);
    expect(segmentInside(frame, [0, 3], [10, 3])).toEqual([[0, 1]]);
    expect(segmentInside(frame, [4, 5], [6, 5])).toEqual([]);
  });
  test("a corner merely touched is left out", () => {
    expect(segmentInside(plain(square), [-5, 5], [5, -5])).toEqual([]);
    expect(segmentInside(plain(square), [-5, 0], [0, 0])).toEqual([]);
    // A corner cut by less than the tolerance is touched, not crossed.
    expect(segmentInside(plain(square), [-5, 5 + 1e-10], [5 + 1e-10, -5])).toEqual([]);
    expect(segmentInside(plain(square), [-5, 5 + 1e-8], [5 + 1e-8, -5])).toHaveLength(1);
  });
  test("a point is all or nothing", () => {
    expect(segmentInside(plain(square), [5, 5], [5, 5])).toEqual([[0, 1]]);
    expect(segmentInside(plain(square), [10, 5], [10, 5])).toEqual([[0, 1]]);
    expect(segmentInside(plain(square), [11, 5], [11, 5])).toEqual([]);
    expect(segmentInside(frame, [5, 5], [5, 5])).toEqual([]);
  });
});

describe("unfit rings", () => {
  test("a sound ring has no problems, in any rotation", () => {
    for (const ring of turns(ell)) expect(ringProblems(ring)).toEqual([]);
  });
  test("a bow tie crosses itself, and where", () => {
    const bow: Point2[] = [
      [0, 0],
      [10, 10],
      [10, 0],
      [0, 10],
    ];
    expect(selfCrossings(bow)).toEqual([{ i: 0, j: 2, at: [5, 5] }]);
    expect(ringProblems(bow)).toMatchObject([{ code: "ring.crosses-itself", params: { i: 0, j: 2, x: 5, y: 5 } }]);
  });
  test("a corner on another edge, and an edge that runs back", () => {
    expect(
      selfCrossings([
        [0, 0],
        [10, 0],
        [10, 10],
        [5, 0],
        [0, 10],
      ]).map(({ at }) => at),
    ).toContainEqual([5, 0]);
    expect(
      selfCrossings([
        [0, 0],
        [10, 0],
        [4, 0],
        [4, 5],
      ]).length,
    ).toBeGreaterThan(0);
  });
  test("a corner along a straight side does no harm; running back over a side does", () => {
    expect(
      ringProblems([
        [0, 0],
        [5, 0],
        [10, 0],
        [10, 10],
        [0, 10],
      ]),
    ).toEqual([]);
    expect(
      selfCrossings([
        [0, 0],
        [10, 0],
        [5, 0],
      ]),
    ).toEqual([
      { i: 0, j: 1, at: [10, 0] },
      { i: 0, j: 2, at: [0, 0] },
    ]);
  });
  test("collapsed, repeated, too few, not finite", () => {
    const codes = (ring: Point2[]) => ringProblems(ring).map(({ code }) => code);
    expect(
      codes([
        [0, 0],
        [10, 0],
      ]),
    ).toEqual(["ring.too-few-points"]);
    expect(
      codes([
        [0, 0],
        [10, 0],
        [10, 0],
        [10, 10],
      ]),
    ).toEqual(["ring.repeated-point"]);
    expect(
      codes([
        [0, 0],
        [10, 0],
        [5, 5],
        [0, 0],
      ]),
    ).toEqual(["ring.repeated-point"]);
    expect(
      codes([
        [0, 0],
        [10, 0],
        [5, 1e-12],
      ]),
    ).toContain("ring.collapsed");
    expect(
      codes([
        [0, 0],
        [10, 0],
        [5, 0],
      ]),
    ).toContain("ring.crosses-itself");
    expect(
      codes([
        [0, 0],
        [10, 0],
        [Number.NaN, 5],
      ]),
    ).toEqual(["ring.not-finite"]);
  });
});

test("labels sit well inside, whatever the shape", () => {
  expect(labelPoint(plain(square))).toEqual([5, 5]);
  for (const shape of [
    plain(ell),
    frame,
    plain([
      [0, 0],
      [10, 0],
      [10, 10],
      [9, 10],
      [9, 1],
      [1, 1],
      [1, 10],
      [0, 10],
    ]),
  ]) {
    expect(locate(shape, labelPoint(shape))).toBe("inside");
  }
  expect(
    labelPoint(
      plain([
        [1, 1],
        [1, 1],
        [1, 1],
      ]),
    ),
  ).toEqual([1, 1]);
});
