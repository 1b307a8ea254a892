import { describe, expect, it } from "vitest";
import { type Bar, barCorners, makeBar } from "../../src/geometry/bar.ts";
import { barVerticalGap } from "../../src/geometry/bar-clearance.ts";
import { makeFace } from "../../src/geometry/face.ts";
import { overlap } from "../../src/geometry/overlap.ts";
import { elevationAt, planeThrough } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import type { Polygon } from "../../src/geometry/polygon.ts";
import { inches } from "../../src/units/quantity.ts";
import { randomFace, randomSegment, seeded } from "./random-scenes.ts";

const SEED = 47;
const SIDES = [
  [0, 1, 2, 3],
  [4, 5, 6, 7],
  [0, 1, 5, 4],
  [1, 2, 6, 5],
  [2, 3, 7, 6],
  [3, 0, 4, 7],
] as const;

/** The sides of a bar that are not upright: their outline in plan, and their elevation there. */
function sidesOf(bar: Bar): { outline: Point2[]; at: (p: Point2) => number }[] {
  const corners = barCorners(bar);
  return SIDES.flatMap((side) => {
    const [a, b, c, d] = side.map((k) => corners[k]!) as [Point3, Point3, Point3, Point3];
    const plane = planeThrough(a, b, c);
    if (!plane || Math.hypot(plane.gx, plane.gy) > 1e4) return [];
    return [{ outline: [a, b, c, d].map(([x, y]): Point2 => [x, y]), at: (p: Point2) => elevationAt(plane, p) }];
  });
}

/** The gap is linear over what a side and the deck share, which polyclip-ts finds: the least lies at one of its corners. */
function leastBySides(bar: Bar, polygon: Polygon, deck: (p: Point2) => number): number {
  const gaps = sidesOf(bar).flatMap(({ outline, at }) =>
    overlap(polygon, { outline, holes: [] }).polygons.flatMap((piece) =>
      [piece.outline, ...piece.holes].flat().map((p) => deck(p) - at(p)),
    ),
  );
  return Math.min(Infinity, ...gaps);
}

describe("the least vertical gap between a bar and a deck", () => {
  it(`is at corners of what polyclip-ts finds a side and the deck to share (seed ${SEED})`, () => {
    const random = seeded(SEED);
    let [none, some] = [0, 0];
    for (let n = 0; n < 240; n++) {
      const [x, y] = n % 3 === 0 ? [900, -400] : [0, 0];
      const face = randomFace(random, x, y);
      const [p, q] = randomSegment(random, x, y);
      const [cx, cy] = face.polygon.outline[n % face.polygon.outline.length]!;
      // By turns anywhere; short and level or rising about a corner of the deck; upright there.
      const near = (): Point3 => [cx + 16 * (random() - 0.5), cy + 16 * (random() - 0.5), 120 + 16 * random()];
      const at = near();
      const ends: [Point3, Point3] =
        n % 4 === 0 ? [p, q] : n % 4 === 3 ? [at, [at[0], at[1], at[2] + 9]] : [at, near()];
      const bar = makeBar(...ends, inches(1 + 5 * random()), inches(1 + 5 * random()), [
        random() - 0.5,
        random() - 0.5,
      ]);
      const expected = leastBySides(bar, face.polygon, (place) => elevationAt(face.plane, place));
      const gap = barVerticalGap(bar, face);
      if (gap === undefined) none++;
      else some++;
      expect(gap?.least ?? Infinity, `${n}`).toBeCloseTo(expected, 5);
      if (!gap) continue;
      expect(elevationAt(face.plane, [gap.at[0], gap.at[1]]) - gap.at[2], `${n}`).toBeCloseTo(gap.least, 6);
    }
    expect(none).toBeGreaterThan(15);
    expect(some).toBeGreaterThan(120);
  });

  it("is at the corner of a deck that points in over the end of an upright bar: 11 in. by hand", () => {
    // The deck rises 1 in 1 from 101 at its corner, 1 in. from the axis; the bar, 6 x 4, ends at 90.
    const spike: Point2[] = [
      [1, 0],
      [50, -40],
      [50, 40],
    ];
    const face = makeFace({ outline: spike, holes: [] }, { gx: 1, gy: 0, c: inches(100) });
    for (const turn of [
      [1, 0],
      [0, 1],
      [-1, 0],
    ] as Point2[]) {
      const gap = barVerticalGap(makeBar([0, 0, 60], [0, 0, 90], inches(3), inches(2), turn), face)!;
      expect(gap.least).toBeCloseTo(11, 9);
      expect(gap.at.map((n) => Math.round(n * 1e9) / 1e9)).toEqual([1, 0, 90]);
    }
  });
});
