import { describe, expect, test } from "vitest";
import { overlap } from "../../src/geometry/overlap.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { area, type Polygon, signedArea } from "../../src/geometry/polygon.ts";

const box = (x: number, y: number, w: number, h: number): Polygon => ({
  outline: [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ],
  holes: [],
});

describe("overlap", () => {
  test("two rectangles", () => {
    const shared = overlap(box(0, 0, 10, 10), box(6, 7, 10, 10));
    expect(shared.area).toBeCloseTo(12, 12);
    expect(shared.polygons).toHaveLength(1);
    expect(signedArea(shared.polygons[0]!.outline)).toBeCloseTo(12, 12);
  });
  test("touching or apart shares nothing", () => {
    expect(overlap(box(0, 0, 10, 10), box(10, 0, 5, 5))).toEqual({ area: 0, polygons: [] });
    expect(overlap(box(0, 0, 10, 10), box(20, 0, 5, 5))).toEqual({ area: 0, polygons: [] });
  });
  test("an L over a bar comes in two pieces; the way round of the rings does not matter", () => {
    const u: Point2[] = [
      [0, 0],
      [10, 0],
      [10, 10],
      [8, 10],
      [8, 2],
      [2, 2],
      [2, 10],
      [0, 10],
    ];
    for (const outline of [u, [...u].reverse()]) {
      const shared = overlap({ outline, holes: [] }, box(-1, 5, 20, 2));
      expect(shared.polygons).toHaveLength(2);
      expect(shared.area).toBeCloseTo(8, 12);
    }
  });
  test("holes stay holes", () => {
    const frame: Polygon = { outline: box(0, 0, 10, 10).outline, holes: [box(3, 3, 4, 4).outline] };
    const shared = overlap(frame, box(1, 1, 8, 8));
    expect(shared.area).toBeCloseTo(48, 12);
    expect(shared.polygons[0]!.holes).toHaveLength(1);
    expect(area(shared.polygons[0]!)).toBeCloseTo(48, 12);
    expect(overlap(frame, box(4, 4, 2, 2)).area).toBe(0);
  });
});
