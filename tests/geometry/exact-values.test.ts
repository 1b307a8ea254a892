import { describe, expect, it } from "vitest";
import { nearStretches } from "../../src/geometry/clearance.ts";
import { makeFace } from "../../src/geometry/face.ts";
import { elevationAt, planeLevel, planeThrough } from "../../src/geometry/plane.ts";
import type { Point3 } from "../../src/geometry/point.ts";
import { LIMIT_TOLERANCE } from "../../src/geometry/tolerance.ts";
import { inches } from "../../src/units/quantity.ts";
import { seeded } from "./random-scenes.ts";

describe("values that a small slip would change", () => {
  it("a plane through three points holds all three, wherever they are", () => {
    const random = seeded(41);
    const any = (): Point3 => [900 * (random() - 0.4), 900 * (random() - 0.4), 140 + 20 * random()];
    for (let i = 0; i < 500; i++) {
      const points = [any(), any(), any()] as const;
      const plane = planeThrough(...points);
      if (!plane || Math.hypot(plane.gx, plane.gy) > 2) continue;
      for (const [x, y, z] of points) expect(Math.abs(elevationAt(plane, [x, y]) - z), `${i}`).toBeLessThan(1e-8);
    }
  });

  it("a stretch begins where the distance is less than the limit by more than the tolerance", () => {
    const outline = [
      [0, 0],
      [100, 0],
      [100, 100],
      [0, 100],
    ] as const;
    const deck = makeFace({ outline, holes: [] }, planeLevel(inches(144)));
    // The gap is 8 - 8t: within 2, less the tolerance, from t = (6 + tolerance) / 8 on.
    const [[from]] = nearStretches([10, 50, 136], [90, 50, 144], deck, inches(2)) as [[number, number]];
    expect(Math.abs(from - (6 + LIMIT_TOLERANCE) / 8)).toBeLessThan(1e-11);
  });
});
