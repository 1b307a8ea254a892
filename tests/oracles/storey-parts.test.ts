import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import type Geometry from "jsts/org/locationtech/jts/geom/Geometry.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import type JstsPolygon from "jsts/org/locationtech/jts/geom/Polygon.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";
import { expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import type { Polygon } from "../../src/geometry/polygon.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { box, inch, inchJob, roof, run, tag } from "../check/inch-job.ts";
import { randomPolygon, seeded } from "../geometry/random-scenes.ts";

/**
 * An area that follows from the outline of a storey above has to come to what a person would get who draws the roof and the floor as two
 * areas. JSTS (a port of the JTS Topology Suite) does that drawing.
 */
const factory = new GeometryFactory();
const closed = (ring: readonly Point2[]) =>
  factory.createLinearRing([...ring, ring[0]!].map(([x, y]) => new Coordinate(x, y)));
const jstsOf = ({ outline, holes }: Polygon): Geometry => factory.createPolygon(closed(outline), holes.map(closed));
const ringOf = (ring: { getCoordinates(): Coordinate[] }): [number, number][] =>
  ring
    .getCoordinates()
    .slice(0, -1)
    .map(({ x, y }): [number, number] => [x, y]);

/** The polygons of a geometry, each as an area of its own; pieces of next to no size are rounding. */
function areasOf(geometry: Geometry, name: string, is: "roof" | "floor-above"): Record<string, Area> {
  const areas: Record<string, Area> = {};
  for (let i = 0; i < geometry.getNumGeometries(); i++) {
    const polygon = geometry.getGeometryN(i) as unknown as JstsPolygon;
    if (!(polygon.getArea() > 1e-6)) continue;
    areas[`${name}-${i}`] = roof(144, {
      label: `${name}-${i}`,
      outline: ringOf(polygon.getExteriorRing()),
      holes: Array.from({ length: polygon.getNumInteriorRing() }, (_, k) => ringOf(polygon.getInteriorRingN(k))),
      classification: { is, reason: "", by: "" },
    });
  }
  return areas;
}

const SEED = 431;
const CASES = 80;

it(`a parted area comes to what its parts drawn by hand come to (seed ${SEED}, ${CASES} plans)`, () => {
  const random = seeded(SEED);
  const seen: Record<string, number> = {};
  for (let i = 0; i < CASES; i++) {
    const base = inchJob();
    const { job: settings } = base.settings;
    const plan = random() < 0.5 ? 0 : 0.5;
    const job: Job = {
      ...base,
      settings: { job: { ...settings, tolerances: { ...settings.tolerances, plan: inch(plan) } } },
    };
    const deck = randomPolygon(random, 500, 500);
    const above = randomPolygon(random, 500 + 200 * (random() - 0.5), 500 + 200 * (random() - 0.5));
    const elements: Record<string, Element> = {};
    for (let k = 0; k < 8; k++) {
      const at = (): Point2 => [500 + 260 * (random() - 0.5), 500 + 260 * (random() - 0.5)];
      const [p, q] = [at(), at()];
      const z = random() < 0.6 ? 142 + 2 * random() : 120;
      elements[`r${k}`] = run(
        [
          [...p, z],
          [...q, z],
        ],
        { label: `R-${k}` },
      );
      elements[`b${k}`] = box(...at(), tag(z, "top"), { label: `B-${k}` });
    }
    const parted: Job = {
      ...job,
      elements,
      storeyOutlines: {
        s: {
          label: "S-1",
          viewport: "v1",
          outline: [...above.outline],
          holes: above.holes.map((hole) => [...hole]),
          above: { is: "occupied-storey" },
          reason: "",
          by: "",
        },
      },
      areas: {
        a: roof(144, {
          outline: [...deck.outline],
          holes: deck.holes.map((hole) => [...hole]),
          classification: { is: "from-outline", outlines: ["s"], reason: "", by: "" },
        }),
      },
    };
    const [one, other] = [jstsOf(deck), jstsOf(above)];
    const byHand: Job = {
      ...job,
      elements,
      areas: {
        ...areasOf(OverlayOp.difference(one, other), "roof", "roof"),
        ...areasOf(OverlayOp.intersection(one, other), "floor", "floor-above"),
      },
    };
    const told = (one: Job) =>
      checkJob(one)
        .findings.map(({ element, verdict, leastIn, stretches }) => ({
          element,
          verdict,
          leastIn: leastIn === null ? null : Number(leastIn.toFixed(5)),
          length: Number(stretches.reduce((sum, { fromIn, toIn }) => sum + toIn - fromIn, 0).toFixed(3)),
        }))
        .toSorted((a, b) => (a.element + a.verdict < b.element + b.verdict ? -1 : 1));
    const found = told(parted);
    expect(found, `plan ${i}`).toEqual(told(byHand));
    for (const { verdict } of found) seen[verdict] = (seen[verdict] ?? 0) + 1;
  }
  for (const verdict of ["too-close", "clear", "not-governed", "borderline", "cannot-tell"])
    expect(seen[verdict] ?? 0, verdict).toBeGreaterThan(2);
});
