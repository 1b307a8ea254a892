import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boxToFace, boxVerticalGap, nearStretches, segmentToFace, verticalGaps } from "../../src/geometry/clearance.ts";
import { type Face, makeFace } from "../../src/geometry/face.ts";
import type { IntervalSet } from "../../src/geometry/interval-set.ts";
import { elevationAt, planeFromSlope } from "../../src/geometry/plane.ts";
import { distance3, type Point2, type Point3 } from "../../src/geometry/point.ts";
import { locate, type Polygon, segmentInside } from "../../src/geometry/polygon.ts";
import { applyTo, type Similarity } from "../../src/geometry/similarity.ts";
import { isCloserThan } from "../../src/geometry/tolerance.ts";
import { type Inches, inches, radians } from "../../src/units/quantity.ts";
import { evenly } from "../geometry/evenly.ts";
import { pointAt, pointToFace, sampledDistance } from "../geometry/plain-twin.ts";
import { randomBox, randomFace, randomPolygon, randomSegment, seeded } from "../geometry/random-scenes.ts";

/** A scene is a number that seeds its own shapes, so that a failure names one small number. */
const anyScene = fc.integer({ min: 0, max: 2 ** 22 });
const seed = 32;
const settings = (numRuns: number) => ({ numRuns, seed });

/** A plane spun and shifted in plan, and raised; the plan mirrored in x first when asked. */
interface Move {
  readonly sim: Similarity;
  readonly rise: number;
  readonly mirror: boolean;
}
const anyMove: fc.Arbitrary<Move> = fc.record({
  sim: fc.record({
    scale: fc.constant(1),
    angle: evenly(-3, 3).map(radians),
    dx: evenly(-1e5, 1e5),
    dy: evenly(-1e5, 1e5),
  }),
  rise: evenly(-1000, 1000),
  mirror: fc.boolean(),
});
const plan = ({ sim, mirror }: Move, [x, y]: Point2): Point2 => applyTo(sim, [mirror ? -x : x, y]);
const space = (move: Move, [x, y, z]: Point3): Point3 => [...plan(move, [x, y]), z + move.rise];
function moved(move: Move, { polygon, plane }: Face): Face {
  const map = (p: Point2) => plan(move, p);
  const from = polygon.outline[0]!;
  const uphill = plan({ ...move, sim: { ...move.sim, dx: 0, dy: 0 } }, [plane.gx, plane.gy]);
  const slope = Math.hypot(plane.gx, plane.gy);
  const z = inches(elevationAt(plane, from) + move.rise);
  return makeFace(
    { outline: polygon.outline.map(map), holes: polygon.holes.map((hole) => hole.map(map)) },
    planeFromSlope(map(from), z, slope, [-uphill[0], -uphill[1]]),
  );
}

const has = (set: IntervalSet, t: number) => set.some(([from, to]) => from <= t && t <= to);

describe(`distance from segment to face (seed ${seed})`, () => {
  test("lies between the bounds that samples give", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const random = seeded(scene);
        const face = randomFace(random);
        const [p, q] = randomSegment(random);
        const [low, high] = sampledDistance(p, q, face);
        const { distance } = segmentToFace(p, q, face);
        expect(distance).toBeGreaterThanOrEqual(low - 1e-9);
        expect(distance).toBeLessThanOrEqual(high + 1e-9);
      }),
      settings(400),
    );
  });

  test("is reached by the pair of points it names, on the segment and on the face", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const random = seeded(scene);
        const face = randomFace(random);
        const [p, q] = randomSegment(random);
        const { distance, onElement, onFace, t } = segmentToFace(p, q, face);
        expect(Math.abs(distance3(onElement, onFace) - distance)).toBeLessThan(1e-9);
        expect(distance3(onElement, pointAt(p, q, t!))).toBeLessThan(1e-9);
        expect(pointToFace(onFace, face)).toBeLessThan(1e-5);
      }),
      settings(400),
    );
  });

  test("does not depend on place, turn, mirroring, or which end comes first", () => {
    fc.assert(
      fc.property(anyScene, anyMove, (scene, move) => {
        const random = seeded(scene);
        const face = randomFace(random);
        const [p, q] = randomSegment(random);
        const box = randomBox(random);
        const there = moved(move, face);
        const { distance } = segmentToFace(p, q, face);
        expect(Math.abs(segmentToFace(space(move, p), space(move, q), there).distance - distance)).toBeLessThan(1e-8);
        expect(Math.abs(segmentToFace(q, p, face).distance - distance)).toBeLessThan(1e-10);
        const turn = move.mirror ? -box.rotation : box.rotation;
        const boxThere = { ...box, centre: space(move, box.centre), rotation: radians(turn + move.sim.angle) };
        expect(Math.abs(boxToFace(boxThere, there).distance - boxToFace(box, face).distance)).toBeLessThan(1e-8);
      }),
      settings(400),
    );
  });

  test("two halves of a run are as near as the whole", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const random = seeded(scene);
        const face = randomFace(random);
        const [p, q] = randomSegment(random);
        const middle = pointAt(p, q, random());
        const halves = [segmentToFace(p, middle, face).distance, segmentToFace(middle, q, face).distance];
        expect(Math.abs(Math.min(...halves) - segmentToFace(p, q, face).distance)).toBeLessThan(1e-9);
      }),
      settings(400),
    );
  });
});

