import { describe, expect, it } from "vitest";
import { barCorners, barPoint, makeBar } from "../../src/geometry/bar.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { inches } from "../../src/units/quantity.ts";

const bar = (q: Point3, ahead?: Point2) => makeBar([0, 0, 0], q, inches(2), inches(1), ahead);
const near = (found: Point3, wanted: Point3): void => {
  for (const k of [0, 1, 2]) expect(found[k], `${found}`).toBeCloseTo(wanted[k]!, 12);
};

describe("a bar's own directions, by the 3-4-5 triangle", () => {
  it("rising towards x: up leans back by 4/5 and rises by 3/5", () => {
    const rising = bar([3, 0, 4]);
    near(rising.up, [-0.8, 0, 0.6]);
    near(barPoint(rising, 5, 2, 1), [2.2, 2, 4.6]);
    near(barCorners(rising)[2]!, [-0.8, 2, 0.6]);
  });

  it("rising towards y: the same, turned", () => {
    const rising = bar([0, 3, 4]);
    near(rising.up, [0, -0.8, 0.6]);
    near(barPoint(rising, 5, 2, 1), [-2, 2.2, 4.6]);
  });

  it("upright, it is turned as the axis was going before, however long that was", () => {
    for (const ahead of [
      [3, 4],
      [0.6, 0.8],
    ] as const)
      near(bar([0, 0, 10], ahead).across, [-0.8, 0.6, 0]);
    for (const none of [bar([0, 0, 10]), bar([0, 0, 10], [0, 0])]) near(none.across, [0, 1, 0]);
    near(bar([0, 0, 10], [3, 4]).up, [-0.6, -0.8, 0]);
  });

  it("a plan length within rounding of none gives no direction: 1e-7 of 1,000 in.", () => {
    near(bar([0, 1e-7, 1000], [1, 0]).across, [0, 1, 0]);
    near(bar([0, 1e-5, 1000], [1, 0]).across, [-1, 0, 0]);
  });
});
