import { coreOf, planEdges } from "./plan-edges.ts";
import { elevationAt, type Plane } from "./plane.ts";
import type { Point3 } from "./point.ts";
import { boundingBox, type Polygon, type Ring } from "./polygon.ts";
import type { Box3 } from "./solid.ts";

/**
 * A bounded planar deck face: the part of a plane above the inside of a plan polygon. Building space, inches.
 * Make it with `makeFace`; what follows `plane` is precomputed for the distance functions.
 */
export interface Face {
  readonly polygon: Polygon;
  readonly plane: Plane;
  /** The box along the axes that just holds the face. */
  readonly box: Box3;
  /** A point near the face; all edges are kept relative to it, so plans far from the project's origin lose no digits. */
  readonly origin: Point3;
  /** Elevation of the plane at `origin`'s plan point, relative to `origin`. */
  readonly lift: number;
  /** Length of (gx, gy, -1): a vertical gap divided by it is a perpendicular distance. */
  readonly steepness: number;
  /** The edges of all rings as `planEdges` lays them out, relative to `origin`. */
  readonly edges: Float64Array;
  /** A rectangle inside the edges, or an empty one, as `coreOf` gives it. */
  readonly core: Float64Array;
  /** What is asked first of every face, side by side where it is quickly read; positions are those of `AT`. */
  readonly numbers: Float64Array;
}

/** How many there are, so that those of many faces can stand side by side as well: `row` then says where those of one begin. */
export const FACE_NUMBERS = 11;

/** Where in a face's `numbers` its origin, its plane relative to that, the square of its steepness and its core begin. */
export const AT = { origin: 0, gx: 3, gy: 4, lift: 5, steep2: 6, core: 7 } as const;

/**
 * A face from its plan and its plane. Rings may run either way; where rings cross, inside is counted even-odd. A
 * repeated point does no harm; whether a polygon is fit for use is `ringProblems`' question. Throws when a coordinate of
 * the polygon or the plane is not finite: no distance to such a face could be told.
 */
export function makeFace(polygon: Polygon, plane: Plane): Face {
  const rings = [polygon.outline, ...polygon.holes];
  if (!Number.isFinite(plane.gx + plane.gy + plane.c) || !rings.every(isFiniteRing))
    throw new RangeError("a coordinate of a face is not finite");
  const plan = boundingBox(polygon.outline);
  const ox = (plan.min[0] + plan.max[0]) / 2;
  const oy = (plan.min[1] + plan.max[1]) / 2;
  const z = elevationAt(plane, [ox, oy]);
  const oz = Math.round(z);
  const lift = z - oz;
  const edges = planEdges(rings, ox, oy, plane.gx, plane.gy, lift);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const at of polygon.outline) {
    const corner = plane.gx * (at[0] - ox) + plane.gy * (at[1] - oy) + lift;
    low = Math.min(low, corner);
    high = Math.max(high, corner);
  }
  const steepness = Math.sqrt(1 + plane.gx * plane.gx + plane.gy * plane.gy);
  const core = coreOf(rings, ox, oy);
  return {
    polygon,
    plane,
    box: { min: [plan.min[0], plan.min[1], oz + low], max: [plan.max[0], plan.max[1], oz + high] },
    origin: [ox, oy, oz],
    lift,
    steepness,
    edges,
    core,
    numbers: Float64Array.of(ox, oy, oz, plane.gx, plane.gy, lift, steepness * steepness, ...core),
  };
}

function isFiniteRing(ring: Ring): boolean {
  for (const at of ring) if (!Number.isFinite(at[0] + at[1])) return false;
  return true;
}

/** The numbers of many faces, one after the other. */
export function faceTable(faces: readonly Face[]): Float64Array {
  const table = new Float64Array(faces.length * FACE_NUMBERS);
  faces.forEach(({ numbers }, n) => {
    table.set(numbers, n * FACE_NUMBERS);
  });
  return table;
}
