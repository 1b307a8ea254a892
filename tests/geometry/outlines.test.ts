import { describe, expect, it } from "vitest";
import type { Point2 } from "../../src/geometry/point.ts";
import {
  labelPoint,
  locate,
  type Polygon,
  type Ring,
  ringProblems,
  selfCrossings,
} from "../../src/geometry/polygon.ts";

/** The same ring begun at each of its corners, either way round. */
const everyStart = (ring: Ring): Ring[] =>
  ring.flatMap((_, i) => {
    const turned = [...ring.slice(i), ...ring.slice(0, i)];
    return [turned, [...turned].reverse()];
  });
const moved = (ring: Ring, dx: number, dy: number): Ring => ring.map(([x, y]): Point2 => [x + dx, y + dy]);

describe("a label's place", () => {
  // By hand: the place with the most room among the centroid and the middles of level chords.
  it.each<[string, Polygon, Point2]>([
    // Centroid (4, 3), 2.4 from the long side: 12 x 9 on the 3-4-5 triangle.
    [
      "a triangle",
      {
        outline: [
          [0, 0],
          [12, 0],
          [0, 9],
        ],
        holes: [],
      },
      [4, 3],
    ],
    [
      "a rectangle",
      {
        outline: [
          [0, 0],
          [16, 0],
          [16, 8],
          [0, 8],
        ],
        holes: [],
      },
      [8, 4],
    ],
    // A channel open to the top with a thick left leg: chords of the legs at half their height.
    [
      "a channel",
      {
        outline: [
          [0, 0],
          [20, 0],
          [20, 20],
          [16, 20],
          [16, 2],
          [8, 2],
          [8, 20],
          [0, 20],
        ],
        holes: [],
      },
      [4, 10],
    ],
    // A T: in the middle of its bar, 5 from the top; the stem is only 4 wide.
    [
      "a T",
      {
        outline: [
          [8, 0],
          [12, 0],
          [12, 20],
          [20, 20],
          [20, 30],
          [0, 30],
          [0, 20],
          [8, 20],
        ],
        holes: [],
      },
      [10, 25],
    ],
    // A hole off the middle: most room to its right, at the hole's own height.
    [
      "a frame",
      {
        outline: [
          [0, 0],
          [40, 0],
          [40, 20],
          [0, 20],
        ],
        holes: [
          [
            [4, 4],
            [20, 4],
            [20, 16],
            [4, 16],
          ],
        ],
      },
      [30, 10],
    ],
  ])("of %s", (_, { outline, holes }, [x, y]) => {
    for (const [dx, dy] of [
      [0, 0],
      [1000, -500],
      [-300, 700],
    ] as const)
      for (const ring of everyStart(moved(outline, dx, dy))) {
        const at = labelPoint({ outline: ring, holes: holes.map((hole) => moved(hole, dx, dy)) });
        expect(at[0]).toBeCloseTo(x + dx, 9);
        expect(at[1]).toBeCloseTo(y + dy, 9);
      }
  });

  it("of nothing is the origin", () => expect(labelPoint({ outline: [], holes: [] })).toEqual([0, 0]));
});

