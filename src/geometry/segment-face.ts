import { type Inches, inches } from "../units/quantity.ts";
import { AT, type Face } from "./face.ts";
import { EDGE_STRIDE, insideEdges, isInCore } from "./plan-edges.ts";
import { lerp3, type Point3 } from "./point.ts";

/** The least distance between an element and a face, and a pair of points that has it. Building space, inches. */
export interface Nearest {
  /** Infinite for a face without corners. Has no sign: `verticalGaps` tells above from below. */
  readonly distance: Inches;
  readonly onElement: Point3;
  readonly onFace: Point3;
  /** Where along a segment, 0 at p to 1 at q; absent for boxes. */
  readonly t?: number;
}

/** The nearest of a segment, which always says where along it. */
export type SegmentNearest = Nearest & { readonly t: number };

/** What is asked: both ends p and q relative to the face's origin, and the bound. */
const asked = new Float64Array(7);
/** Where the answer was found: t along the segment, the face's point x y z relative to the face's origin, and the squared distance. */
const found = new Float64Array(5);

/** Numbers of a segment: p x y z, q x y z. */
export const ENDS_STRIDE = 6;

/** Both ends of a segment, as `leastSquared` takes them. */
export function setEnds(ends: Float64Array, p: Point3, q: Point3): Float64Array {
  ends[0] = p[0];
  ends[1] = p[1];
  ends[2] = p[2];
  ends[3] = q[0];
  ends[4] = q[1];
  ends[5] = q[2];
  return ends;
}

/**
 * Squared least distance between the segment p-q and the bounded face, when it is below `bound`; else `bound` itself, and
 * `found` is left alone. The segment is the six numbers of `ends` from position `at` on, so that the segments of a path can share their points. Exact up
 * to rounding: the least distance lies at a crossing, at the perpendicular foot of an end, or at an edge. No memory is taken, as this is the innermost
 * loop: numbers handed over in an array need not be stored one by one, as arguments of a large function are.
 *
 * Feet and crossings are tried against the plan in plain floating point: where that could err, at an edge, the edge
 * itself gives the same distance.
 */
export const leastSquared = (face: Face, ends: Float64Array, at: number, bound: number): number =>
  leastSquaredIn(face.numbers, 0, face, ends, at, bound);

/** The same, where the numbers of the face begin at `row` of a table: for most segments the face itself is not even looked at. */
export function leastSquaredIn(
  numbers: Float64Array,
  row: number,
  face: Face,
  ends: Float64Array,
  at: number,
  bound: number,
): number {
  const ox = numbers[row + AT.origin]!;
  const oy = numbers[row + AT.origin + 1]!;
  const oz = numbers[row + AT.origin + 2]!;
  const px = ends[at]! - ox;
  const py = ends[at + 1]! - oy;
  const pz = ends[at + 2]! - oz;
  const qx = ends[at + 3]! - ox;
  const qy = ends[at + 4]! - oy;
  const qz = ends[at + 5]! - oz;
  const gx = numbers[row + AT.gx]!;
  const gy = numbers[row + AT.gy]!;
  const lift = numbers[row + AT.lift]!;
  const hp = gx * px + gy * py + lift - pz;
  const hq = gx * qx + gy * qy + lift - qz;
  if (hp * hq > 0) {
    // Most wiring hangs wholly on one side of the deck, and the foot of its nearer end well inside a bay: no point can beat that.
    const nearP = Math.abs(hp) <= Math.abs(hq);
    const h = nearP ? hp : hq;
    const steep2 = numbers[row + AT.steep2]!;
    const square = (h * h) / steep2;
    if (square >= bound) return bound;
    const back = h / steep2;
    const x = (nearP ? px : qx) - back * gx;
    const y = (nearP ? py : qy) - back * gy;
    if (
      x >= numbers[row + AT.core]! &&
      x <= numbers[row + AT.core + 2]! &&
      y >= numbers[row + AT.core + 1]! &&
      y <= numbers[row + AT.core + 3]!
    ) {
      found[0] = nearP ? 0 : 1;
      found[1] = x;
      found[2] = y;
      found[3] = (nearP ? pz : qz) + back;
      found[4] = square;
      return square;
    }
  }
  asked[0] = px;
  asked[1] = py;
  asked[2] = pz;
  asked[3] = qx;
  asked[4] = qy;
  asked[5] = qz;
  asked[6] = bound;
  return searchAsked(face) ? found[4]! : bound;
}

