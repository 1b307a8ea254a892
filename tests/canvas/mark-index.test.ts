import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { MarkIndex, pictureBounds, shapeDistance } from "../../src/canvas/mark-index.ts";
import type { HitShape, ScreenMark } from "../../src/canvas/screen-mark.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { radians } from "../../src/units/quantity.ts";
import { seeded } from "../geometry/random-scenes.ts";

const BLACK = { r: 0, g: 0, b: 0 };
const dot = ([x, y]: Point2): ScreenMark["picture"] => [
  {
    type: "path",
    steps: [
      ["M", x, y],
      ["L", x + 1, y],
    ],
    stroke: BLACK,
    width: 1,
  },
];
const mark = (key: string, hit: HitShape): ScreenMark => ({ key, hit, picture: dot([0, 0]) });
const keys = (marks: readonly { key: string }[]) => marks.map(({ key }) => key);

describe("how far a pointer is from a mark", () => {
  const square: HitShape = {
    kind: "area",
    outline: [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ],
  };
  const hook: HitShape = {
    kind: "line",
    points: [
      [0, 0],
      [10, 0],
      [10, 10],
    ],
  };
  test.each<[string, HitShape, Point2, number]>([
    ["inside an area", square, [3, 4], 0],
    ["beside an area", square, [13, 5], 3],
    ["off the corner of an area", square, [13, 14], 5],
    ["across the closing edge of an area", square, [-2, 5], 2],
    ["beside a line", hook, [5, 2], 2],
    ["beyond the end of a line", hook, [13, 14], 5],
    ["inside the bend of a line is not on it", hook, [6, 4], 4],
    ["a line of one point", { kind: "line", points: [[1, 1]] }, [4, 5], 5],
    [
      "a line with a repeated point",
      {
        kind: "line",
        points: [
          [1, 1],
          [1, 1],
        ],
      },
      [4, 5],
      5,
    ],
    ["on a spot", { kind: "spot", at: [0, 0], radius: 5 }, [3, 4], 0],
    ["beside a spot", { kind: "spot", at: [0, 0], radius: 4 }, [6, 8], 6],
  ])("%s", (_name, shape, at, distance) => {
    expect(shapeDistance(shape, at)).toBeCloseTo(distance, 12);
  });
});

describe("which marks are near", () => {
  const index = new MarkIndex([
    mark("far", { kind: "spot", at: [100, 0], radius: 1 }),
    mark("lower", {
      kind: "line",
      points: [
        [0, 0],
        [10, 0],
      ],
    }),
    mark("upper", {
      kind: "line",
      points: [
        [0, 0],
        [0, 10],
      ],
    }),
    { key: "cannot be pointed at", picture: dot([0, 0]) },
  ]);
  test("nearest first, of equally near ones the later drawn first", () => {
    expect(keys(index.near([0, 0], 1).map((found) => found.mark))).toEqual(["upper", "lower"]);
    expect(keys(index.near([5, 1], 9).map((found) => found.mark))).toEqual(["lower", "upper"]);
  });
  test("reach is inclusive, and a corner of the search box is too far", () => {
    expect(keys(index.near([5, 2], 2).map((found) => found.mark))).toEqual(["lower"]);
    expect(index.near([12, -2], 2)).toEqual([]);
  });
  test("no marks, nothing near", () => {
    expect(new MarkIndex([]).near([0, 0], 100)).toEqual([]);
    expect(new MarkIndex([]).inView({ x0: -9, y0: -9, x1: 9, y1: 9 })).toEqual([]);
  });
  test("an empty picture lies nowhere and harms nobody", () => {
    const some = new MarkIndex([
      { key: "empty", picture: [] },
      { key: "there", picture: dot([5, 5]) },
    ]);
    expect(keys(some.inView({ x0: -1e9, y0: -1e9, x1: 1e9, y1: 1e9 }))).toEqual(["there"]);
  });
});

describe("which marks touch a rectangle", () => {
  const rect = { x0: 0, y0: 0, x1: 10, y1: 10 };
  test.each<[string, HitShape, boolean]>([
    [
      "a line with an end in it",
      {
        kind: "line",
        points: [
          [5, 5],
          [50, 50],
        ],
      },
      true,
    ],
    [
      "a line right through it",
      {
        kind: "line",
        points: [
          [-5, 5],
          [15, 6],
        ],
      },
      true,
    ],
    [
      "a line past its corner",
      {
        kind: "line",
        points: [
          [-5, 6],
          [6, 17],
        ],
      },
      false,
    ],
    [
      "an area round it",
      {
        kind: "area",
        outline: [
          [-5, -5],
          [20, -5],
          [20, 20],
          [-5, 20],
        ],
      },
      true,
    ],
    [
      "an area whose box holds it, not the area",
      {
        kind: "area",
        outline: [
          [-30, -30],
          [30, -30],
          [30, -29],
        ],
      },
      false,
    ],
    [
      "an L round its corner",
      {
        kind: "area",
        outline: [
          [-9, -9],
          [20, -9],
          [20, -1],
          [-1, -1],
          [-1, 20],
          [-9, 20],
        ],
      },
      false,
    ],
    ["a spot at its corner", { kind: "spot", at: [13, 14], radius: 5 }, true],
    ["a spot just short of it", { kind: "spot", at: [13, 14], radius: 4.99 }, false],
    [
      "a level line along its edge",
      {
        kind: "line",
        points: [
          [-5, 10],
          [15, 10],
        ],
      },
      true,
    ],
    [
      "a level line above it",
      {
        kind: "line",
        points: [
          [-5, 10.01],
          [15, 10.01],
        ],
      },
      false,
    ],
  ])("%s", (_name, shape, touches) => {
    expect(new MarkIndex([mark("m", shape)]).touching(rect)).toHaveLength(touches ? 1 : 0);
  });
});

