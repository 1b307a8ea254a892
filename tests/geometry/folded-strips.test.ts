import { describe, expect, it } from "vitest";
import { foldedFaces } from "../../src/geometry/folded-faces.ts";
import { elevationAt } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { area } from "../../src/geometry/polygon.ts";
import { triangulate } from "../../src/geometry/triangulation.ts";

const NEAR = 1 / 8;
/** A gable along x: 144 at the ridge, 3 in 12 down to both sides. */
const gable = (y: number): number => 144 - 0.25 * Math.abs(y);
const spots: Point3[] = (
  [
    [0, -100],
    [200, -100],
    [200, 100],
    [0, 100],
    [0, 0],
    [200, 0],
  ] as const
).map(([x, y]) => [x, y, gable(y)]);

describe("an outline drawn not quite true to the spots of a folded deck", () => {
  it.each([0, 1e-12, 1e-6, 1 / 16, 0.08])("by %d in. all round has its planes on either side of the fold", (off) => {
    const outline: Point2[] = [
      [-off, -100 - off],
      [200 + off, -100 - off],
      [200 + off, 100 + off],
      [-off, 100 + off],
    ];
    const { within, beyond } = foldedFaces({ outline, holes: [] }, spots, triangulate(spots, [[4, 5]], NEAR), NEAR);
    expect(beyond).toEqual([]);
    const faces = within.flatMap((part) => part.faces);
    for (const { face } of faces)
      for (const [x, y] of face.polygon.outline) {
        expect(Math.abs(elevationAt(face.plane, [x, y]) - gable(y)), `${x}, ${y}`).toBeLessThan(1e-9);
      }
    const covered = faces.reduce((sum, { face }) => sum + area(face.polygon), 0);
    expect(Math.abs(covered - (200 + 2 * off) * (200 + 2 * off))).toBeLessThan(1e-2);
  });

  it.each([
    [1, 0],
    [0, 1],
    [0.6, 0.8],
    [-0.8, 0.6],
  ])(
    "as does a spot a hair inside the line between its neighbours, and none of it is lost (turned by cosine %d, sine %d)",
    (c, s) => {
      const turned = ([x, y]: Point2): Point2 => [c * x - s * y, s * x + c * y];
      for (const hair of [1e-13, 1e-10, 1e-7, 1e-3, 0.1]) {
        const inside = spots.map(([x, y, z]): Point3 => [...turned([x === 0 && y === 0 ? hair : x, y]), z]);
        const outline = inside.slice(0, 4).map(([x, y]): Point2 => [x, y]);
        const { within } = foldedFaces({ outline, holes: [] }, inside, triangulate(inside, [[4, 5]], NEAR), NEAR);
        const faces = within.flatMap((part) => part.faces);
        for (const { face } of faces)
          for (const [u, v] of face.polygon.outline)
            expect(
              Math.abs(elevationAt(face.plane, [u, v]) - gable(c * v - s * u)),
              `${hair}: ${u}, ${v}`,
            ).toBeLessThan(1e-9);
        const covered = faces.reduce((sum, { face }) => sum + area(face.polygon), 0);
        expect(Math.abs(covered - 200 * 200), `${hair}`).toBeLessThan(1e-3);
      }
    },
  );
});