/** Whether the face comes nearer than asked; `found` then says where and how near. */
function searchAsked(face: Face): boolean {
  const px = asked[0]!;
  const py = asked[1]!;
  const pz = asked[2]!;
  const qx = asked[3]!;
  const qy = asked[4]!;
  const qz = asked[5]!;
  const bound = asked[6]!;
  const { edges, core, numbers } = face;
  const gx = numbers[AT.gx]!;
  const gy = numbers[AT.gy]!;
  const lift = numbers[AT.lift]!;
  const steep2 = numbers[AT.steep2]!;
  // Signed vertical gaps, deck minus end.
  const hp = gx * px + gy * py + lift - pz;
  const hq = gx * qx + gy * qy + lift - qz;
  let best = bound;

  if (hp * hq <= 0) {
    const t = hp === hq ? 0 : hp / (hp - hq);
    const x = px + t * (qx - px);
    const y = py + t * (qy - py);
    if (best > 0 && (isInCore(core, x, y) || insideEdges(edges, x, y))) {
      found[0] = t;
      found[1] = x;
      found[2] = y;
      found[3] = gx * x + gy * y + lift;
      found[4] = 0;
      return true;
    }
  } else {
    const nearer = Math.abs(hp) <= Math.abs(hq) ? hp : hq;
    if ((nearer * nearer) / steep2 >= best) return false;
  }

  // The feet of both ends, the nearer end first: if both ends are on one side, no point can beat its foot.
  const first = Math.abs(hp) <= Math.abs(hq) ? 0 : 1;
  for (let i = 0; i < 2; i++) {
    const end = i === 0 ? first : 1 - first;
    const h = end === 0 ? hp : hq;
    const square = (h * h) / steep2;
    if (square >= best) continue;
    const back = h / steep2;
    const x = (end === 0 ? px : qx) - back * gx;
    const y = (end === 0 ? py : qy) - back * gy;
    if (!isInCore(core, x, y) && !insideEdges(edges, x, y)) continue;
    best = square;
    found[0] = end;
    found[1] = x;
    found[2] = y;
    found[3] = (end === 0 ? pz : qz) + back;
    found[4] = square;
    if (i === 0 && hp * hq > 0) return true;
  }

  const dx = qx - px;
  const dy = qy - py;
  const dz = qz - pz;
  const dd = dx * dx + dy * dy + dz * dz;
  const lowX = dx < 0 ? qx : px;
  const highX = dx < 0 ? px : qx;
  const lowY = dy < 0 ? qy : py;
  const highY = dy < 0 ? py : qy;
  let bestEdge = -1;
  let bestT = 0;
  let bestS = 0;
  for (let e = 0; e < edges.length; e += EDGE_STRIDE) {
    const ax = edges[e]!;
    const ay = edges[e + 1]!;
    const bx = edges[e + 3]!;
    const by = edges[e + 4]!;
    // Plan boxes farther apart than the best so far cannot improve it.
    const gapX = Math.max(0, Math.min(ax, bx) - highX, lowX - Math.max(ax, bx));
    const gapY = Math.max(0, Math.min(ay, by) - highY, lowY - Math.max(ay, by));
    if (gapX * gapX + gapY * gapY > best) continue;
    const az = edges[e + 2]!;
    const ux = bx - ax;
    const uy = by - ay;
    const uz = edges[e + 5]! - az;
    const uu = edges[e + 6]!;
    const wx = px - ax;
    const wy = py - ay;
    const wz = pz - az;
    const wd = wx * dx + wy * dy + wz * dz;
    const wu = wx * ux + wy * uy + wz * uz;

    // The edge's first corner (its last is the first of the next edge) against the segment.
    let t = dd > 0 ? -wd / dd : 0;
    t = t < 0 ? 0 : Math.min(t, 1);
    let rx = wx + t * dx;
    let ry = wy + t * dy;
    let rz = wz + t * dz;
    let square = rx * rx + ry * ry + rz * rz;
    if (square < best) {
      best = square;
      bestEdge = e;
      bestT = t;
      bestS = 0;
    }
    // Both ends of the segment against the edge.
    let s = uu > 0 ? wu / uu : 0;
    s = s < 0 ? 0 : Math.min(s, 1);
    rx = wx - s * ux;
    ry = wy - s * uy;
    rz = wz - s * uz;
    square = rx * rx + ry * ry + rz * rz;
    if (square < best) {
      best = square;
      bestEdge = e;
      bestT = 0;
      bestS = s;
    }
    s = uu > 0 ? (wu + dx * ux + dy * uy + dz * uz) / uu : 0;
    s = s < 0 ? 0 : Math.min(s, 1);
    rx = wx + dx - s * ux;
    ry = wy + dy - s * uy;
    rz = wz + dz - s * uz;
    square = rx * rx + ry * ry + rz * rz;
    if (square < best) {
      best = square;
      bestEdge = e;
      bestT = 1;
      bestS = s;
    }
    // Inside both: by the cross product, since |u|²|d|² - (u·d)² loses all digits for nearly parallel lines.
    const nx = dy * uz - dz * uy;
    const ny = dz * ux - dx * uz;
    const nz = dx * uy - dy * ux;
    const nn = nx * nx + ny * ny + nz * nz;
    if (!(nn > 0)) continue;
    t = -((wy * uz - wz * uy) * nx + (wz * ux - wx * uz) * ny + (wx * uy - wy * ux) * nz) / nn;
    if (!(t > 0 && t < 1)) continue;
    s = -((wy * dz - wz * dy) * nx + (wz * dx - wx * dz) * ny + (wx * dy - wy * dx) * nz) / nn;
    if (!(s > 0 && s < 1)) continue;
    rx = wx + t * dx - s * ux;
    ry = wy + t * dy - s * uy;
    rz = wz + t * dz - s * uz;
    square = rx * rx + ry * ry + rz * rz;
    if (square < best) {
      best = square;
      bestEdge = e;
      bestT = t;
      bestS = s;
    }
  }
  if (bestEdge >= 0) {
    const e = bestEdge;
    found[0] = bestT;
    found[1] = edges[e]! + bestS * (edges[e + 3]! - edges[e]!);
    found[2] = edges[e + 1]! + bestS * (edges[e + 4]! - edges[e + 1]!);
    found[3] = edges[e + 2]! + bestS * (edges[e + 5]! - edges[e + 2]!);
    found[4] = best;
  }
  return best < bound;
}

