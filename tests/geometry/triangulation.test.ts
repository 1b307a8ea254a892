import { describe, expect, it } from "vitest";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { signedArea } from "../../src/geometry/polygon.ts";
import {
  distanceToSegment,
  type Pair,
  type Triple,
  triangulate,
  triangulationFaults,
} from "../../src/geometry/triangulation.ts";
import { seeded } from "./random-scenes.ts";

const NEAR = 1 / 8;
const plan = (points: readonly Point3[]): Point2[] => points.map(([x, y]) => [x, y]);
const sizeOf = (points: readonly Point3[], ring: readonly number[]): number =>
  signedArea(ring.map((k) => plan(points)[k]!));
const names = (triples: readonly Triple[]): string[] =>
  triples.map((t) => [...t].sort((a, b) => a - b).join("-")).sort();
const SEED = 29;

describe("triangles between points", () => {
  it(`fill the hull once, turn left, keep every line, and are Delaunay where they may be (seed ${SEED})`, () => {
    const random = seeded(SEED);
    let lined = 0;
    for (let n = 0; n < 200; n++) {
      const points = Array.from(
        { length: 3 + Math.floor(random() * 25) },
        (): Point3 => [500 * random() + (n % 2) * 1e5, 500 * random(), 20 * random()],
      );
      const lines: Pair[] = [];
      for (let i = 0; i < 15; i++) {
        const line: Pair = [Math.floor(random() * points.length), Math.floor(random() * points.length)];
        if (triangulationFaults(plan(points), [...lines, line], NEAR).length === 0) lines.push(line);
      }
      if (triangulationFaults(plan(points), lines, NEAR).length > 0) continue;
      lined += lines.length;
      const { triangles, slivers, hull } = triangulate(points, lines, NEAR);
      const all = [...triangles, ...slivers];
      for (const triple of all) expect(sizeOf(points, triple)).toBeGreaterThan(0);
      const sum = all.reduce((total, triple) => total + sizeOf(points, triple), 0);
      expect(sum / sizeOf(points, hull)).toBeCloseTo(1, 9);
      const edges = new Map<string, number[]>();
      for (const triple of all)
        for (const [i, a] of triple.entries()) {
          const name = [a, triple[(i + 1) % 3]!].sort((p, q) => p - q).join();
          edges.set(name, [...(edges.get(name) ?? []), triple[(i + 2) % 3]!]);
        }
      for (const [a, b] of lines) expect([...edges.keys()]).toContain([a, b].sort((p, q) => p - q).join());
      for (const [name, apexes] of edges) {
        const [a, b] = name.split(",").map(Number) as [number, number];
        expect(apexes.length).toBeLessThanOrEqual(2);
        if (apexes.length < 2 || lines.some((line) => line.includes(a) && line.includes(b))) continue;
        const angles = apexes.map((c) => {
          const [u, v] = [a, b].map((k) => [points[k]![0] - points[c]![0], points[k]![1] - points[c]![1]] as const);
          return Math.acos((u![0] * v![0] + u![1] * v![1]) / (Math.hypot(...u!) * Math.hypot(...v!)));
        });
        expect(angles[0]! + angles[1]!, name).toBeLessThan(Math.PI + 2e-3);
      }
    }
    expect(lined).toBeGreaterThan(500);
  });

  it("take the lower of two diagonals that are as good, however the points are listed", () => {
    const corners: Point3[] = [
      [0, 0, 10],
      [10, 0, 0],
      [10, 10, 10],
      [0, 10, 2],
    ];
    for (const by of [0, 1, 2, 3]) {
      const points = [...corners.slice(by), ...corners.slice(0, by)];
      // Across the two low corners, wherever they are in the list.
      const low = points.flatMap(([, , z], k) => (z < 5 ? [k] : []));
      for (const triple of triangulate(points, [], NEAR).triangles) expect(triple).toEqual(expect.arrayContaining(low));
    }
  });

  it.each<[string, number[], [number, number]]>([
    ["8 above 7: across the two at 7", [4, 7, 10, 7], [1, 3]],
    ["6 below 7: across 10 and 4", [10, 7, 4, 7], [0, 2]],
  ])("take the lower where the diagonals do not halve each other, %s", (_, z, across) => {
    // A trapezium with equal legs lies on a circle; its diagonals cross two thirds of the way along from the longer side.
    const corners = (
      [
        [0, 0],
        [12, 0],
        [9, 3],
        [3, 3],
      ] as const
    ).map(([x, y], k): Point3 => [x, y, z[k]!]);
    for (const by of [0, 1, 2, 3])
      for (const back of [false, true]) {
        const order = [0, 1, 2, 3].map((k) => (k + by) % 4);
        if (back) order.reverse();
        for (const triple of triangulate(
          order.map((k) => corners[k]!),
          [],
          NEAR,
        ).triangles)
          expect(triple.map((k) => order[k])).toEqual(expect.arrayContaining(across));
      }
  });

  it("leave out slivers along the hull, one behind the other too, but nothing that is wider", () => {
    const eave: Point3[] = [
      [0, 0, 120],
      [100, 0.1, 140],
      [200, 0.05, 130],
      [300, 0, 120],
      [150, 200, 160],
    ];
    for (const mirrored of [eave, eave.map(([x, y, z]): Point3 => [300 - x, y, z])]) {
      const { triangles, slivers } = triangulate(mirrored, [], NEAR);
      expect(names(triangles)).toEqual(["0-1-4", "1-2-4", "2-3-4"]);
      expect(slivers).toHaveLength(2);
    }
    const wide = triangulate(eave.with(1, [100, 0.2, 140]), [], NEAR);
    expect(wide.slivers).toHaveLength(1);
  });

  it("throw rather than guess where something is wrong", () => {
    expect(() =>
      triangulate(
        [
          [0, 0, 0],
          [1, 0, 0],
          [2, 0, 0],
        ],
        [],
        NEAR,
      ),
    ).toThrow("one-line");
    expect(() => triangulate([], [], NEAR)).toThrow();
  });
});

