import { describe, expect, test } from "vitest";
import { partPolygon } from "../../src/geometry/part-polygon.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { area, locate, type Polygon, signedArea } from "../../src/geometry/polygon.ts";
import { sharesInTurn } from "../../src/geometry/shares-in-turn.ts";
import { meanWidth, splitPolygon } from "../../src/geometry/split-polygon.ts";

const ring = (x: number, y: number, w: number, h: number): Point2[] => [
  [x, y],
  [x + w, y],
  [x + w, y + h],
  [x, y + h],
];
const box = (x: number, y: number, w: number, h: number, ...holes: Point2[][]): Polygon => ({
  outline: ring(x, y, w, h),
  holes,
});
const areas = (polygons: readonly Polygon[]) => polygons.map(area);

describe("parting a polygon", () => {
  test("a step back in the shape of an L: by hand, 600 x 400 less the L of 600 x 150 and 200 x 250", () => {
    const deck = box(0, 0, 600, 400);
    const storey: Polygon = {
      outline: [
        [0, 0],
        [600, 0],
        [600, 150],
        [200, 150],
        [200, 400],
        [0, 400],
      ],
      holes: [],
    };
    const { first: within, rest: beyond } = partPolygon(deck, [storey], []);
    expect(areas(within)).toEqual([600 * 150 + 200 * 250]);
    expect(areas(beyond)).toEqual([400 * 250]);
    expect(new Set(beyond[0]!.outline.map(String))).toEqual(new Set(["200,150", "600,150", "600,400", "200,400"]));
  });

  test("a shaft open to the sky inside the storey stays roof, and an opening of the deck stays open", () => {
    const deck = box(0, 0, 100, 100, ring(80, 80, 10, 10));
    const storey = box(0, 0, 60, 60, ring(20, 20, 10, 10));
    const { first: within, rest: beyond } = partPolygon(deck, [storey], []);
    expect(areas(within)).toEqual([3600 - 100]);
    expect(within[0]!.holes).toHaveLength(1);
    expect(areas(beyond).toSorted((a, b) => a - b)).toEqual([100, 10000 - 100 - 3600]);
    const at: Point2 = [25, 25];
    expect(locate(within[0]!, at)).toBe("outside");
    expect(beyond.some((part) => locate(part, at) === "inside")).toBe(true);
  });

  test("a storey in the middle leaves a ring of roof", () => {
    const { first: within, rest: beyond } = partPolygon(box(0, 0, 100, 100), [box(30, 30, 40, 40)], []);
    expect(areas(within)).toEqual([1600]);
    expect(areas(beyond)).toEqual([8400]);
    expect(beyond[0]!.holes).toHaveLength(1);
    expect(signedArea(beyond[0]!.outline)).toBeGreaterThan(0);
    expect(signedArea(beyond[0]!.holes[0]!)).toBeLessThan(0);
  });

  test("storeys may overlap, cut the deck in two, and reach beyond it", () => {
    const by = [box(40, -10, 10, 200), box(45, -10, 15, 200)];
    const { first: within, rest: beyond } = partPolygon(box(0, 0, 100, 100), by, []);
    expect(areas(within)).toEqual([2000]);
    expect(areas(beyond)).toEqual([4000, 4000]);
  });

  test("nothing over it leaves it as it was traced; all of it covered leaves no rest", () => {
    const deck = box(0, 0, 100, 100);
    expect(partPolygon(deck, [], []).rest[0]).toBe(deck);
    expect(partPolygon(deck, [box(100, 0, 50, 100)], [])).toEqual({ first: [], second: [], rest: [deck] });
    const all = partPolygon(deck, [box(-1, -1, 102, 102)], [box(-1, -1, 50, 50)]);
    expect(areas(all.first)).toEqual([10000]);
    expect(all.second).toEqual([]);
    expect(all.rest).toEqual([]);
  });
});

test("what is open gives way to floors, and the rest to both", () => {
  const {
    first: floors,
    second: open,
    rest,
  } = partPolygon(box(0, 0, 100, 100), [box(0, 0, 40, 100)], [box(20, 0, 40, 50)]);
  expect(areas(floors)).toEqual([4000]);
  expect(areas(open)).toEqual([1000]);
  expect(areas(rest)).toEqual([5000]);
});

test("the mean width of a strip is its width, straight or bent; of a square half its side", () => {
  expect(meanWidth(box(0, 0, 1000, 2))).toBeCloseTo(2, 1);
  const bent: Polygon = {
    outline: [
      [0, 0],
      [500, 0],
      [500, 500],
      [498, 500],
      [498, 2],
      [0, 2],
    ],
    holes: [],
  };
  expect(meanWidth(bent)).toBeCloseTo(2, 1);
  expect(meanWidth(box(0, 0, 8, 8))).toBe(4);
  expect(meanWidth(box(0, 0, 100, 100, ring(1, 1, 98, 98)))).toBeCloseTo(1, 12);
});

test("what a polygon of the second set leaves open stays with the rest: its hole, and all it does not reach", () => {
  const deck = box(0, 0, 100, 100);
  // By hand: the left 60 of the deck, less a hole of 20 x 10; its edges reach past the deck on three sides, or end with it.
  for (const past of [0, 5]) {
    const second = box(-past, -past, 60 + past, 100 + 2 * past, ring(20, 30, 20, 10));
    const parts = partPolygon(deck, [], [second]);
    expect(parts.first).toEqual([]);
    expect(areas(parts.second)).toEqual([6000 - 200]);
    expect(areas(parts.rest).toSorted((a, b) => a - b)).toEqual([200, 4000]);
    expect(parts.rest.some((part) => locate(part, [30, 35]) === "inside")).toBe(true);
  }
  // On the right half only, so that the deck reaches farther out than what parts it, to each side in turn.
  for (const [x, y, w, h] of [
    [50, 0, 50, 100],
    [0, 0, 50, 100],
    [0, 50, 100, 50],
    [0, 0, 100, 50],
    [25, 25, 50, 50],
  ] as const) {
    const parts = partPolygon(deck, [], [box(x, y, w, h)]);
    expect(parts.second.reduce((sum, part) => sum + area(part), 0)).toBeCloseTo(w * h, 9);
    expect(parts.rest.reduce((sum, part) => sum + area(part), 0)).toBeCloseTo(10000 - w * h, 9);
  }
});

test("a polygon parted by nothing is whole", () => {
  const deck = box(0, 0, 100, 100, ring(20, 20, 10, 10));
  expect(splitPolygon(deck, [])).toEqual({ within: [], beyond: [deck] });
  expect(partPolygon(deck, [], [])).toEqual({ first: [], second: [], rest: [deck] });
});

test("shares in turn: each polygon has what those before it left, holes and all", () => {
  const outline = ring(0, 0, 10, 10);
  const inner = box(2, 2, 4, 4, ring(3, 3, 1, 1));
  const left = box(-5, -5, 10, 30);
  // By hand: 16 - 1; of the left 50 what is not in the 3 x 4 of the inner one, with its hole; of the whole the right 50 less the 1 x 4 of the inner one.
  expect(
    sharesInTurn(outline, [inner, left, box(-5, -5, 30, 30), inner]).map((n) => Math.round(n * 1e9) / 1e9),
  ).toEqual([15, 50 - 12 + 1, 50 - 4, 0]);
  expect(sharesInTurn(outline, [box(20, 20, 5, 5)])).toEqual([0]);
});
