import { Line3, ShapeUtils, Vector2, Vector3 } from "three";
import { ExtendedTriangle } from "three-mesh-bvh";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { makeScene } from "../../src/check/scene.ts";
import { elevationAt } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { area as areaOf, signedArea } from "../../src/geometry/polygon.ts";
import { type Pair, triangulate, triangulationFaults } from "../../src/geometry/triangulation.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { box, inch, inchJob, roof, run, tag } from "../check/inch-job.ts";
import { seeded } from "../geometry/random-scenes.ts";

/*
 * Decks through random spots, folded along random lines, against the closest points of an independent library (three-mesh-bvh, 64-bit here), the
 * whole way from the job to the least distance of a finding. Exact there: within 1e-6 in.
 */
const SEED = 83;
const WITHIN = 1e-6;
const R = 0.461;

interface Case {
  readonly points: readonly Point3[];
  readonly lines: readonly Pair[];
  readonly area: Area;
}

/** Spots about a middle, some lines between them that do not cross, and as the outline their hull or a star well inside it. */
function randomCase(random: () => number, far: number, inside: boolean): Case {
  const count = 5 + Math.floor(random() * 14);
  const points = Array.from({ length: count }, (): Point3 => {
    const [x, y] = [far + 600 * random(), -far + 600 * random()];
    return [Math.round(x * 64) / 64, Math.round(y * 64) / 64, Math.round((140 + 40 * random()) * 64) / 64];
  });
  const plan = points.map(([x, y]): Point2 => [x, y]);
  const lines: Pair[] = [];
  for (let i = 0; i < 12; i++) {
    const line: Pair = [Math.floor(random() * count), Math.floor(random() * count)];
    if (triangulationFaults(plan, [...lines, line], 0.125).length === 0) lines.push(line);
  }
  if (triangulationFaults(plan, lines, 0.125).length > 0) return randomCase(random, far, inside);
  const { hull, slivers } = triangulate(points, lines, 0.125);
  if (slivers.length > 0) return randomCase(random, far, inside);
  const ring = hull.map((k): [number, number] => [points[k]![0], points[k]![1]]);
  const [mx, my] = [0, 1].map((k) => ring.reduce((sum, p) => sum + p[k]!, 0) / ring.length) as [number, number];
  // Every other corner farther in: concave, and across the folds.
  const drawn = ring.map(([x, y], i): [number, number] => {
    const t = i % 2 === 0 ? 0.35 : 0.9;
    return [mx + (x - mx) * t, my + (y - my) * t];
  });
  const plain = roof(0);
  const area: Area = {
    ...plain,
    outline: inside ? drawn : ring,
    elevation: {
      ...plain.elevation,
      shape: {
        is: "spots",
        spots: points.map(([x, y, z]) => ({ at: [x, y], elevation: inch(z) })),
        ...(lines.length > 0
          ? { lines: lines.map(([a, b]) => ({ between: [a + 1, b + 1] as const, kind: "edge" as const })) }
          : {}),
      },
    },
  };
  return { points, lines, area };
}

const jobOf = (area: Area, elements: Record<string, Element>): Job => ({ ...inchJob(), areas: { a: area }, elements });
const vector = ([x, y, z]: Point3) => new Vector3(x, y, z);

/** The library's triangles: those between the spots as they are, or where the outline cuts them the cut faces, cut up by three. */
function trianglesOf({ points, lines, area }: Case, inside: boolean): ExtendedTriangle[] {
  const corner = (k: number) => vector(points[k]!);
  if (!inside)
    return triangulate(points, lines, 0.125).triangles.map(
      ([a, b, c]) => new ExtendedTriangle(corner(a), corner(b), corner(c)),
    );
  const [deck] = makeScene(jobOf(area, {})).frame("v1").areas;
  return deck!.faces.flatMap(({ polygon: { outline, holes }, plane }) => {
    expect(holes).toEqual([]);
    const ring = signedArea(outline) < 0 ? [...outline].reverse() : outline;
    const at = ring.map(([x, y]) => new Vector3(x, y, elevationAt(plane, [x, y])));
    const triples = ShapeUtils.triangulateShape(
      ring.map(([x, y]) => new Vector2(x, y)),
      [],
    ) as [number, number, number][];
    return triples.map(([i, j, k]) => new ExtendedTriangle(at[i]!, at[j]!, at[k]!));
  });
}