describe(`stretches too near (seed ${seed})`, () => {
  test("hold what is surely near, and nothing that is surely not", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const random = seeded(scene);
        const face = randomFace(random);
        const [p, q] = randomSegment(random);
        const { distance } = segmentToFace(p, q, face);
        const reach = inches(distance + 30 * (random() - 0.2));
        const near = nearStretches(p, q, face, reach);
        for (const [from, to] of near) {
          expect(from).toBeGreaterThanOrEqual(0);
          expect(to).toBeLessThanOrEqual(1);
        }
        const samples = [...Array.from({ length: 101 }, (_, i) => i / 100), ...near.flat()];
        for (const t of samples) {
          const d = pointToFace(pointAt(p, q, t), face);
          if (d < reach - 1e-5) expect(has(near, t)).toBe(true);
          if (d > reach + 1e-5) expect(has(near, t)).toBe(false);
        }
      }),
      settings(400),
    );
  });

  test("are there exactly when the least distance is too small, also right at the limit", () => {
    fc.assert(
      fc.property(
        anyScene,
        fc.constantFrom(0, 1e-12, 5e-8, 9.9e-8, 1e-7, 1e-7 + 1e-15, 1e-7 + 1e-14, 1.01e-7, 2e-7, 1),
        (scene, step) => {
          const random = seeded(scene);
          const face = randomFace(random);
          const [p, q] = randomSegment(random);
          const { distance } = segmentToFace(p, q, face);
          const reach = inches(distance + step);
          const near = nearStretches(p, q, face, reach);
          expect(near.length > 0).toBe(isCloserThan(distance, reach));
          if (Math.abs(step - 1e-7) > 1e-12) expect(near.length > 0).toBe(step > 1e-7);
        },
      ),
      settings(600),
    );
  });

  test("grow with the reach", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const random = seeded(scene);
        const face = randomFace(random);
        const [p, q] = randomSegment(random);
        const reach = (r: number): Inches => inches(segmentToFace(p, q, face).distance + r);
        const wide = nearStretches(p, q, face, reach(10));
        for (const [from, to] of nearStretches(p, q, face, reach(5))) {
          expect(wide.some(([f, t]) => f <= from + 1e-12 && to <= t + 1e-12)).toBe(true);
        }
      }),
      settings(200),
    );
  });
});

describe(`vertical gaps (seed ${seed})`, () => {
  test("are the deck less the axis, and are there where the plan is", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const random = seeded(scene);
        const face = randomFace(random);
        const [p, q] = randomSegment(random);
        const gaps = verticalGaps(p, q, face);
        for (let i = 0; i <= 50; i++) {
          const t = (i + 0.37) / 51;
          const [x, y, z] = pointAt(p, q, t);
          const part = gaps.find(({ from, to }) => from <= t && t <= to);
          if (locate(face.polygon, [x, y]) !== "inside") {
            const near = gaps.some(({ from, to }) => Math.abs(from - t) < 1e-9 || Math.abs(to - t) < 1e-9);
            expect(part === undefined || near).toBe(true);
            continue;
          }
          expect(part).toBeDefined();
          const share = (t - part!.from) / (part!.to - part!.from);
          const gap = part!.gapFrom + share * (part!.gapTo - part!.gapFrom);
          expect(Math.abs(gap - (elevationAt(face.plane, [x, y]) - z))).toBeLessThan(1e-8);
        }
      }),
      settings(300),
    );
  });

  test("perpendicular under the middle of a slope is vertical times the cosine", () => {
    fc.assert(
      fc.property(evenly(0, 1), evenly(0, 5), (slope, gap) => {
        const wide: Polygon = {
          outline: [
            [-99, -99],
            [99, -99],
            [99, 99],
            [-99, 99],
          ],
          holes: [],
        };
        const face = makeFace(wide, planeFromSlope([0, 0], inches(144), slope, [0.6, 0.8]));
        const { distance } = segmentToFace([0, 0, 144 - gap], [0, 0, 144 - gap], face);
        expect(Math.abs(distance - gap * Math.cos(Math.atan(slope)))).toBeLessThan(1e-11);
      }),
      settings(300),
    );
  });
});

