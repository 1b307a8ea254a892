import { describe, expect, it } from "vitest";
import { lerp2, lerp3, type Point3 } from "../../src/geometry/point.ts";
import { boxOfCapsule, boxOfOrientedBox } from "../../src/geometry/solid.ts";
import { inches, radians } from "../../src/units/quantity.ts";

describe("boxes along the axes", () => {
  it("just hold a run of 2 in. radius, whichever way it goes", () => {
    const [p, q]: [Point3, Point3] = [
      [10, 50, 140],
      [30, 40, 133],
    ];
    const held = { min: [8, 38, 131], max: [32, 52, 142] };
    expect(boxOfCapsule({ p, q, radius: inches(2) })).toEqual(held);
    expect(boxOfCapsule({ p: q, q: p, radius: inches(2) })).toEqual(held);
  });

  it("just hold a box turned by the angle of the 3-4-5 triangle", () => {
    // Corners at 0.6 x 10 + 0.8 x 5 = 10 along x and 0.8 x 10 + 0.6 x 5 = 11 along y, whichever way and however far it is turned.
    const turn = Math.atan2(4, 3);
    for (const rotation of [turn, -turn, Math.PI - turn, Math.PI + turn]) {
      const { min, max } = boxOfOrientedBox({ centre: [100, 200, 144], half: [10, 5, 2], rotation: radians(rotation) });
      for (const [k, n] of [90, 189, 142].entries()) expect(min[k]).toBeCloseTo(n, 12);
      for (const [k, n] of [110, 211, 146].entries()) expect(max[k]).toBeCloseTo(n, 12);
    }
  });
});

it("a point part of the way along a line is so far along each axis", () => {
  expect(lerp2([2, 10], [6, -10], 0.25)).toEqual([3, 5]);
  expect(lerp3([2, 10, 100], [6, -10, 108], 0.25)).toEqual([3, 5, 102]);
});
