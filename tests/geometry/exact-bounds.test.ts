import { describe, expect, it } from "vitest";
import { makeFace } from "../../src/geometry/face.ts";
import { planeThrough } from "../../src/geometry/plane.ts";
import type { Point3 } from "../../src/geometry/point.ts";
import { inches } from "../../src/units/quantity.ts";

describe("bounds worked out by hand", () => {
  it("the box of a sloped face holds its corners and no more, off whole inches too", () => {
    const outline = [
      [0, 0],
      [128, 0],
      [128, 64],
      [0, 64],
    ] as const;
    // Elevations 144 1/4, 146 1/4, 144 1/4 and 142 1/4 round the outline.
    const face = makeFace({ outline, holes: [] }, { gx: 1 / 64, gy: -1 / 32, c: inches(144.25) });
    expect(face.box).toEqual({ min: [0, 0, 142.25], max: [128, 64, 146.25] });
  });

  it("a face with any coordinate that is not finite is refused, of its outline, a hole or its plane", () => {
    const square = (first: number) => [[first, 0] as const, [8, 0] as const, [8, 8] as const, [0, 8] as const];
    const level = { gx: 0, gy: 0, c: inches(144) };
    expect(() => makeFace({ outline: square(Number.NaN), holes: [] }, level)).toThrow(RangeError);
    expect(() => makeFace({ outline: square(0), holes: [square(Number.POSITIVE_INFINITY)] }, level)).toThrow(
      RangeError,
    );
    expect(() => makeFace({ outline: square(0), holes: [] }, { ...level, gy: Number.NaN })).toThrow(RangeError);
    expect(() => makeFace({ outline: square(0), holes: [] }, level)).not.toThrow();
  });

  /** Three points on a line 1,000 in. long, the one in the middle off it by `height`, at every turn of the line and order of the points. */
  const thin = (height: number): (readonly [Point3, Point3, Point3])[] =>
    [0, Math.PI / 4, Math.PI / 2, (3 * Math.PI) / 4].flatMap((turn) => {
      const [c, s] = [Math.cos(turn), Math.sin(turn)];
      const at = (x: number, y: number): Point3 => [c * x - s * y, s * x + c * y, 0];
      const [a, b, m] = [at(-500, 0), at(500, 0), at(0, height)];
      return [
        [m, a, b],
        [a, m, b],
        [a, b, m],
      ] as const;
    });

  it("three points are on one line below a height of 1e-9 of the longest side, whichever side that is", () => {
    for (const points of thin(7e-7)) expect(planeThrough(...points), JSON.stringify(points)).toBeUndefined();
    for (const points of thin(1.3e-6)) expect(planeThrough(...points), JSON.stringify(points)).toBeDefined();
  });
});
