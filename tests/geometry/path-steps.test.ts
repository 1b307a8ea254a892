import { describe, expect, it } from "vitest";
import { circleSteps, lineSteps } from "../../src/geometry/path-steps.ts";
import type { Point2 } from "../../src/geometry/point.ts";

describe("the steps of a path", () => {
  it("go through the points in order, and back to the first where closed", () => {
    const points: Point2[] = [
      [1, 2],
      [3, 4],
      [5, 6],
    ];
    const open = [
      ["M", 1, 2],
      ["L", 3, 4],
      ["L", 5, 6],
    ];
    expect(lineSteps(points)).toEqual(open);
    expect(lineSteps(points, true)).toEqual([...open, ["Z"]]);
    expect(lineSteps([], true)).toEqual([]);
  });

  it("of a circle stay within 0.03 % of its radius, all round, counter-clockwise, and end where they began", () => {
    const [x, y, r] = [7, -3, 50];
    const steps = circleSteps([x, y], r);
    expect(steps[0]).toEqual(["M", x + r, y]);
    expect(steps.at(-1)).toEqual(["Z"]);
    let from: Point2 = [x + r, y];
    let turned = 0;
    for (const step of steps.slice(1, -1)) {
      if (step[0] !== "C") throw new Error(`${step[0]} is no curve`);
      const [, x1, y1, x2, y2, x3, y3] = step;
      // Bernstein's form of the cubic, point by point.
      for (let i = 1, [px, py] = from; i <= 64; i++) {
        const t = i / 64;
        const at = (a: number, b: number, c: number, d: number): number =>
          (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t * t * c + t ** 3 * d;
        const [qx, qy] = [at(from[0], x1, x2, x3), at(from[1], y1, y2, y3)];
        expect(Math.abs(Math.hypot(qx - x, qy - y) / r - 1)).toBeLessThan(3e-4);
        const turn = Math.atan2((px - x) * (qy - y) - (py - y) * (qx - x), (px - x) * (qx - x) + (py - y) * (qy - y));
        expect(turn).toBeGreaterThan(0);
        turned += turn;
        [px, py] = [qx, qy];
      }
      from = [x3, y3];
    }
    expect(turned).toBeCloseTo(2 * Math.PI, 9);
    expect(from).toEqual([x + r, y]);
  });
});
