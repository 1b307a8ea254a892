import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import type Geometry from "jsts/org/locationtech/jts/geom/Geometry.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";
import { describe, expect, it } from "vitest";
import { partPolygon } from "../../src/geometry/part-polygon.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { area, locate, type Polygon } from "../../src/geometry/polygon.ts";
import { randomPolygon, seeded } from "../geometry/random-scenes.ts";

/** JSTS (a port of the JTS Topology Suite) parts the same polygons by overlay; areas and points have to agree. */
const factory = new GeometryFactory();
const closed = (ring: readonly Point2[]) =>
  factory.createLinearRing([...ring, ring[0]!].map(([x, y]) => new Coordinate(x, y)));
const jstsOf = ({ outline, holes }: Polygon): Geometry => factory.createPolygon(closed(outline), holes.map(closed));

const SEED = 20261125;
const CASES = 60;

describe("parts of random polygons", () => {
  it(`have the areas that JSTS finds, and hold the same points (seed ${SEED}, ${CASES} cases)`, () => {
    const random = seeded(SEED);
    let points = 0;
    for (let i = 0; i < CASES; i++) {
      const whole = randomPolygon(random, 1000, 500);
      const by = Array.from({ length: 1 + Math.floor(random() * 3) }, () =>
        randomPolygon(random, 1000 + 200 * (random() - 0.5), 500 + 200 * (random() - 0.5)),
      );
      const also = Array.from({ length: Math.floor(random() * 2) }, () => randomPolygon(random, 1050, 520));
      const { first: floors, second: open, rest } = partPolygon(whole, by, also);
      const cover = by.map(jstsOf).reduce((a, b) => OverlayOp.union(a, b));
      const both = also.map(jstsOf).reduce((a, b) => OverlayOp.union(a, b), cover);
      const said = `case ${i}`;
      const sum = (polygons: readonly Polygon[]) => polygons.reduce((total, one) => total + area(one), 0);
      const uncovered = OverlayOp.difference(jstsOf(whole), both).getArea();
      expect(sum(floors), said).toBeCloseTo(OverlayOp.intersection(jstsOf(whole), cover).getArea(), 6);
      expect(sum(rest), said).toBeCloseTo(uncovered, 6);
      expect(sum(open), said).toBeCloseTo(OverlayOp.difference(jstsOf(whole), cover).getArea() - uncovered, 6);
      for (let k = 0; k < 40; k++) {
        const at: Point2 = [1000 + 400 * (random() - 0.5), 500 + 400 * (random() - 0.5)];
        const holds = (polygons: readonly Polygon[]) => polygons.filter((one) => locate(one, at) === "inside").length;
        const inWhole = holds([whole]) > 0;
        const [covered, doubtful] = [holds(by) > 0, holds(also) > 0];
        expect(holds(floors), said).toBe(inWhole && covered ? 1 : 0);
        expect(holds(open), said).toBe(inWhole && doubtful && !covered ? 1 : 0);
        expect(holds(rest), said).toBe(inWhole && !doubtful && !covered ? 1 : 0);
        if (inWhole) points++;
      }
    }
    expect(points).toBeGreaterThan(CASES);
  });
});
