import { type Inches, inches } from "../units/quantity.ts";
import type { Face } from "./face.ts";
import { EDGE_STRIDE, spansInside } from "./plan-edges.ts";
import type { Point3 } from "./point.ts";
import { assertFinite, ENDS_STRIDE, leastSquared, type Nearest, nowhere, readFound, setEnds } from "./segment-face.ts";
import type { OrientedBox } from "./solid.ts";

/** Signs of the corners of a box; corner i and i ^ 1, i ^ 2, i ^ 4 are joined by its edges. */
const CORNERS = [0, 1, 2, 3, 4, 5, 6, 7];
const BOX_EDGES = CORNERS.flatMap((i) => [1, 2, 4].filter((bit) => !(i & bit)).map((bit) => [i, i | bit] as const));

/** An edge of the box, as it is asked about. */
const ends = new Float64Array(ENDS_STRIDE);

/**
 * The least distance between the solid box and the bounded face; 0 when they touch, when the face pierces the box or
 * the box the face, and when one lies within the other. Exact up to rounding. Throws when a coordinate is not finite.
 */
export function boxToFace(box: OrientedBox, face: Face): Nearest {
  assertFinite(box.centre, box.half, box.rotation);
  const corners = cornersOf(box);
  const [ox, oy, oz] = face.origin;
  let best: Nearest | undefined;
  let bound = Number.POSITIVE_INFINITY;
  // Box edges against the face: corners above its inside, edges through it, edges past its edges.
  for (const [i, j] of BOX_EDGES) {
    const p = corners[i]!;
    const q = corners[j]!;
    const square = leastSquared(face, setEnds(ends, p, q), 0, bound);
    if (square >= bound) continue;
    bound = square;
    const { distance, onElement, onFace } = readFound(square, p, q, face);
    best = { distance, onElement, onFace };
    if (square === 0) return best;
  }
  // The face's corners against the sides of the box, and its edges through the box.
  const c = Math.cos(box.rotation);
  const s = Math.sin(box.rotation);
  const [hx, hy, hz] = box.half;
  const mx = box.centre[0] - ox;
  const my = box.centre[1] - oy;
  const mz = box.centre[2] - oz;
  const { edges } = face;
  const outward = (x: number, y: number, z: number): Point3 => [
    c * x - s * y + box.centre[0],
    s * x + c * y + box.centre[1],
    z + box.centre[2],
  ];
  for (let e = 0; e < edges.length; e += EDGE_STRIDE) {
    const ax = c * (edges[e]! - mx) + s * (edges[e + 1]! - my);
    const ay = -s * (edges[e]! - mx) + c * (edges[e + 1]! - my);
    const az = edges[e + 2]! - mz;
    const nx = Math.min(hx, Math.max(-hx, ax));
    const ny = Math.min(hy, Math.max(-hy, ay));
    const nz = Math.min(hz, Math.max(-hz, az));
    const square = (ax - nx) ** 2 + (ay - ny) ** 2 + (az - nz) ** 2;
    if (square < bound) {
      bound = square;
      best = { distance: inches(Math.sqrt(square)), onElement: outward(nx, ny, nz), onFace: outward(ax, ay, az) };
      if (square === 0) return best;
    }
    const dx = c * (edges[e + 3]! - edges[e]!) + s * (edges[e + 4]! - edges[e + 1]!);
    const dy = -s * (edges[e + 3]! - edges[e]!) + c * (edges[e + 4]! - edges[e + 1]!);
    const dz = edges[e + 5]! - edges[e + 2]!;
    const t = firstWithin(ax, ay, az, dx, dy, dz, hx, hy, hz);
    if (t !== undefined) {
      const at = outward(ax + t * dx, ay + t * dy, az + t * dz);
      return { distance: inches(0), onElement: at, onFace: at };
    }
  }
  return best ?? nowhere(box.centre);
}

/** The least t in [0, 1] for which a + t d lies in the box about the origin with these half sizes, or undefined. */
function firstWithin(
  ax: number,
  ay: number,
  az: number,
  dx: number,
  dy: number,
  dz: number,
  hx: number,
  hy: number,
  hz: number,
): number | undefined {
  let from = 0;
  let to = 1;
  const start = [ax, ay, az];
  const step = [dx, dy, dz];
  const half = [hx, hy, hz];
  for (let k = 0; k < 3; k++) {
    const d = step[k]!;
    const a = start[k]!;
    const h = half[k]!;
    if (d === 0) {
      if (a < -h || a > h) return undefined;
      continue;
    }
    from = Math.max(from, Math.min((-h - a) / d, (h - a) / d));
    to = Math.min(to, Math.max((-h - a) / d, (h - a) / d));
  }
  return from <= to ? from : undefined;
}

/** The eight corners in building space; bits 1, 2, 4 of the position choose the far side along x, y, z. */
function cornersOf({ centre, half, rotation }: OrientedBox): Point3[] {
  const c = Math.cos(rotation);
  const s = Math.sin(rotation);
  return CORNERS.map((i) => {
    const x = i & 1 ? half[0] : -half[0];
    const y = i & 2 ? half[1] : -half[1];
    const z = i & 4 ? half[2] : -half[2];
    return [centre[0] + c * x - s * y, centre[1] + s * x + c * y, centre[2] + z];
  });
}

/**
 * Signed vertical gaps over the part of the box inside the face's plan: `least` from the box's top, `greatest` from
 * its bottom, both deck minus box (positive below the deck); `at` is the point of the top that has the least. Undefined when no part of
 * the box is inside the plan. Throws when a coordinate is not finite.
 */
export function boxVerticalGap(
  box: OrientedBox,
  face: Face,
): { readonly least: Inches; readonly greatest: Inches; readonly at: Point3 } | undefined {
  assertFinite(box.centre, box.half, box.rotation);
  const [ox, oy, oz] = face.origin;
  const { gx, gy } = face.plane;
  const { edges } = face;
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  let at: Point3 = box.centre;
  // A linear function over the shared part of two polygons has its extremes at corners of that part.
  const corner = (x: number, y: number) => {
    const deck = gx * x + gy * y + face.lift + oz - box.centre[2];
    if (deck - box.half[2] < least) {
      least = deck - box.half[2];
      at = [x + ox, y + oy, box.centre[2] + box.half[2]];
    }
    greatest = Math.max(greatest, deck + box.half[2]);
  };
  const plan = [0, 1, 3, 2].map((i) => cornersOf(box)[i]!).map(([x, y]) => [x - ox, y - oy] as const);
  for (let i = 0; i < 4; i++) {
    const [ax, ay] = plan[i]!;
    const [bx, by] = plan[(i + 1) % 4]!;
    for (const [from, to] of spansInside(edges, ax, ay, bx, by)) {
      corner(ax + from * (bx - ax), ay + from * (by - ay));
      corner(ax + to * (bx - ax), ay + to * (by - ay));
    }
  }
  const c = Math.cos(box.rotation);
  const s = Math.sin(box.rotation);
  const mx = box.centre[0] - ox;
  const my = box.centre[1] - oy;
  for (let e = 0; e < edges.length; e += EDGE_STRIDE) {
    const ax = c * (edges[e]! - mx) + s * (edges[e + 1]! - my);
    const ay = -s * (edges[e]! - mx) + c * (edges[e + 1]! - my);
    if (Math.abs(ax) <= box.half[0] && Math.abs(ay) <= box.half[1]) corner(edges[e]!, edges[e + 1]!);
  }
  return least <= greatest ? { least: inches(least), greatest: inches(greatest), at } : undefined;
}