describe("faults", () => {
  const square: Point2[] = [
    [0, 0],
    [10, 0],
    [10, 10],
    [0, 10],
    [5, 5],
  ];
  it.each<[string, Point2[], Pair[], string[]]>([
    [
      "none",
      square,
      [
        [0, 4],
        [4, 2],
      ],
      [],
    ],
    ["no points", [], [], ["one-line"]],
    ["one point", [[1, 1]], [], ["one-line"]],
    [
      "all at one place",
      [
        [1, 1],
        [1, 1],
        [1, 1.1],
      ],
      [],
      ["one-place", "one-place", "one-place"],
    ],
    ["a line through a point", square, [[0, 2]], ["line-through-point"]],
    ["a line close by a point", square.with(4, [5, 5.1]), [[0, 2]], ["line-through-point"]],
    ["a line past a point", square.with(4, [5, 5.3]), [[0, 2]], []],
    [
      "lines that cross",
      square.slice(0, 4),
      [
        [0, 2],
        [3, 1],
      ],
      ["lines-cross"],
    ],
    [
      "lines that meet",
      square,
      [
        [0, 4],
        [1, 4],
        [2, 4],
      ],
      [],
    ],
    [
      "a line twice, and to nowhere",
      square,
      [
        [0, 1],
        [1, 0],
        [0, 9],
        [-1, 0],
        [3, 3],
      ],
      ["line-twice", "no-such-point", "no-such-point", "no-length"],
    ],
  ])("are told: %s", (_, points, lines, kinds) => {
    expect(triangulationFaults(points, lines, NEAR).map(({ is }) => is)).toEqual(kinds);
  });

  it("name the points and lines they are about", () => {
    expect(triangulationFaults([...square, [5, 5.1]], [], NEAR)).toEqual([{ is: "one-place", points: [4, 5] }]);
    const lines: Pair[] = [
      [3, 4],
      [0, 2],
      [1, 3],
      [3, 1],
      [9, 1],
      [2, 2],
    ];
    expect(triangulationFaults(square.with(4, [5, 9]), lines, NEAR)).toEqual([
      { is: "line-twice", lines: [2, 3] },
      { is: "no-such-point", line: 4 },
      { is: "no-length", line: 5 },
      { is: "lines-cross", lines: [1, 2] },
    ]);
    expect(triangulationFaults(square, [[0, 2]], NEAR)).toEqual([{ is: "line-through-point", line: 0, point: 4 }]);
  });

  it("count what lies just as near as is near enough, by binary fractions", () => {
    const kinds = (points: Point2[], lines: Pair[]) => triangulationFaults(points, lines, NEAR).map(({ is }) => is);
    expect(
      kinds(
        [
          [0, 0],
          [NEAR, 0],
          [8, 8],
        ],
        [],
      ),
    ).toEqual(["one-place"]);
    expect(
      kinds(
        [
          [0, 0],
          [16, 0],
          [8, NEAR],
          [8, 8],
        ],
        [[0, 1]],
      ),
    ).toEqual(["line-through-point"]);
    // No higher than near over the longest side, far from the origin too: on one line. Told from the first point, which may be the one between.
    for (const [x, y] of [
      [0, 0],
      [4096, -1024],
    ] as const)
      for (const order of [
        [0, 1, 2],
        [1, 2, 0],
        [2, 0, 1],
      ]) {
        const at = (height: number) =>
          order.map(
            (k): Point2 =>
              [
                [x, y],
                [x + 256, y],
                [x + 128, y + height],
              ][k] as [number, number],
          );
        for (const low of order[0] === 2 ? [NEAR / 4] : [NEAR / 4, NEAR])
          expect(kinds(at(low), [])).toEqual(["one-line"]);
        expect(kinds(at(NEAR + 2 ** -8), [])).toEqual([]);
      }
  });
});

describe("how far a point is from a segment", () => {
  it.each<[Point2, number]>([
    [[5, 10], 10],
    [[-3, -4], 5],
    [[23, 4], 5],
    [[-3, 0], 3],
    [[4, 0], 0],
  ])("from (0, 0)-(20, 0), or turned to (12, 16), wherever they lie: %j", ([x, y], apart) => {
    for (const [dx, dy] of [
      [0, 0],
      [700, -300],
      [-40, 90],
    ] as const) {
      expect(distanceToSegment([x + dx, y + dy], [dx, dy], [20 + dx, dy])).toBeCloseTo(apart, 12);
      const turned: Point2 = [0.6 * x - 0.8 * y + dx, 0.8 * x + 0.6 * y + dy];
      expect(distanceToSegment(turned, [dx, dy], [12 + dx, 16 + dy])).toBeCloseTo(apart, 12);
    }
  });

  it("that has no length is how far it is from its point", () =>
    expect(distanceToSegment([3, 4], [0, 0], [0, 0])).toBe(5));
});
