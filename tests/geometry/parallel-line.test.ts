import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parallelLine } from "../../src/geometry/parallel-line.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { evenly } from "./evenly.ts";

const codeOf = (result: ReturnType<typeof parallelLine>) => (result.ok ? "ok" : result.problems[0]!.code);
const lineOf = (result: ReturnType<typeof parallelLine>): Point2[] => {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};

/** Signed distance of `p` from the line through a and b, positive to the left. */
const beside = (a: Point2, b: Point2, p: Point2): number =>
  ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / Math.hypot(b[0] - a[0], b[1] - a[1]);

/** A walk whose pieces are at least ten long, by lengths and turns in degrees; now and then two points at one place, as of a drop. */
const walk = fc
  .array(fc.tuple(evenly(10, 300), evenly(-150, 150), fc.boolean()), { minLength: 1, maxLength: 8 })
  .map((steps) => {
    const points: Point2[] = [[600, 600]];
    let way = 0;
    for (const [length, turn, drop] of steps) {
      way += (turn * Math.PI) / 180;
      const [x, y] = points.at(-1)!;
      points.push([x + length * Math.cos(way), y + length * Math.sin(way)]);
      if (drop) points.push(points.at(-1)!);
    }
    return points;
  });
const distance = evenly(-60, 60).filter((d) => Math.abs(d) > 0.01);

describe("a line beside another", () => {
  it("has every point at the distance from the lines that carry the pieces it is beside, each piece going the same way", () => {
    let drawn = 0;
    fc.assert(
      fc.property(walk, distance, (line, apart) => {
        const result = parallelLine(line, apart);
        if (!result.ok) return;
        drawn++;
        const copy = result.value;
        expect(copy).toHaveLength(line.length);
        for (let i = 0; i + 1 < line.length; i++) {
          const [a, b] = [line[i]!, line[i + 1]!];
          if (a[0] === b[0] && a[1] === b[1]) {
            expect(copy[i + 1]).toEqual(copy[i]);
            continue;
          }
          for (const p of [copy[i]!, copy[i + 1]!]) expect(Math.abs(beside(a, b, p) - apart)).toBeLessThan(1e-8);
          const along =
            (b[0] - a[0]) * (copy[i + 1]![0] - copy[i]![0]) + (b[1] - a[1]) * (copy[i + 1]![1] - copy[i]![1]);
          expect(along).toBeGreaterThan(0);
        }
      }),
    );
    expect(drawn).toBeGreaterThan(10);
  });

  it("is the same on the other side of the line that goes the other way round", () => {
    fc.assert(
      fc.property(walk, distance, (line, apart) => {
        const [one, other] = [parallelLine(line, apart), parallelLine(line.toReversed(), -apart)];
        expect(other.ok).toBe(one.ok);
        if (!one.ok || !other.ok) return;
        for (const [i, [x, y]] of one.value.entries()) {
          expect(other.value.at(-1 - i)![0]).toBeCloseTo(x, 8);
          expect(other.value.at(-1 - i)![1]).toBeCloseTo(y, 8);
        }
      }),
    );
  });

  it("keeps right angles right to the bit, and mitres both ways", () => {
    const hook: Point2[] = [
      [0, 0],
      [100, 0],
      [100, 50],
      [160, 50],
    ];
    expect(lineOf(parallelLine(hook, 6))).toEqual([
      [0, 6],
      [94, 6],
      [94, 56],
      [160, 56],
    ]);
    expect(lineOf(parallelLine(hook, -6))).toEqual([
      [0, -6],
      [106, -6],
      [106, 44],
      [160, 44],
    ]);
  });

  it("goes all round a line that ends where it began", () => {
    const square: Point2[] = [
      [0, 0],
      [100, 0],
      [100, 100],
      [0, 100],
      [0, 0],
    ];
    expect(lineOf(parallelLine(square, 10))).toEqual([
      [10, 10],
      [90, 10],
      [90, 90],
      [10, 90],
      [10, 10],
    ]);
    expect(lineOf(parallelLine(square, -10))[0]).toEqual([-10, -10]);
    expect(codeOf(parallelLine(square, 50))).toBe("parallel.too-tight");
  });

  it("is refused where it degenerates: no length, a turn back, a piece too short, a copy that crosses itself", () => {
    expect(
      codeOf(
        parallelLine(
          [
            [5, 5],
            [5, 5],
          ],
          1,
        ),
      ),
    ).toBe("parallel.no-length");
    expect(
      parallelLine(
        [
          [0, 0],
          [10, 0],
          [0, 0.1],
        ],
        1,
      ),
    ).toMatchObject({
      problems: [{ code: "parallel.turns-back", params: { vertex: 2 } }],
    });
    const jog: Point2[] = [
      [0, 0],
      [100, 0],
      [100, 10],
      [0, 10],
    ];
    expect(parallelLine(jog, 6)).toMatchObject({ problems: [{ code: "parallel.too-tight", params: { vertex: 2 } }] });
    expect(codeOf(parallelLine(jog, 4))).toBe("ok");
    // A mouth of 20 between two legs: copies 12 to the inside of both would cross there.
    const bottle: Point2[] = [
      [0, 200],
      [40, 100],
      [0, 60],
      [0, 0],
      [100, 0],
      [100, 60],
      [60, 100],
      [100, 200],
    ];
    expect(codeOf(parallelLine(bottle, 5))).toBe("ok");
    expect(codeOf(parallelLine(bottle, 12))).toBe("parallel.crosses-itself");
    expect(codeOf(parallelLine(bottle, -12))).toBe("ok");
  });
});
