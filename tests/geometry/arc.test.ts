import { describe, expect, it } from "vitest";
import { bendCurve } from "../../src/geometry/arc.ts";
import { distance3, type Point3 } from "../../src/geometry/point.ts";

/** A corner at (30, -20, 100): a leg of 10 in. to it along x and one of 25 in. from it, turned by `turn` degrees in plan; or both in a slanting plane. */
function corner(turn: number, slanting: boolean): readonly [Point3, Point3, Point3] {
  const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  // Two directions of length 1 square to each other: (2, 3, 6) and (3, -6, 2) have the length 7.
  const [u, v] = slanting
    ? [
        [2 / 7, 3 / 7, 6 / 7],
        [3 / 7, -6 / 7, 2 / 7],
      ]
    : [
        [1, 0, 0],
        [0, 1, 0],
      ];
  const b: Point3 = [30, -20, 100];
  const from = (length: number, along: number, across: number): Point3 => {
    const [x, y, z] = b.map((n, k) => n + length * (along * u![k]! + across * v![k]!));
    return [x!, y!, z!];
  };
  return [from(-10, 1, 0), b, from(25, c, s)];
}

describe("the curve of a bend", () => {
  it("of 90 degrees and 4 in. is the quarter circle about (26, -16)", () => {
    const { tangent, points } = bendCurve(...corner(90, false), 4)!;
    expect(tangent).toBeCloseTo(4, 12);
    expect(points[0]).toEqual([26, -20, 100]);
    expect(points.at(-1)!.map((n) => n.toFixed(9))).toEqual(["30.000000000", "-16.000000000", "100.000000000"]);
    for (const [x, y, z] of points) {
      expect(Math.hypot(x - 26, y + 16)).toBeCloseTo(4, 12);
      expect(x).toBeGreaterThanOrEqual(26 - 1e-12);
      expect(y).toBeLessThanOrEqual(-16 + 1e-12);
      expect(z).toBeCloseTo(100, 12);
    }
  });

  // The tangent length is radius x tan(turn / 2): tan 15 = 2 - sqrt 3, tan 22.5 = sqrt 2 - 1, tan 30 = 1 / sqrt 3, tan 67.5 = sqrt 2 + 1.
  it.each<[degrees: number, slanting: boolean, radius: number, tangent: number]>([
    [30, false, 6, 6 * (2 - Math.sqrt(3))],
    [45, true, 8, 8 * (Math.SQRT2 - 1)],
    [60, false, 5, 5 / Math.sqrt(3)],
    [90, true, 4, 4],
    [135, true, 3, 3 * (Math.SQRT2 + 1)],
  ])(
    "of %d degrees touches both legs and turns evenly, its pieces as few as a thousandth of an inch allows",
    (degrees, slanting, radius, tangent) => {
      const [a, b, c] = corner(degrees, slanting);
      const curve = bendCurve(a, b, c, radius)!;
      expect(curve.tangent).toBeCloseTo(tangent, 12);
      const { points, off } = curve;
      const count = points.length - 1;
      const turn = (degrees * Math.PI) / 180;
      // An arc parted evenly: chords of one length, each turned from the one before by the same angle, the first from its leg by half of that.
      const step = turn / count;
      const way = (from: Point3, to: Point3): number[] => from.map((n, k) => (to[k]! - n) / distance3(from, to));
      const angle = (u: number[], v: number[]): number =>
        Math.acos(
          Math.min(
            1,
            u.reduce((sum, n, k) => sum + n * v[k]!, 0),
          ),
        );
      const ways = points.slice(1).map((to, i) => way(points[i]!, to));
      expect(distance3(points[0]!, b)).toBeCloseTo(tangent, 12);
      expect(distance3(points[count]!, b)).toBeCloseTo(tangent, 12);
      expect(angle(ways[0]!, way(a, b))).toBeCloseTo(step / 2, 7);
      expect(angle(ways[count - 1]!, way(b, c))).toBeCloseTo(step / 2, 7);
      for (const [i, to] of points.slice(1).entries())
        expect(distance3(points[i]!, to)).toBeCloseTo(2 * radius * Math.sin(step / 2), 12);
      for (const [i, next] of ways.slice(1).entries()) expect(angle(ways[i]!, next)).toBeCloseTo(step, 7);
      // The arc stands off its chord by radius x (1 - cos(half the step)).
      expect(off).toBeCloseTo(radius * (1 - Math.cos(step / 2)), 12);
      expect(off).toBeLessThanOrEqual(1e-3);
      expect(radius * (1 - Math.cos(turn / (count - 1) / 2))).toBeGreaterThan(1e-3);
    },
  );

  it("too tight to stand off a chord at all is one straight piece", () => {
    const { points, off } = bendCurve(...corner(90, false), 4e-4)!;
    expect(points).toHaveLength(2);
    expect(off).toBeCloseTo(4e-4 * (1 - Math.SQRT1_2), 15);
  });

  it("is none without a corner to round: legs in one line or right back, a leg without length, no radius", () => {
    const degrees = (n: number) => bendCurve(...corner(n, false), 4);
    for (const n of [0, 1e-5, 179.96, 180]) expect(degrees(n), `${n}`).toBeUndefined();
    for (const n of [1e-3, 179.9]) expect(degrees(n), `${n}`).toBeDefined();
    const [a, b, c] = corner(90, false);
    expect(bendCurve(b, b, c, 4)).toBeUndefined();
    expect(bendCurve(a, b, b, 4)).toBeUndefined();
    for (const radius of [0, -4, Number.NaN]) expect(bendCurve(a, b, c, radius)).toBeUndefined();
  });
});