/** What `leastSquared` has just found, as a value of its own. */
export function readFound(square: number, p: Point3, q: Point3, face: Face): SegmentNearest {
  const t = found[0]!;
  const { numbers } = face;
  const ox = numbers[AT.origin]!;
  const oy = numbers[AT.origin + 1]!;
  const oz = numbers[AT.origin + 2]!;
  return {
    distance: inches(Math.sqrt(square)),
    onElement: t === 0 ? p : t === 1 ? q : lerp3(p, q, t),
    onFace: [found[1]! + ox, found[2]! + oy, found[3]! + oz],
    t,
  };
}

/** Where along the segment `leastSquared` has just found its answer, 0 at p to 1 at q. */
export const foundAlong = (): number => found[0]!;

/** Writes the face's point that `leastSquared` has just found into `into` from position `at` on, building space; the face's numbers begin at `row`. */
export function writeFound(numbers: Float64Array, row: number, into: Float64Array, at: number): void {
  into[at] = found[1]! + numbers[row + AT.origin]!;
  into[at + 1] = found[2]! + numbers[row + AT.origin + 1]!;
  into[at + 2] = found[3]! + numbers[row + AT.origin + 2]!;
}

/** The answer for a face without corners. */
export const nowhere = (from: Point3): Nearest => ({
  distance: inches(Number.POSITIVE_INFINITY),
  onElement: from,
  onFace: from,
});

/** Throws when a coordinate is not finite: comparisons with it all fail, and the element would read as far away. */
export function assertFinite(p: Point3, q: Point3, angle = 0): void {
  if (!Number.isFinite(p[0] + p[1] + p[2] + q[0] + q[1] + q[2] + angle)) {
    throw new RangeError("a coordinate of an element is not finite");
  }
}
