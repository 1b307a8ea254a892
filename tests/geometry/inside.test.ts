import { describe, expect, it } from "vitest";
import { segmentToFace, verticalGaps } from "../../src/geometry/clearance.ts";
import { makeFace } from "../../src/geometry/face.ts";
import { planeLevel } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { type Ring, segmentInside } from "../../src/geometry/polygon.ts";
import { inches } from "../../src/units/quantity.ts";

const level = (outline: Ring, holes: readonly Ring[] = []) => makeFace({ outline, holes }, planeLevel(inches(144)));
const plain = (outline: Ring, holes: readonly Ring[] = []) => ({ outline, holes });

/** Distance from the nearest side of a counter-clockwise convex ring, by the cross product: positive inside. */
const depth = (ring: Ring, [x, y]: Point2): number =>
  Math.min(
    ...ring.map(([ax, ay], i) => {
      const [bx, by] = ring[(i + 1) % ring.length]!;
      return ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / Math.hypot(bx - ax, by - ay);
    }),
  );

describe("four corners, level or aslant, begun at any of them, either way round", () => {
  const shapes: [string, Ring][] = [
    [
      "a rectangle",
      [
        [-40, -30],
        [40, -30],
        [40, 30],
        [-40, 30],
      ],
    ],
    [
      "a square",
      [
        [-30, -30],
        [30, -30],
        [30, 30],
        [-30, 30],
      ],
    ],
    [
      "one side aslant",
      [
        [-40, -30],
        [40, -30],
        [10, 30],
        [-40, 30],
      ],
    ],
    [
      "two sides aslant, mirrored",
      [
        [-40, -30],
        [40, -30],
        [20, 30],
        [-20, 30],
      ],
    ],
    [
      "a parallelogram",
      [
        [-50, -30],
        [30, -30],
        [50, 30],
        [-30, 30],
      ],
    ],
    [
      "one corner drawn in, no side along an axis but two",
      [
        [-40, -30],
        [40, -30],
        [20, 10],
        [-40, 30],
      ],
    ],
    [
      "no side along an axis",
      [
        [0, -40],
        [40, 0],
        [0, 40],
        [-40, 0],
      ],
    ],
  ];
  // About the origin too, where the coordinates of two corners add up to nought.
  const places: Point2[] = [
    [0, 0],
    [200, 300],
    [-200, 300],
    [-200, -300],
    [200, -300],
  ];
  it.each(shapes)("%s", (_, shape) => {
    const wrong: string[] = [];
    for (const [px, py] of places)
      for (const swap of [false, true])
        for (let start = 0; start < 4; start++)
          for (const back of [false, true]) {
            const moved = shape.map(([x, y]): Point2 => (swap ? [px - y, py + x] : [px + x, py + y]));
            const turned = [...moved.slice(start), ...moved.slice(0, start)];
            const face = level(back ? turned.reverse() : turned);
            for (let i = -6; i <= 6; i++)
              for (let j = -6; j <= 6; j++) {
                // Off every corner and side by more than rounding.
                const at: Point2 = [px + 9.07 * i, py + 9.03 * j + 0.011 * i];
                const inside = depth(moved, at) > 0;
                const below: Point3 = [...at, 140];
                const { distance } = segmentToFace(below, below, face);
                if (verticalGaps(below, below, face).length !== (inside ? 1 : 0))
                  wrong.push(`${turned}: inside at ${at}`);
                if (inside ? Math.abs(distance - 4) > 1e-9 : !(distance > 4))
                  wrong.push(`${turned}: distance at ${at}`);
                // On from there level to the middle: inside from the side it goes in by, or all the way.
                const spans = verticalGaps(below, [px, py, 140], face);
                const from = spans.length === 1 && spans[0]!.to === 1 ? spans[0]!.from : Number.NaN;
                const entry: Point2 = [at[0] + (px - at[0]) * from, at[1] + (py - at[1]) * from];
                if (inside ? from !== 0 : !(Math.abs(depth(moved, entry)) < 1e-9)) wrong.push(`${turned}: from ${at}`);
              }
          }
    expect(wrong).toEqual([]);
  });

  it("a hair outside is outside, by a millionth and less; on the side is inside", () => {
    const square = level([
      [-8, -8],
      [8, -8],
      [8, 8],
      [-8, 8],
    ]);
    for (const off of [4e-6, 1e-6, 1e-7, 2e-9])
      for (const [x, y] of [
        [8 + off, 0],
        [-8 - off, 0],
        [0, 8 + off],
        [0, -8 - off],
      ] as const)
        expect(verticalGaps([x, y, 140], [x, y, 140], square), `${off} ${x} ${y}`).toEqual([]);
    for (const off of [0, 5e-10])
      for (const [x, y] of [
        [8 + off, 0],
        [-8 - off, 0],
        [0, 8 + off],
        [0, -8 - off],
      ] as const)
        expect(verticalGaps([x, y, 140], [x, y, 140], square), `${off} ${x} ${y}`).toHaveLength(1);
  });
});