const coordinate = fc.integer({ min: -60, max: 60 });
const point = fc.tuple(coordinate, coordinate);
const shape: fc.Arbitrary<HitShape> = fc.oneof(
  fc.record({ kind: fc.constant("line" as const), points: fc.array(point, { minLength: 1, maxLength: 5 }) }),
  fc.record({ kind: fc.constant("area" as const), outline: fc.array(point, { minLength: 3, maxLength: 6 }) }),
  fc.record({ kind: fc.constant("spot" as const), at: point, radius: fc.integer({ min: 0, max: 20 }) }),
);

test("the index finds what going through all marks finds", () => {
  fc.assert(
    fc.property(fc.array(shape, { maxLength: 40 }), point, fc.integer({ min: 0, max: 30 }), (shapes, at, reach) => {
      const marks = shapes.map((hit, i) => mark(`m${i}`, hit));
      const slow = marks.filter(({ hit }) => shapeDistance(hit!, at) <= reach);
      const fast = new MarkIndex(marks).near(at, reach);
      expect(new Set(keys(fast.map((found) => found.mark)))).toEqual(new Set(keys(slow)));
      expect(fast.every((found, i) => i === 0 || fast[i - 1]!.distance <= found.distance)).toBe(true);
    }),
    { numRuns: 300 },
  );
});

test("a mark that touches a rectangle has a point of it near a point of the rectangle", () => {
  // Slow twin: points a quarter unit apart all over the rectangle.
  fc.assert(
    fc.property(shape, point, (hit, [x, y]) => {
      const rect = { x0: x, y0: y, x1: x + 6, y1: y + 4 };
      let least = Infinity;
      for (let i = 0; i <= 24; i++)
        for (let j = 0; j <= 16; j++) least = Math.min(least, shapeDistance(hit, [x + i / 4, y + j / 4]));
      const touches = new MarkIndex([mark("m", hit)]).touching(rect).length === 1;
      if (touches) expect(least).toBeLessThanOrEqual(0.18);
      else expect(least).toBeGreaterThan(0);
    }),
    { numRuns: 200 },
  );
});

describe("what a picture covers", () => {
  test("lines with their width, curves with their control points", () => {
    expect(
      pictureBounds([
        { type: "path", steps: [["M", 0, 0], ["C", 0, 10, 20, 10, 20, 0], ["Z"]], stroke: BLACK, width: 2 },
      ]),
    ).toEqual({ x0: -1, y0: -1, x1: 21, y1: 11 });
  });
  test("text in its direction and alignment", () => {
    const text = { type: "text", text: "12'-6\"", at: [0, 0], size: 10, face: "bold", fill: BLACK } as const;
    const up = pictureBounds([{ ...text, angle: radians(Math.PI / 2), align: "start" }]);
    expect(up.y1).toBeGreaterThan(30);
    expect(up.y0).toBeGreaterThanOrEqual(-10);
    const back = pictureBounds([{ ...text, angle: radians(0), align: "end" }]);
    expect(back.x0).toBeLessThan(-30);
    expect(back.x1).toBeLessThanOrEqual(10);
  });
});

describe("an index made of the one before", () => {
  test("finds what one made anew finds, after marks came, went and came back", () => {
    const random = seeded(41);
    const spot = (n: number): ScreenMark => {
      const at: Point2 = [100 * random(), 100 * random()];
      return { key: `m${n}`, hit: { kind: "spot", at, radius: 2 }, picture: dot(at) };
    };
    const gone: ScreenMark[] = [];
    let marks = Array.from({ length: 400 }, (_, n) => spot(n));
    let index = new MarkIndex(marks);
    for (let n = 0; n < 500; n++) {
      const place = Math.floor(random() * marks.length);
      const back = random() < 0.3 ? gone.splice(Math.floor(random() * gone.length), 1) : [];
      gone.push(marks[place]!);
      marks = marks.toSpliced(place, 1, ...(random() < 0.8 ? [spot(1000 + n)] : []), ...back);
      index = new MarkIndex(marks, index);
      const anew = new MarkIndex(marks);
      const [x, y] = [100 * random(), 100 * random()];
      const rect = { x0: x, y0: y, x1: x + 20, y1: y + 20 };
      expect(keys(index.inView(rect))).toEqual(keys(anew.inView(rect)));
      expect(keys(index.touching(rect))).toEqual(keys(anew.touching(rect)));
      expect(index.near([x, y], 15)).toEqual(anew.near([x, y], 15));
    }
  });
});
