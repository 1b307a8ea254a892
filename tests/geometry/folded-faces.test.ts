import { describe, expect, it } from "vitest";
import { foldedFaces } from "../../src/geometry/folded-faces.ts";
import { elevationAt } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { area, locate, type Polygon, type Ring } from "../../src/geometry/polygon.ts";
import { type Pair, type Triple, triangulate, triangulationFaults } from "../../src/geometry/triangulation.ts";
import { randomPolygon, seeded } from "./random-scenes.ts";

const NEAR = 1 / 8;
const SEED = 73;

/** Least of the three cross products by the triangle's sides, as a distance: positive inside a counter-clockwise triangle. */
function depth(corners: readonly Point3[], [x, y]: Point2): number {
  return Math.min(
    ...corners.map(([ax, ay], i) => {
      const [bx, by] = corners[(i + 1) % corners.length]!;
      return ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / Math.hypot(bx - ax, by - ay);
    }),
  );
}

/** Elevation at a point of a triangle's plane by the shares of its corners. */
function byShares([a, b, c]: readonly [Point3, Point3, Point3], [x, y]: Point2): number {
  const whole = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
  const v = ((x - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (y - a[1])) / whole;
  const w = ((b[0] - a[0]) * (y - a[1]) - (x - a[0]) * (b[1] - a[1])) / whole;
  return a[2] + v * (b[2] - a[2]) + w * (c[2] - a[2]);
}

const cornersOf = (points: readonly Point3[], triple: Triple) =>
  triple.map((k) => points[k]!) as unknown as readonly [Point3, Point3, Point3];

describe("an outline cut by triangles between spots", () => {
  it(`lies under each triangle's own plane, once, and under none beyond them all (seed ${SEED})`, () => {
    const random = seeded(SEED);
    const [seen, wrong] = [{ inside: 0, beyond: 0 }, [] as string[]];
    for (let n = 0; n < 30; n++) {
      const [x0, y0] = n % 4 === 0 ? [3000, -8000] : [0, 0];
      const points = Array.from(
        { length: 4 + Math.floor(6 * random()) },
        (): Point3 => [x0 + 300 * (random() - 0.5), y0 + 300 * (random() - 0.5), 140 + 20 * random()],
      );
      const lines: Pair[] = n % 2 === 0 ? [] : [[0, 1]];
      const plan = points.map(([x, y]): Point2 => [x, y]);
      if (triangulationFaults(plan, lines, NEAR).length > 0) continue;
      const mesh = triangulate(points, lines, NEAR);
      if (mesh.slivers.length > 0) continue;
      const polygon = randomPolygon(random, x0, y0);
      const { within, beyond } = foldedFaces(polygon, points, mesh, NEAR);
      const total =
        within.reduce((sum, part) => sum + area(part.polygon), 0) + beyond.reduce((sum, part) => sum + area(part), 0);
      expect(total / area(polygon), `${n}`).toBeCloseTo(1, 6);
      for (const part of within) {
        const covered = part.faces.reduce((sum, { face }) => sum + area(face.polygon), 0);
        expect(covered / area(part.polygon), `${n}`).toBeCloseTo(1, 6);
      }
      const hull = mesh.hull.map((k) => points[k]!);
      for (let i = 0; i < 60; i++) {
        const at: Point2 = [x0 + 320 * (random() - 0.5), y0 + 320 * (random() - 0.5)];
        const over = within.filter((part) => locate(part.polygon, at) === "inside");
        const faces = within.flatMap((part) =>
          part.faces.filter(({ face }) => locate(face.polygon, at) === "inside").map((each) => ({ ...each, part })),
        );
        const isIn = locate(polygon, at) === "inside";
        const depths = mesh.triangles.map((triple) => depth(cornersOf(points, triple), at));
        const under = mesh.triangles[depths.findIndex((d) => d > 1e-6)];
        const say = (what: string) => wrong.push(`${n}: ${what} at ${at}`);
        if (isIn && under) {
          seen.inside++;
          if (faces.length !== 1 || over.length !== 1 || faces[0]!.part !== over[0])
            say(`${faces.length} faces, ${over.length} parts`);
          else if (faces[0]!.triangle !== under) say("another triangle's");
          else if (Math.abs(elevationAt(faces[0]!.face.plane, at) - byShares(cornersOf(points, under), at)) > 1e-6)
            say("elevation");
          if (beyond.some((piece) => locate(piece, at) === "inside")) say("beyond");
        } else if (!isIn || depth(hull, at) < -1e-6) {
          if (faces.length > 0) say("a face");
          if (isIn && depth(hull, at) < -NEAR && !beyond.some((piece) => locate(piece, at) === "inside"))
            say("not beyond");
          if (isIn) seen.beyond++;
        }
      }
    }
    expect(wrong).toEqual([]);
    expect(seen.inside).toBeGreaterThan(150);
    expect(seen.beyond).toBeGreaterThan(50);
  });

  /** Cosine and sine of how far a plan is turned: not, by a quarter, by the angles of the 3-4-5 triangle. */
  type Way = readonly [c: number, s: number];
  const ways: Way[] = [
    [1, 0],
    [0, 1],
    [0.6, 0.8],
    [-0.8, 0.6],
  ];
  const turnedBy = ([c, s]: Way, [x, y]: Point2): Point2 => [c * x - s * y, s * x + c * y];
  /** A gable along x, 144 at the ridge, falling 1 in 4 to both sides: 200 by 200. */
  const gable = (way: Way) => {
    const spots = (
      [
        [0, -100],
        [200, -100],
        [200, 100],
        [0, 100],
        [0, 0],
        [200, 0],
      ] as const
    ).map(([x, y]): Point3 => [...turnedBy(way, [x, y]), 144 - Math.abs(y) / 4]);
    return { spots, mesh: triangulate(spots, [[4, 5]], NEAR) };
  };
  const ring = (x0: number, y0: number, x1: number, y1: number): Ring => [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  it.each<[string, Ring, Ring[], Point2[], Point2[]]>([
    [
      "a side drawn 1/16 in. outside goes on under its plane",
      ring(-1 / 16, -100, 200, 100),
      [],
      [
        [-1 / 32, 50],
        [-1 / 32, -50],
        [-1 / 32, 1],
        [-1 / 32, -1],
        [100, 30],
      ],
      [],
    ],
    [
      "all sides 1/16 in. outside, round the corners too",
      ring(-1 / 16, -100 - 1 / 16, 200 + 1 / 16, 100 + 1 / 16),
      [],
      [
        [-1 / 32, -100 - 1 / 32],
        [200 + 1 / 32, 100 + 1 / 32],
        [100, 100 + 1 / 32],
        [200 + 1 / 32, 40],
      ],
      [],
    ],
    [
      "a side 10 in. outside has no surface there, and keeps it inside",
      ring(-10, -100, 200, 100),
      [],
      [
        [10, 50],
        [190, -50],
      ],
      [
        [-5, 50],
        [-5, -50],
      ],
    ],
    [
      "a hole stays a hole, across the ridge and within one plane",
      ring(20, -80, 180, 80),
      [ring(80, -20, 120, 20), ring(30, 40, 40, 60)],
      [
        [60, 0.5],
        [100, 30],
        [35, 70],
      ],
      [],
    ],
    [
      "an outline in one plane only",
      [
        [50, 20],
        [150, 20],
        [150, 90],
        [50, 90],
      ],
      [],
      [
        [100, 60],
        [51, 24],
      ],
      [],
    ],
    [
      "an outline larger than all triangles",
      ring(-50, -150, 250, 150),
      [],
      [
        [1, 1],
        [199, -99],
        [100, 99],
      ],
      [
        [-25, 0],
        [100, 125],
        [225, -125],
      ],
    ],
  ])("%s", (_, outline, holes, under, none) => {
    for (const way of ways) {
      const { spots, mesh } = gable(way);
      const polygon: Polygon = {
        outline: outline.map((p) => turnedBy(way, p)),
        holes: holes.map((hole) => hole.map((p) => turnedBy(way, p))),
      };
      const { within, beyond } = foldedFaces(polygon, spots, mesh, NEAR);
      const faces = within.flatMap((part) => part.faces);
      const at = (place: Point2): Point2 => turnedBy(way, place);
      for (const place of under) {
        const over = faces.filter(({ face }) => locate(face.polygon, at(place)) !== "outside");
        expect(over, `${place}`).toHaveLength(1);
        expect(elevationAt(over[0]!.face.plane, at(place)), `${place}`).toBeCloseTo(144 - Math.abs(place[1]) / 4, 9);
      }
      for (const place of none) {
        expect(
          faces.some(({ face }) => locate(face.polygon, at(place)) !== "outside"),
          `${place}`,
        ).toBe(false);
        expect(
          beyond.some((piece) => locate(piece, at(place)) === "inside"),
          `${place}`,
        ).toBe(true);
      }
      for (const hole of polygon.holes)
        for (const { face } of faces)
          expect(locate(face.polygon, [(hole[0]![0] + hole[2]![0]) / 2, (hole[0]![1] + hole[2]![1]) / 2])).toBe(
            "outside",
          );
      const inHoles = holes.reduce((sum, hole) => sum + area({ outline: hole, holes: [] }), 0);
      const rest = beyond.reduce((sum, piece) => sum + area(piece), 0);
      const covered = faces.reduce((sum, { face }) => sum + area(face.polygon), 0);
      expect(covered + rest + inHoles).toBeCloseTo(area({ outline, holes: [] }), 3);
    }
  });

  it("two wings of one outline, joined beyond the spots, are two parts, each with its own faces", () => {
    const { spots, mesh } = gable([1, 0]);
    // A U whose base lies 20 in. and more to the left of the first spots.
    const outline: Ring = [
      [-60, -80],
      [150, -80],
      [150, -30],
      [-20, -30],
      [-20, 30],
      [150, 30],
      [150, 80],
      [-60, 80],
    ];
    const { within, beyond } = foldedFaces({ outline, holes: [] }, spots, mesh, NEAR);
    expect(within).toHaveLength(2);
    for (const { polygon, faces } of within) {
      expect(area(polygon)).toBeCloseTo(150 * 50, 6);
      expect(faces.reduce((sum, { face }) => sum + area(face.polygon), 0)).toBeCloseTo(150 * 50, 6);
      const side = Math.sign(polygon.outline[0]![1]);
      for (const { face } of faces)
        for (const [, y] of face.polygon.outline) expect(y * side).toBeGreaterThanOrEqual(30 - 1e-6);
    }
    expect(beyond.reduce((sum, piece) => sum + area(piece), 0)).toBeCloseTo(40 * 160 + 2 * 20 * 50, 6);
  });

  it("a notch, or a hole, that is one of the triangles has no face, though all its corners lie on the outline", () => {
    // A pyramid: 140 round a square of 200, 150 in its middle; the triangle to the right is cut out.
    const spots: Point3[] = [
      [0, -100, 140],
      [200, -100, 140],
      [200, 100, 140],
      [0, 100, 140],
      [100, 0, 150],
    ];
    const mesh = triangulate(spots, [], NEAR);
    const square = ring(0, -100, 200, 100);
    const right: Ring = [
      [200, -100],
      [200, 100],
      [100, 0],
    ];
    const notched: Ring = [square[0]!, square[1]!, [100, 0], square[2]!, square[3]!];
    for (const polygon of [
      { outline: notched, holes: [] },
      { outline: ring(0, -100, 300, 100), holes: [right] },
    ]) {
      const { within } = foldedFaces(polygon, spots, mesh, NEAR);
      const faces = within.flatMap((part) => part.faces);
      expect(faces.map(({ face }) => area(face.polygon)).map(Math.round)).toEqual([10000, 10000, 10000]);
      expect(faces.every(({ face }) => locate(face.polygon, [180, 0]) === "outside")).toBe(true);
    }
  });
});
