import { describe, expect, it } from "vitest";
import { gapBetween } from "../../src/geometry/gap-between.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { boundingBox, type Polygon, type Ring } from "../../src/geometry/polygon.ts";

const plot = (outline: Ring, holes: readonly Ring[] = []) => ({
  polygon: { outline, holes },
  box: boundingBox(outline),
});
const rectangle = (x0: number, y0: number, x1: number, y1: number): Point2[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];
const limits = { narrowest: 1, widest: 12, shortest: 24 };
const none = (): readonly Polygon[] => [];
const left = rectangle(0, 0, 300, 200);

/** What is the same however the plan lies: turned, mirrored, either plot first, rings either way round and begun anywhere. */
function everyWay(one: Ring, other: Ring): (readonly [Ring, Ring, (p: Point2) => Point2])[] {
  const maps: ((p: Point2) => Point2)[] = [
    ([x, y]) => [x, y],
    ([x, y]) => [-y, x],
    ([x, y]) => [-x, -y],
    ([x, y]) => [x, -y],
    // The 3-4-5 triangle.
    ([x, y]) => [0.6 * x - 0.8 * y, 0.8 * x + 0.6 * y],
  ];
  return maps.flatMap((map) => {
    const [a, b] = [one.map(map), other.map(map)];
    const turned = [...b.slice(1), b[0]!];
    return [
      [a, b, map],
      [b, a, map],
      [[...a].reverse(), turned, map],
      // A point given twice makes a side of no length.
      [[a[0]!, ...a], [...turned, turned.at(-1)!], map],
    ] as const;
  });
}

describe("the gap between two outlines", () => {
  it.each<[string, Ring, { width: number; length: number; at: Point2 } | undefined]>([
    ["side by side, 4 apart", rectangle(304, 0, 600, 200), { width: 4, length: 200, at: [302, 100] }],
    ["side by side over a part", rectangle(304, 150, 600, 400), { width: 4, length: 50, at: [302, 175] }],
    ["side by side within the longer side", rectangle(304, 40, 600, 90), { width: 4, length: 50, at: [302, 65] }],
    ["shorter together than counts", rectangle(304, 180, 600, 400), undefined],
    ["nearly as far apart as counts", rectangle(311.9, 0, 600, 200), { width: 11.9, length: 200, at: [305.95, 100] }],
    ["farther apart", rectangle(312.1, 0, 600, 200), undefined],
    ["nearer than counts", rectangle(300.9, 0, 600, 200), undefined],
    ["touching", rectangle(300, 0, 600, 200), undefined],
    ["corner to corner", rectangle(304, 204, 600, 400), undefined],
  ])("%s", (_, right, expected) => {
    for (const [a, b, map] of everyWay(left, right)) {
      const gap = gapBetween(plot(a), plot(b), none, limits);
      expect(gap === undefined).toBe(expected === undefined);
      if (!gap || !expected) continue;
      expect(gap.width).toBeCloseTo(expected.width, 9);
      expect(gap.length).toBeCloseTo(expected.length, 9);
      expect(gap.at[0]).toBeCloseTo(map(expected.at)[0], 9);
      expect(gap.at[1]).toBeCloseTo(map(expected.at)[1], 9);
    }
  });

  it.each<[string, (x: number) => number, number, number]>([
    ["an edge askew by 1 in 25", (y) => 302 + y / 25, 4, 100],
    ["an edge askew by 3 in 10", (y) => 302 + 0.3 * y, 5.6, 25.7],
    ["an edge askew by 2 in 5", (y) => 302 + 0.4 * y, 0, 0],
    ["an edge from as far as counts to farther", (y) => 311.5 + 0.3 * y, 0, 0],
  ])(
    "%s makes a gap as wide and long as the rectangle of the same area and way round, or none",
    (_, edge, width, length) => {
      const top = length === 100 ? 100 : 25;
      const right: Ring = [
        [edge(0), 0],
        [600, 0],
        [600, top],
        [edge(top), top],
      ];
      for (const [a, b, map] of everyWay(left, right)) {
        const gap = gapBetween(plot(a), plot(b), none, limits);
        expect(gap === undefined).toBe(width === 0);
        if (!gap) continue;
        // By hand for 3 in 10: area 25 x (2 + 9.5) / 2, way round 25 + 2 + 9.5 + 26.1. Seen square to the one edge or to the other, the strip has slightly other ends.
        expect(Math.abs(gap.width / width - 1)).toBeLessThan(0.1);
        expect(Math.abs(gap.length / length - 1)).toBeLessThan(0.1);
        const [x, y] = map([300 + width / 2, top / 2]);
        expect(Math.hypot(gap.at[0] - x, gap.at[1] - y)).toBeLessThan(2);
      }
    },
  );

  it.each([
    [90, 120, 45],
    [80, 110, 155],
  ])(
    "is what nothing else covers: two pieces together, marked on the longer (covered from %d to %d)",
    (from, to, middle) => {
      const third: Polygon = { outline: rectangle(290, from, 320, to), holes: [] };
      const gap = gapBetween(plot(left), plot(rectangle(304, 0, 600, 200)), () => [third], limits)!;
      expect(gap.width).toBeCloseTo(4, 9);
      expect(gap.length).toBeCloseTo(170, 9);
      expect(gap.at[0]).toBeCloseTo(302, 9);
      expect(gap.at[1]).toBeCloseTo(middle, 9);
      const all: Polygon = { outline: rectangle(290, -10, 320, 210), holes: [] };
      expect(gapBetween(plot(left), plot(rectangle(304, 0, 600, 200)), () => [all], limits)).toBeUndefined();
    },
  );

  it("lies inside a hole too, as wide as its widest side", () => {
    // 3 in. to the left and right, 5 below and above: with the corners, which belong to no side, left out.
    const ring = plot(rectangle(0, 0, 400, 400), [rectangle(100, 100, 300, 300)]);
    const gap = gapBetween(ring, plot(rectangle(103, 105, 297, 295)), none, limits)!;
    expect(gap.width).toBeCloseTo(5, 9);
    expect(gap.length).toBeCloseTo(2 * 190 + 2 * 194, 9);
  });
});