describe(`boxes (seed ${seed})`, () => {
  /** Points spread over the solid box, its corners and sides among them. */
  const pointsOf = ({ centre, half, rotation }: ReturnType<typeof randomBox>, n: number): Point3[] => {
    const steps = Array.from({ length: n + 1 }, (_, i) => (2 * i) / n - 1);
    const [c, s] = [Math.cos(rotation), Math.sin(rotation)];
    return steps.flatMap((i) =>
      steps.flatMap((j) =>
        steps.map((k): Point3 => {
          const [x, y] = [i * half[0], j * half[1]];
          return [centre[0] + c * x - s * y, centre[1] + s * x + c * y, centre[2] + k * half[2]];
        }),
      ),
    );
  };

  test("are as near as their nearest points", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const random = seeded(scene);
        const face = randomFace(random);
        const box = randomBox(random);
        const n = 6;
        const high = Math.min(...pointsOf(box, n).map((p) => pointToFace(p, face)));
        const { distance, onElement, onFace } = boxToFace(box, face);
        expect(distance).toBeLessThanOrEqual(high + 1e-9);
        expect(distance).toBeGreaterThanOrEqual(high - Math.hypot(...box.half) / n - 1e-9);
        expect(Math.abs(distance3(onElement, onFace) - distance)).toBeLessThan(1e-9);
        expect(pointToFace(onFace, face)).toBeLessThan(1e-5);
      }),
      settings(200),
    );
  });

  test("have the vertical gaps of their points inside the plan", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const random = seeded(scene);
        const face = randomFace(random);
        const box = randomBox(random);
        const inside = pointsOf(box, 12).filter(([x, y]) => locate(face.polygon, [x, y]) === "inside");
        const gap = boxVerticalGap(box, face);
        const seen = inside.map(([x, y, z]) => elevationAt(face.plane, [x, y]) - z);
        if (seen.length === 0) return;
        expect(gap!.least).toBeLessThanOrEqual(Math.min(...seen) + 1e-9);
        expect(gap!.greatest).toBeGreaterThanOrEqual(Math.max(...seen) - 1e-9);
        // Between samples the gap changes by the deck's slope over their spacing.
        const slack = (Math.hypot(face.plane.gx, face.plane.gy) * 2 * (box.half[0] + box.half[1])) / 12;
        if (inside.length === 13 ** 3) {
          expect(gap!.least).toBeGreaterThanOrEqual(Math.min(...seen) - slack - 1e-9);
          expect(gap!.greatest).toBeLessThanOrEqual(Math.max(...seen) + slack + 1e-9);
        }
      }),
      settings(150),
    );
  });
});

test(`the inside of a polygon along a segment is where its points are inside (seed ${seed})`, () => {
  fc.assert(
    fc.property(anyScene, (scene) => {
      const random = seeded(scene);
      const polygon = randomPolygon(random, 0, 0);
      const end = (): Point2 =>
        random() < 0.3
          ? polygon.outline[Math.floor(random() * polygon.outline.length)]!
          : [400 * (random() - 0.5), 400 * (random() - 0.5)];
      const [a, b] = [end(), end()];
      const spans = segmentInside(polygon, a, b);
      for (let i = 0; i < 60; i++) {
        const t = random();
        const edgeNear = spans.some(([from, to]) => Math.abs(from - t) < 1e-9 || Math.abs(to - t) < 1e-9);
        if (edgeNear) continue;
        const where = locate(polygon, [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
        // Along an edge rounding puts points on either side of it, and the spans hold them all.
        if (where === "inside") expect(has(spans, t)).toBe(true);
        else if (!polygon.outline.includes(a) || !polygon.outline.includes(b)) expect(has(spans, t)).toBe(false);
      }
    }),
    settings(400),
  );
});
