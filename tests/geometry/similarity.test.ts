import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Point2 } from "../../src/geometry/point.ts";
import {
  applyTo,
  compose,
  fitSimilarity,
  identity,
  invert,
  type PointPair,
  type Similarity,
} from "../../src/geometry/similarity.ts";
import { radians } from "../../src/units/quantity.ts";
import { evenly } from "./evenly.ts";

const close = (a: Point2, b: Point2, within: number) => {
  expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeLessThanOrEqual(within);
};
const fitted = (pairs: PointPair[], fixedScale?: number) => {
  const result = fitSimilarity(pairs, fixedScale);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};
const codeOf = (pairs: PointPair[], fixedScale?: number) => {
  const result = fitSimilarity(pairs, fixedScale);
  return result.ok ? "ok" : result.problems[0]!.code;
};

const anySimilarity: fc.Arbitrary<Similarity> = fc.record({
  scale: evenly(-3, 3).map((power) => 10 ** power),
  angle: evenly(-Math.PI, Math.PI).map(radians),
  dx: evenly(-1e5, 1e5),
  dy: evenly(-1e5, 1e5),
});
const anyPoint: fc.Arbitrary<Point2> = fc.tuple(evenly(-5000, 5000), evenly(-5000, 5000));

describe("similarities", () => {
  test("a quarter turn at double size", () => {
    close(applyTo({ scale: 2, angle: radians(Math.PI / 2), dx: 1, dy: 1 }, [3, 0]), [1, 7], 1e-12);
    expect(applyTo(identity, [3, 4])).toEqual([3, 4]);
  });

  test("undoing and chaining", () => {
    fc.assert(
      fc.property(anySimilarity, anySimilarity, anyPoint, (a, b, p) => {
        close(applyTo(invert(a), applyTo(a, p)), p, 1e-7 * Math.max(1, 1 / a.scale));
        const chained = applyTo(compose(a, b), p);
        close(chained, applyTo(a, applyTo(b, p)), 1e-9 * (1 + Math.hypot(...chained)));
        expect(Math.abs(compose(a, b).angle)).toBeLessThanOrEqual(Math.PI);
      }),
      { numRuns: 200, seed: 11 },
    );
  });
});

