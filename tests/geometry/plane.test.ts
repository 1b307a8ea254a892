import { describe, expect, test } from "vitest";
import {
  elevationAt,
  planeFromSlope,
  planeLevel,
  planeThrough,
  slopeAngle,
  unitNormal,
} from "../../src/geometry/plane.ts";
import { inches } from "../../src/units/quantity.ts";

describe("deck planes", () => {
  test("level", () => {
    expect(elevationAt(planeLevel(inches(144)), [1e5, -1e5])).toBe(144);
    expect(slopeAngle(planeLevel(inches(3)))).toBe(0);
    expect(unitNormal(planeLevel(inches(3)))[2]).toBe(1);
  });

  test("through three points", () => {
    const plane = planeThrough([0, 0, 10], [48, 0, 11], [0, 48, 12])!;
    expect(plane.gx).toBeCloseTo(1 / 48, 15);
    expect(plane.gy).toBeCloseTo(2 / 48, 15);
    expect(elevationAt(plane, [24, 24])).toBeCloseTo(11.5, 12);
  });

  test("three points in a row in plan give none, in any order", () => {
    expect(planeThrough([0, 0, 1], [1, 1, 2], [5, 5, 9])).toBeUndefined();
    expect(planeThrough([5, 5, 9], [0, 0, 1], [1, 1, 2])).toBeUndefined();
    expect(planeThrough([0, 0, 1], [0, 0, 2], [5, 5, 9])).toBeUndefined();
    // Off the line by a hundred-millionth of an inch in 100: no slope can be read from that.
    expect(planeThrough([0, 0, 1], [100, 0, 2], [50, 1e-8, 9])).toBeUndefined();
    expect(planeThrough([0, 0, 1], [100, 0, 2], [50, 1, 9])).toBeDefined();
  });

  test("1/4 in. per foot falls 1 in. in 4 ft", () => {
    const plane = planeFromSlope([100, 50], inches(144), 1 / 48, [0, -1]);
    expect(elevationAt(plane, [100, 50])).toBe(144);
    expect(elevationAt(plane, [700, 2])).toBeCloseTo(143, 12);
    expect(slopeAngle(plane)).toBeCloseTo(Math.atan(1 / 48), 15);
  });

  test("the length of the downhill direction does not matter; none at all is level", () => {
    const long = planeFromSlope([0, 0], inches(1), 0.1, [30, 40]);
    expect(long.gx).toBeCloseTo(-0.06, 15);
    expect(long.gy).toBeCloseTo(-0.08, 15);
    expect(planeFromSlope([0, 0], inches(1), 0.1, [0, 0])).toEqual(planeLevel(inches(1)));
  });

  test("the normal is square to the plane", () => {
    const plane = planeFromSlope([0, 0], inches(0), 0.5, [1, 2]);
    const n = unitNormal(plane);
    expect(Math.hypot(...n)).toBeCloseTo(1, 15);
    expect(n[0] * 7 + n[1] * -3 + n[2] * (elevationAt(plane, [7, -3]) - elevationAt(plane, [0, 0]))).toBeCloseTo(0, 14);
  });
});
