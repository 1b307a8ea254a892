import Module, { type ManifoldToplevel, type SimplePolygon } from "manifold-3d";
import { beforeAll, describe, expect, test } from "vitest";
import { overlap } from "../../src/geometry/overlap.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { area, labelPoint, locate, type Polygon, ringProblems } from "../../src/geometry/polygon.ts";
import { randomPolygon, seeded } from "../geometry/random-scenes.ts";

/* Plan areas against the cross sections of manifold-3d, which clips polygons with another library (Clipper2). */
const seed = 71;
let solid: ManifoldToplevel;

beforeAll(async () => {
  solid = await Module();
  solid.setup();
});

const sectionOf = ({ outline, holes }: Polygon) => {
  const rings = [outline, ...holes].map(
    (ring): SimplePolygon => ring.map(([x, y]: Point2): [number, number] => [x, y]),
  );
  return new solid.CrossSection(rings, "EvenOdd");
};

describe(`plans against manifold-3d (seed ${seed})`, () => {
  test("areas and overlaps of 300 pairs of polygons", () => {
    const random = seeded(seed);
    let [some, none] = [0, 0];
    for (let scene = 0; scene < 300; scene++) {
      const a = randomPolygon(random, 0, 0);
      const b = randomPolygon(random, 300 * (random() - 0.5), 300 * (random() - 0.5));
      const [sa, sb] = [sectionOf(a), sectionOf(b)];
      const both = sa.intersect(sb);
      const shared = overlap(a, b);
      expect(area(a), `scene ${scene}`).toBeCloseTo(sa.area(), 3);
      expect(shared.area, `scene ${scene}`).toBeCloseTo(both.area(), 3);
      expect(overlap(b, a).area).toBeCloseTo(shared.area, 6);
      for (const piece of shared.polygons) {
        const at = labelPoint(piece);
        expect([locate(a, at), locate(b, at)], `scene ${scene}`).toEqual(["inside", "inside"]);
      }
      if (shared.area > 0) some++;
      else none++;
      for (const used of [sa, sb, both]) used.delete();
    }
    expect(some).toBeGreaterThan(50);
    expect(none).toBeGreaterThan(5);
  });

  test("the random polygons are sound, and their labels inside", () => {
    const random = seeded(seed + 1);
    for (let scene = 0; scene < 300; scene++) {
      const polygon = randomPolygon(random, 1e5 * random(), 0);
      for (const ring of [polygon.outline, ...polygon.holes]) expect(ringProblems(ring)).toEqual([]);
      expect(locate(polygon, labelPoint(polygon))).toBe("inside");
    }
  });
});