describe("where a ring meets itself", () => {
  it.each<[string, Ring, Point2[]]>([
    [
      "nowhere: a square",
      [
        [0, 0],
        [8, 0],
        [8, 8],
        [0, 8],
      ],
      [],
    ],
    [
      "nowhere: a Z of which two sides lie in one line",
      [
        [0, 0],
        [8, 0],
        [8, 4],
        [16, 4],
        [16, 0],
        [24, 0],
        [24, 8],
        [0, 8],
      ],
      [],
    ],
    [
      "nowhere: sides that would cross if they went on",
      [
        [0, 0],
        [16, 0],
        [16, 16],
        [9, 2],
        [7, 2],
        [0, 16],
      ],
      [],
    ],
    [
      "two sides across each other, a quarter of the way",
      [
        [0, 0],
        [16, 0],
        [4, 8],
        [4, -8],
      ],
      [[4, 0]],
    ],
    [
      "a corner on a side",
      [
        [0, 0],
        [16, 0],
        [16, 16],
        [6, 0],
        [0, 16],
      ],
      [[6, 0]],
    ],
    [
      "two corners in one place",
      [
        [0, 0],
        [8, 8],
        [16, 0],
        [16, 16],
        [8, 8],
        [0, 16],
      ],
      [[8, 8]],
    ],
    [
      "two sides along each other",
      [
        [0, 0],
        [16, 0],
        [16, 8],
        [12, 8],
        [12, 0],
        [4, 0],
        [4, 8],
        [0, 8],
      ],
      [
        [4, 0],
        [12, 0],
      ],
    ],
    [
      "a side that runs back over the one before",
      [
        [0, 0],
        [16, 0],
        [6, 0],
        [6, 8],
      ],
      [
        [6, 0],
        [16, 0],
      ],
    ],
  ])("%s", (_, ring, places) => {
    for (const [dx, dy] of [
      [0, 0],
      [100, 300],
      [-500, -700],
    ] as const)
      for (const turned of everyStart(moved(ring, dx, dy)))
        for (const swap of [false, true]) {
          const found = selfCrossings(swap ? turned.map(([x, y]): Point2 => [y, x]) : turned);
          const here = found.map(({ at: [x, y] }) => (swap ? [y - dx, x - dy] : [x - dx, y - dy]).join());
          expect([...new Set(here)].sort(), `${turned}`).toEqual(places.map((at) => at.join()).sort());
        }
  });

  it("is told by the numbers of the sides, and a repeated point by its neighbours'", () => {
    expect(
      ringProblems([
        [0, 0],
        [16, 0],
        [4, 8],
        [4, -8],
      ]),
    ).toEqual([{ code: "ring.crosses-itself", where: "", params: { i: 0, j: 2, x: 4, y: 0 } }]);
    expect(
      ringProblems([
        [0, 0],
        [8, 0],
        [8, 8],
        [8, 8],
      ]),
    ).toEqual([{ code: "ring.repeated-point", where: "", params: { i: 2, j: 3 } }]);
    const twiceAndThin: Ring = [
      [0, 0],
      [8, 0],
      [8, 0],
      [4, 1e-12],
    ];
    expect(ringProblems(twiceAndThin).map(({ code }) => code)).toEqual(["ring.repeated-point", "ring.collapsed"]);
    expect(
      ringProblems([
        [0, 0],
        [8, 0],
      ]),
    ).toEqual([{ code: "ring.too-few-points", where: "", params: { count: 2 } }]);
  });

  it("no area to speak of is less than 1e-9 of the square of the extent, wherever it lies", () => {
    // A triangle 1,000 long of half its height times that.
    for (const [x, y] of [
      [0, 0],
      [5000, 5000],
      [-500, -500],
      [-9000, 4000],
    ] as const)
      for (const swap of [false, true])
        for (const [height, codes] of [
          [1e-6, ["ring.collapsed"]],
          [4e-6, []],
        ] as const) {
          const thin = moved(
            [
              [0, 0],
              [1000, 0],
              [500, height],
            ],
            x,
            y,
          ).map(([u, v]): Point2 => (swap ? [v, u] : [u, v]));
          expect(
            ringProblems(thin).map(({ code }) => code),
            `${x} ${y} ${height}`,
          ).toEqual(codes);
        }
  });
});

describe("where a point lies", () => {
  it("is told at every corner, side and level of a ring with sides up, down and level", () => {
    const ring: Ring = [
      [0, 0],
      [8, 0],
      [8, 4],
      [16, 4],
      [16, 0],
      [24, 0],
      [24, 16],
      [12, 8],
      [0, 16],
    ];
    const wrong: string[] = [];
    const exact = (x: number, y: number): string => {
      // By hand: the outline's top is the lower of two lines from (0, 16) and (24, 16) to (12, 8), its bottom 0, or 4 from 8 to 16.
      const top = 16 - (2 / 3) * Math.min(x, 24 - x);
      const bottom = x > 8 && x < 16 ? 4 : 0;
      if (x < 0 || x > 24 || 3 * (y - top) > 1e-9 || y < bottom)
        return x === 8 || x === 16 ? (y >= 0 && y <= 4 ? "edge" : "outside") : "outside";
      const onSide =
        x === 0 || x === 24 || Math.abs(y - top) < 1e-9 || y === bottom || ((x === 8 || x === 16) && y <= 4);
      return onSide ? "edge" : "inside";
    };
    for (const turned of everyStart(ring))
      for (let x = -2; x <= 26; x++)
        for (let y = -2; y <= 18; y++)
          if (locate({ outline: turned, holes: [] }, [x, y]) !== exact(x, y)) wrong.push(`${turned} at ${x}, ${y}`);
    expect(wrong).toEqual([]);
  });
});