describe(`decks through random spots (seed ${SEED})`, () => {
  it.each([
    ["over their hull", false, 0],
    ["over their hull, far from the origin", false, 9000],
    ["within an outline that cuts their triangles", true, 0],
  ] as const)("agree on least distances, %s", (_, inside, far) => {
    const random = seeded(SEED + far + (inside ? 1 : 0));
    let compared = 0;
    for (let n = 0; n < 40; n++) {
      const one = randomCase(random, far, inside);
      const [deck] = makeScene(jobOf(one.area, {})).frame("v1").areas;
      // The faces fill the outline, no more and no less.
      const covered = deck!.faces.reduce((sum, { polygon }) => sum + areaOf(polygon), 0);
      expect(covered / areaOf(deck!.polygon)).toBeCloseTo(1, 9);
      const triangles = trianglesOf(one, inside);
      const ends = Array.from({ length: 12 }, (): [Point3, Point3] => {
        const spread = inside ? 240 : 600;
        const place = (): Point3 => [
          far + 300 + spread * (random() - 0.5),
          -far + 300 + spread * (random() - 0.5),
          100 + 50 * random(),
        ];
        return [place(), place()];
      });
      const elements = Object.fromEntries(ends.map(([p, q], i) => [`r${i}`, { ...run([p, q]), label: `R-${i}` }]));
      const { findings } = checkJob(jobOf(one.area, elements));
      for (const [i, [p, q]] of ends.entries()) {
        const own = findings.filter(({ elementId, leastIn }) => elementId === `r${i}` && leastIn !== null);
        const least = Math.min(...own.map(({ leastIn }) => leastIn!));
        // Where the axis comes above the deck our distance has a sign, and the library's has none.
        if (!Number.isFinite(least) || least < -R) continue;
        const segment = new Line3(vector(p), vector(q));
        const theirs = Math.min(...triangles.map((each) => each.closestPointToSegment(segment)));
        expect(Math.abs(theirs - R - least), `case ${n}, run ${i}`).toBeLessThan(WITHIN);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  it("lie over boxes and runs no lower for being given in another order, from another side", () => {
    const random = seeded(SEED + 7);
    for (let n = 0; n < 25; n++) {
      const { area } = randomCase(random, 0, n % 2 === 0);
      const places = Array.from({ length: 6 }, () => [600 * random(), 600 * random(), 100 + 60 * random()] as const);
      const elements = Object.fromEntries(
        places.flatMap(([x, y, z], i): [string, Element][] => [
          [`b${i}`, { ...box(x, y, tag(z, "top")), label: `B-${i}` }],
          [
            `r${i}`,
            {
              ...run([
                [x, y, z],
                [600 - x, y, z + 5],
              ]),
              label: `R-${i}`,
            },
          ],
        ]),
      );
      const said = (job: Job, decimals: number) =>
        checkJob(job).findings.map(({ element, verdict, leastIn, verticalIn }) => [
          element,
          verdict,
          leastIn === null ? null : Number(leastIn.toFixed(decimals)),
          verticalIn === null ? null : Number(verticalIn.toFixed(decimals)),
        ]);
      const shape = area.elevation.shape;
      if (shape.is !== "spots") throw new Error("no spots");
      const order = shape.spots.map((_, i) => i).sort((a, b) => Math.sin(a * 7 + n) - Math.sin(b * 7 + n));
      const other = order.map((_, i) => order.indexOf(i) + 1);
      const lines = (shape.lines ?? []).map(({ between: [a, b], kind }) => ({
        between: [other[b - 1]!, other[a - 1]!] as const,
        kind,
      }));
      const shuffled: Area = {
        ...area,
        outline: [...area.outline.slice(2), ...area.outline.slice(0, 2)].reverse(),
        elevation: {
          ...area.elevation,
          shape: {
            is: "spots",
            spots: order.map((k) => shape.spots[k]!),
            ...(lines.length > 0 ? { lines: [...lines].reverse() } : {}),
          },
        },
      };
      expect(said(jobOf(shuffled, elements), 6)).toEqual(said(jobOf(area, elements), 6));
      // A quarter turn of everything in plan.
      const turn = <T extends readonly [number, number]>([x, y]: T): [number, number] => [-y, x];
      const turned: Area = {
        ...area,
        outline: area.outline.map(turn),
        elevation: {
          ...area.elevation,
          shape: { ...shape, spots: shape.spots.map((spot) => ({ ...spot, at: turn(spot.at) })) },
        },
      };
      const turnedElements = Object.fromEntries(
        Object.entries(elements).map(([id, element]): [string, Element] => [
          id,
          "vertices" in element
            ? { ...element, vertices: element.vertices.map((v) => ({ ...v, at: turn(v.at) })) }
            : element.kind === "box"
              ? { ...element, at: turn(element.at), rotationDeg: 90 }
              : element,
        ]),
      );
      expect(said(jobOf(turned, turnedElements), 6)).toEqual(said(jobOf(area, elements), 6));
    }
  });
});
