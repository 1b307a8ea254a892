import { describe, expect, it } from "vitest";
import { boxVerticalGap } from "../../src/geometry/clearance.ts";
import { makeFace } from "../../src/geometry/face.ts";
import { overlap } from "../../src/geometry/overlap.ts";
import { elevationAt } from "../../src/geometry/plane.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import type { OrientedBox } from "../../src/geometry/solid.ts";
import { inches, radians } from "../../src/units/quantity.ts";
import { randomBox, randomFace, seeded } from "./random-scenes.ts";

const SEED = 53;

/** The plan of a box: its corners in order. */
function planOf({ centre: [x, y], half: [hx, hy], rotation }: OrientedBox): Point2[] {
  const [c, s] = [Math.cos(rotation), Math.sin(rotation)];
  return [
    [-hx, -hy],
    [hx, -hy],
    [hx, hy],
    [-hx, hy],
  ].map(([u, v]): Point2 => [x + c * u! - s * v!, y + s * u! + c * v!]);
}

describe("the vertical gaps between a box and a deck", () => {
  it(`are at corners of what polyclip-ts finds both to cover (seed ${SEED})`, () => {
    const random = seeded(SEED);
    let partly = 0;
    for (let n = 0; n < 240; n++) {
      const [x, y] = n % 3 === 0 ? [4000, -7000] : [0, 0];
      const face = randomFace(random, x, y);
      const box = randomBox(random, x, y);
      // Near a corner of the deck every other time, so that corners of either lie in the other.
      const [cx, cy] = face.polygon.outline[n % face.polygon.outline.length]!;
      const placed: OrientedBox = n % 2 === 0 ? box : { ...box, centre: [cx + 6 * random(), cy + 6 * random(), 130] };
      const plan = planOf(placed);
      const both = overlap(face.polygon, { outline: plan, holes: [] }).polygons.flatMap(({ outline, holes }) =>
        [outline, ...holes].flat(),
      );
      const gap = boxVerticalGap(placed, face);
      expect(gap === undefined, `${n}`).toBe(both.length === 0);
      if (!gap) continue;
      const decks = both.map((at) => elevationAt(face.plane, at) - placed.centre[2]);
      expect(gap.least, `${n}`).toBeCloseTo(Math.min(...decks) - placed.half[2], 6);
      expect(gap.greatest, `${n}`).toBeCloseTo(Math.max(...decks) + placed.half[2], 6);
      expect(gap.at[2], `${n}`).toBe(placed.centre[2] + placed.half[2]);
      expect(elevationAt(face.plane, [gap.at[0], gap.at[1]]) - gap.at[2], `${n}`).toBeCloseTo(gap.least, 6);
      expect(Math.min(...both.map(([u, v]) => Math.hypot(u - gap.at[0], v - gap.at[1]))), `${n}`).toBeLessThan(
        face.plane.gx === 0 && face.plane.gy === 0 ? 60 : 1e-5,
      );
      if (both.length !== 4) partly++;
    }
    expect(partly).toBeGreaterThan(50);
  });

  it("are there where a side of the box only touches the side of the deck, or its corner a corner", () => {
    const square: Point2[] = [
      [0, 0],
      [64, 0],
      [64, 64],
      [0, 64],
    ];
    const face = makeFace({ outline: square, holes: [] }, { gx: 1 / 64, gy: 1 / 32, c: inches(144) });
    const box = (x: number, y: number): OrientedBox => ({ centre: [x, y, 140], half: [4, 2, 1], rotation: radians(0) });
    // Along x = 64 the deck stands at 145 + y / 32; the box's top at 141, its bottom at 139.
    expect(boxVerticalGap(box(68, 32), face)).toEqual({
      least: 145 + 30 / 32 - 141,
      greatest: 145 + 34 / 32 - 139,
      at: [64, 30, 141],
    });
    // A corner of the deck on the corner of the box: 144 at (0, 0), reached by the sides of neither.
    expect(boxVerticalGap(box(-4, -2), face)).toEqual({ least: 3, greatest: 5, at: [0, 0, 141] });
    expect(boxVerticalGap(box(-4.001, -2), face)).toBeUndefined();
  });
});