describe("fitting a registration", () => {
  test("finds the transform the points were made with", () => {
    fc.assert(
      fc.property(anySimilarity, fc.array(anyPoint, { minLength: 2, maxLength: 6 }), (sim, points) => {
        const spread = Math.max(...points.map((p) => Math.hypot(p[0] - points[0]![0], p[1] - points[0]![1])));
        fc.pre(spread > 100);
        const fit = fitted(points.map((from) => ({ from, to: applyTo(sim, from) })));
        for (const p of points) close(applyTo(fit.sim, p), applyTo(sim, p), 1e-8 * (1 + 1e4 * sim.scale));
        expect(fit.rms).toBeLessThan(1e-8 * (1 + 1e4 * sim.scale));
        expect(fit.mirrored).toBe(false);
      }),
      { numRuns: 200, seed: 12 },
    );
  });

  test("two points and a scale note that disagree: best shift and turn, residual shared by both", () => {
    const fit = fitted(
      [
        { from: [0, 0], to: [0, 0] },
        { from: [10, 0], to: [0, 22] },
      ],
      2,
    );
    expect(fit.sim.scale).toBe(2);
    expect(fit.sim.angle).toBeCloseTo(Math.PI / 2, 14);
    expect(fit.residuals[0]).toBeCloseTo(1, 12);
    expect(fit.residuals[1]).toBeCloseTo(1, 12);
    expect(fit.rms).toBeCloseTo(1, 12);
  });

  test("least squares: no other transform nearby does better", () => {
    const pairs: PointPair[] = [
      { from: [0, 0], to: [100, 5] },
      { from: [10, 1], to: [121, 4] },
      { from: [9, 12], to: [118, 31] },
      { from: [-3, 7], to: [95, 17] },
    ];
    const { sim, rms } = fitted(pairs);
    const squares = (s: Similarity) =>
      pairs.reduce((sum, { from, to }) => {
        const [x, y] = applyTo(s, from);
        return sum + (x - to[0]) ** 2 + (y - to[1]) ** 2;
      }, 0);
    expect(Math.sqrt(squares(sim) / 4)).toBeCloseTo(rms, 12);
    for (const step of [1e-3, -1e-3]) {
      expect(squares({ ...sim, scale: sim.scale + step })).toBeGreaterThan(squares(sim));
      expect(squares({ ...sim, angle: radians(sim.angle + step) })).toBeGreaterThan(squares(sim));
      expect(squares({ ...sim, dx: sim.dx + step })).toBeGreaterThan(squares(sim));
      expect(squares({ ...sim, dy: sim.dy + step })).toBeGreaterThan(squares(sim));
    }
  });

  test("swapped points look mirrored", () => {
    const corner: PointPair[] = [
      { from: [0, 0], to: [0, 0] },
      { from: [40, 0], to: [0, 40] },
      { from: [0, 25], to: [25, 0] },
      { from: [40, 25], to: [25, 40] },
    ];
    expect(fitted(corner).mirrored).toBe(true);
    expect(fitted(corner.map(({ from, to }) => ({ from, to: [-to[0], to[1]] }))).mirrored).toBe(false);
    expect(fitted(corner.slice(0, 2)).mirrored).toBe(false);
  });

  test("what cannot be fitted is a problem, not a number", () => {
    expect(codeOf([])).toBe("registration.too-few-pairs");
    expect(codeOf([{ from: [0, 0], to: [1, 1] }], 2)).toBe("registration.too-few-pairs");
    expect(
      codeOf([
        { from: [5, 5], to: [1, 1] },
        { from: [5, 5], to: [9, 1] },
      ]),
    ).toBe("registration.equal-points");
    expect(
      codeOf([
        { from: [5, 5], to: [1, 1] },
        { from: [7, 5], to: [1, 1] },
      ]),
    ).toBe("registration.equal-points");
    expect(
      codeOf([
        { from: [5, Number.NaN], to: [1, 1] },
        { from: [7, 5], to: [1, 2] },
      ]),
    ).toBe("registration.not-finite");
    expect(
      codeOf(
        [
          { from: [5, 5], to: [1, 1] },
          { from: [7, 5], to: [1, 2] },
        ],
        0,
      ),
    ).toBe("registration.not-finite");
  });

  const square: Point2[] = [
    [100, 50],
    [140, 50],
    [140, 90],
    [100, 90],
  ];
  /** Each point taken by `straight` times itself plus `mirrored` times its mirror image, turned and shifted: for a square these fits do not mix. */
  const blend = (straight: number, mirrored: number): PointPair[] =>
    square.map((from) => {
      const [x, y] = [from[0] - 120, from[1] - 70];
      return {
        from,
        to: applyTo({ scale: 1, angle: radians(0.7), dx: -300, dy: 40 }, [
          (straight + mirrored) * x,
          (straight - mirrored) * y,
        ]),
      };
    });

  test("looks mirrored where the mirror image fits more than four times as well", () => {
    // A corner is 20 sqrt 2 from the middle: the straight fit is off by that times the mirrored share.
    const fit = fitted(blend(0.2, 1));
    for (const r of fit.residuals) expect(r).toBeCloseTo(20 * Math.SQRT2, 9);
    expect(fit.mirrored).toBe(true);
    expect(fit.sim.scale).toBeCloseTo(0.2, 12);
    expect(fitted(blend(0.3, 1)).mirrored).toBe(false);
    expect(fitted(blend(1, 0.9)).mirrored).toBe(false);
    expect(fitted(blend(1, 0)).mirrored).toBe(false);
    // At a given scale 1 the straight fit is off by 1, the mirrored by 0.2 and by 1.2 of it.
    expect(fitted(blend(0.2, 1), 1).mirrored).toBe(true);
    expect(fitted(blend(0.2, 0.2), 1).mirrored).toBe(false);
  });

  test("a mirrored square has no best turn: its size is kept, and it looks mirrored", () => {
    const fit = fitted(blend(0, 2));
    expect(fit.sim.scale).toBeCloseTo(2, 9);
    expect(fit.mirrored).toBe(true);
  });

  test("points within rounding of each other are equal, far from the origin too; a thousandth apart they are not", () => {
    const pair = (x: number, apart: number): PointPair[] => [
      { from: [x, 7], to: [3, 3] },
      { from: [x + apart, 7], to: [4, 3] },
    ];
    const turned = (pairs: PointPair[]) => pairs.map(({ from, to }) => ({ from: to, to: from }));
    for (const pairs of [pair(5e5, 1e-7), turned(pair(5e5, 1e-7))])
      expect(codeOf(pairs)).toBe("registration.equal-points");
    for (const pairs of [pair(5e5, 1e-3), turned(pair(5e5, 1e-3)), pair(0, 1e-7)]) expect(codeOf(pairs)).toBe("ok");
  });

  test("half a turn is told as pi, not as minus pi", () => {
    const quarter: Similarity = { ...identity, angle: radians(-Math.PI / 2) };
    expect(compose(quarter, quarter).angle).toBe(Math.PI);
    expect(invert({ ...identity, angle: radians(Math.PI) }).angle).toBe(Math.PI);
  });
});