describe("the inside along a line", () => {
  it("of a comb goes in and out at each of its 60 teeth", () => {
    const teeth = Array.from({ length: 60 }, (_, i): Point2[] => [
      [4 * i, 0],
      [4 * i, 10],
      [4 * i + 2, 10],
      [4 * i + 2, 0],
    ]).flat();
    const comb: Point2[] = [...teeth, [238, -5], [0, -5]];
    // Stations 4 i to 4 i + 2 of a line 256 in. long: exact in binary.
    const spans = segmentInside(plain(comb), [0, 5], [256, 5]);
    expect(spans).toHaveLength(60);
    for (const [i, [from, to]] of spans.entries()) {
      expect(from).toBeCloseTo((4 * i) / 256, 12);
      expect(to).toBeCloseTo((4 * i + 2) / 256, 12);
    }
  });

  const square: Ring = [
    [0, 0],
    [10, 0],
    [10, 10],
    [0, 10],
  ];
  it("leaves out an end that goes in by less than the tolerance, or starts out so", () => {
    const into = (by: number) => segmentInside(plain(square), [-5, 5], [by, 5]);
    const outOf = (by: number) => segmentInside(plain(square), [by, 5], [-5, 5]);
    for (const way of [into, outOf]) {
      expect(way(1e-10)).toEqual([]);
      expect(way(1e-8)).toHaveLength(1);
    }
  });

  it("of a line shorter than the tolerance is all or nothing, across a side too", () => {
    expect(segmentInside(plain(square), [10 - 2e-10, 5], [10 + 2e-10, 5])).toEqual([[0, 1]]);
    expect(segmentInside(plain(square), [11, 5], [11 + 4e-10, 5])).toEqual([]);
  });

  it("is not changed by a hole that has shrunk to a point, nor by points given twice", () => {
    const spot: Ring = [
      [5, 7],
      [5, 7],
      [5, 7],
    ];
    const twice: Ring = [square[0]!, ...square, square[3]!];
    for (const polygon of [plain(square), plain(square, [spot]), plain(square, [[[5, 7]]]), plain(twice)]) {
      // Along a side, on a side, across.
      expect(segmentInside(polygon, [-10, 0], [20, 0]).map((span) => span.map((t) => t * 30 - 10))).toEqual([
        [expect.closeTo(0, 9), expect.closeTo(10, 9)],
      ]);
      expect(segmentInside(polygon, [10, 5], [10, 5])).toEqual([[0, 1]]);
      expect(segmentInside(polygon, [-5, 5], [5, 5])).toEqual([[0.5, 1]]);
    }
  });
});

it("an outline of one point, or a hole of one, is as near as the point", () => {
  for (const outline of [
    [[7, 7]],
    [
      [7, 7],
      [7, 7],
    ],
  ] as Ring[])
    expect(segmentToFace([7, 10, 140], [7, 20, 140], level(outline)).distance).toBe(5);
  const outline: Ring = [
    [0, 0],
    [100, 0],
    [100, 100],
    [0, 100],
  ];
  expect(segmentToFace([50, 50, 140], [60, 50, 140], level(outline, [[[50, 50]]])).distance).toBe(4);
});
