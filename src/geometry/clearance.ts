import { type Inches, inches } from "../units/quantity.ts";
import { AT, type Face } from "./face.ts";
import { type Interval, type IntervalSet, normalise } from "./interval-set.ts";
import { EDGE_STRIDE, NONE, ROUND_CORE, spansInside, WHOLE } from "./plan-edges.ts";
import type { Point3 } from "./point.ts";
import {
  assertFinite,
  ENDS_STRIDE,
  foundAlong,
  leastSquared,
  leastSquaredIn,
  type Nearest,
  nowhere,
  readFound,
  type SegmentNearest,
  setEnds,
  writeFound,
} from "./segment-face.ts";
import { isCloserThan, LIMIT_TOLERANCE } from "./tolerance.ts";

export { boxToFace, boxVerticalGap } from "./box-clearance.ts";
export type { Nearest, SegmentNearest } from "./segment-face.ts";

/** A part of a segment within a face's plan, with the vertical gap deck minus axis at both ends (linear between). */
export interface VerticalGap {
  /** Along the segment, 0 at p to 1 at q. */
  readonly from: number;
  readonly to: number;
  /** Positive where the axis is below the deck, negative above it. */
  readonly gapFrom: Inches;
  readonly gapTo: Inches;
}

/**
 * The least distance from the axis p-q to the bounded face; 0 when it crosses or touches. Exact up to rounding. The
 * ends may coincide. For a round section the caller subtracts the radius. Throws when a coordinate is not finite.
 */
export function segmentToFace(p: Point3, q: Point3, face: Face): SegmentNearest {
  const square = axisSquared(p, q, face);
  if (square === Number.POSITIVE_INFINITY) return { ...nowhere(p), t: 0 };
  return readFound(square, p, q, face);
}

/** Squared least distance between the axis p-q and the face, infinite for a face without corners; where, can be read afterwards. */
function axisSquared(p: Point3, q: Point3, face: Face): number {
  assertFinite(p, q);
  return leastSquared(face, setEnds(ownEnds, p, q), 0, Number.POSITIVE_INFINITY);
}

/** The segment that is asked about: copied from points for every question, and read before it is answered. */
const ownEnds = new Float64Array(ENDS_STRIDE);

/** Numbers `writeSegmentToFace` writes. */
export const SPOT_STRIDE = 8;

/**
 * `segmentToFace` without taking memory, for what is asked of every segment of a job. Writes into `spot`: the distance, t, the point x y z on
 * the segment, the point x y z on the face.
 */
export function writeSegmentToFace(p: Point3, q: Point3, face: Face, spot: Float64Array): void {
  assertFinite(p, q);
  writeNearest(setEnds(ownEnds, p, q), 0, face.numbers, 0, face, spot);
}

/**
 * The same for the segment whose numbers, all of them finite, stand in `ends` from position `at` on; those of the face stand in `numbers` from `row` on.
 */
export function writeNearest(
  ends: Float64Array,
  at: number,
  numbers: Float64Array,
  row: number,
  face: Face,
  spot: Float64Array,
): void {
  const square = leastSquaredIn(numbers, row, face, ends, at, Number.POSITIVE_INFINITY);
  const nowhere = square === Number.POSITIVE_INFINITY;
  const t = nowhere ? 0 : foundAlong();
  spot[0] = Math.sqrt(square);
  spot[1] = t;
  for (let k = 0; k < 3; k++) {
    const p = ends[at + k]!;
    const q = ends[at + 3 + k]!;
    spot[2 + k] = t === 0 ? p : t === 1 ? q : p + (q - p) * t;
  }
  if (nowhere) for (let k = 0; k < 3; k++) spot[5 + k] = ends[at + k]!;
  else writeFound(numbers, row, spot, 5);
}

/**
 * The t in [0, 1] for which the axis point is closer than `reach` to the bounded face in the sense of `isCloserThan`;
 * empty exactly when `segmentToFace` is not closer. In closed form: the part below or above the face within reach, the
 * tubes round its edges, the balls at its corners. A point element (p = q) is all or nothing. `nearest` saves the work
 * when the caller has `segmentToFace`'s answer already.
 */
export function nearStretches(p: Point3, q: Point3, face: Face, reach: Inches, nearest?: Nearest): IntervalSet {
  const distance = nearest ? nearest.distance : Math.sqrt(axisSquared(p, q, face));
  if (!isCloserThan(distance, reach)) return [];
  return stretchesOf(setEnds(ownEnds, p, q), 0, face, reach, nearest ? (nearest.t ?? 0) : foundAlong());
}

/**
 * `nearStretches` for the segment whose numbers stand in `ends` from position `at` on, where `distance` and `t` are those of its nearest point, as
 * `writeNearest` tells them.
 */
export const stretchesNear = (
  ends: Float64Array,
  at: number,
  face: Face,
  reach: Inches,
  distance: number,
  t: number,
): IntervalSet => (isCloserThan(distance, reach) ? stretchesOf(ends, at, face, reach, t) : []);

function stretchesOf(ends: Float64Array, at: number, face: Face, reach: Inches, nearestAt: number): IntervalSet {
  const { numbers } = face;
  const px = ends[at]! - numbers[AT.origin]!;
  const py = ends[at + 1]! - numbers[AT.origin + 1]!;
  const pz = ends[at + 2]! - numbers[AT.origin + 2]!;
  const dx = ends[at + 3]! - ends[at]!;
  const dy = ends[at + 4]! - ends[at + 1]!;
  const dz = ends[at + 5]! - ends[at + 2]!;
  const dd = dx * dx + dy * dy + dz * dz;
  if (dd === 0) return [[0, 1]];
  const r = reach - LIMIT_TOLERANCE;
  const { gx, gy } = face.plane;
  const { edges, core, lift, steepness } = face;

  // Where the perpendicular foot falls on the face and the plane is within reach; the foot moves in a straight line.
  const hp = gx * px + gy * py + lift - pz;
  const hd = gx * dx + gy * dy - dz;
  const slab = linearBetween(hp, hd, -r * steepness, r * steepness);
  const back = 1 / (steepness * steepness);
  const fx = px - back * hp * gx;
  const fy = py - back * hp * gy;
  const parts: Interval[] = [];
  if (slab) {
    for (const [from, to] of spansInside(edges, fx, fy, fx + dx - back * hd * gx, fy + dy - back * hd * gy, core)) {
      pushCommon(parts, slab, from, to);
    }
  }

  const lowX = Math.min(px, px + dx) - r;
  const highX = Math.max(px, px + dx) + r;
  const lowY = Math.min(py, py + dy) - r;
  const highY = Math.max(py, py + dy) + r;
  for (let e = 0; e < edges.length; e += EDGE_STRIDE) {
    const ax = edges[e]!;
    const bx = edges[e + 3]!;
    if ((ax < lowX && bx < lowX) || (ax > highX && bx > highX)) continue;
    const ay = edges[e + 1]!;
    const by = edges[e + 4]!;
    if ((ay < lowY && by < lowY) || (ay > highY && by > highY)) continue;
    const ux = bx - ax;
    const uy = by - ay;
    const uz = edges[e + 5]! - edges[e + 2]!;
    const uu = edges[e + 6]!;
    const wx = px - ax;
    const wy = py - ay;
    const wz = pz - edges[e + 2]!;
    // The ball at the edge's first corner; its last corner is the first of the next edge.
    const ball = withinRadius(wx, wy, wz, dx, dy, dz, r);
    if (ball) parts.push(ball);
    if (!(uu > 0)) continue;
    // The tube: where the foot on the edge's line falls between its corners and the line is within reach.
    const ws = (wx * ux + wy * uy + wz * uz) / uu;
    const ds = (dx * ux + dy * uy + dz * uz) / uu;
    const beside = linearBetween(ws, ds, 0, 1);
    if (!beside) continue;
    const tube = withinRadius(wx - ws * ux, wy - ws * uy, wz - ws * uz, dx - ds * ux, dy - ds * uy, dz - ds * uz, r);
    if (!tube) continue;
    pushCommon(parts, tube, beside[0], beside[1]);
  }
  // The nearest point is near by the very comparison of the verdict, so it belongs to the answer whatever rounding did.
  const nearest = Math.min(1, Math.max(0, nearestAt));
  parts.push([nearest, nearest]);
  return normalise(parts);
}

/** Adds what an interval has in common with from..to, if anything. */
function pushCommon(parts: Interval[], interval: Interval, from: number, to: number): void {
  const start = Math.max(interval[0], from);
  const end = Math.min(interval[1], to);
  if (start <= end) parts.push([start, end]);
}

/** The t in [0, 1] with low <= value + t * change <= high, or undefined. */
function linearBetween(value: number, change: number, low: number, high: number): Interval | undefined {
  if (change === 0) return low <= value && value <= high ? [0, 1] : undefined;
  const a = (low - value) / change;
  const b = (high - value) / change;
  const from = Math.max(0, Math.min(a, b));
  const to = Math.min(1, Math.max(a, b));
  return from <= to ? [from, to] : undefined;
}

/**
 * The t in [0, 1] for which |w + t d| <= r, or undefined. Found as the vertex of the parabola and its half width,
 * which keeps the digits that the usual formula for roots cancels.
 */
function withinRadius(
  wx: number,
  wy: number,
  wz: number,
  dx: number,
  dy: number,
  dz: number,
  r: number,
): Interval | undefined {
  const dd = dx * dx + dy * dy + dz * dz;
  const middle = dd > 0 ? -(wx * dx + wy * dy + wz * dz) / dd : 0;
  if (!Number.isFinite(middle)) return wx * wx + wy * wy + wz * wz <= r * r ? [0, 1] : undefined;
  const mx = wx + middle * dx;
  const my = wy + middle * dy;
  const mz = wz + middle * dz;
  const rest = r * r - (mx * mx + my * my + mz * mz);
  if (rest < 0) return undefined;
  if (dd === 0) return [0, 1];
  const half = Math.sqrt(rest / dd);
  const from = Math.max(0, middle - half);
  const to = Math.min(1, middle + half);
  return from <= to ? [from, to] : undefined;
}

/**
 * The parts of the axis p-q that lie inside the face's plan (its edge included), each with the signed vertical gap at
 * both ends. Empty where there is no deck above or below, as under a hole. A vertical axis is one part or none.
 * Throws when a coordinate is not finite.
 */
export function verticalGaps(p: Point3, q: Point3, face: Face): VerticalGap[] {
  return planSpans(p, q, face).map(([from, to]) => ({
    from,
    to,
    gapFrom: gapAlong(p, q, face, from),
    gapTo: gapAlong(p, q, face, to),
  }));
}

/** The signed vertical gap, deck minus axis, at t along p-q, exactly an end at 0 and 1; by the face's plane, inside its plan or not. */
export const gapAlong = (p: Point3, q: Point3, face: Face, t: number): Inches =>
  gapAt(setEnds(ownEnds, p, q), 0, face.numbers, 0, t);

/** The same for the segment whose numbers stand in `ends` from position `at` on; those of the face stand in `numbers` from `row` on. */
export function gapAt(ends: Float64Array, at: number, numbers: Float64Array, row: number, t: number): Inches {
  // Coordinate by coordinate, without a point in between: this is asked for every segment of a job.
  const px = ends[at]!;
  const py = ends[at + 1]!;
  const pz = ends[at + 2]!;
  const x = t === 1 ? ends[at + 3]! : px + (ends[at + 3]! - px) * t;
  const y = t === 1 ? ends[at + 4]! : py + (ends[at + 4]! - py) * t;
  const z = t === 1 ? ends[at + 5]! : pz + (ends[at + 5]! - pz) * t;
  return inches(
    numbers[row + AT.gx]! * (x - numbers[row + AT.origin]!) +
      numbers[row + AT.gy]! * (y - numbers[row + AT.origin + 1]!) +
      numbers[row + AT.lift]! -
      (z - numbers[row + AT.origin + 2]!),
  );
}

/** The t in [0, 1] for which the axis p-q lies in the face's plan (its edge included). Throws when a coordinate is not finite. */
export function planSpans(p: Point3, q: Point3, face: Face): IntervalSet {
  assertFinite(p, q);
  return planSpansOf(setEnds(ownEnds, p, q), 0, face.numbers, 0, face);
}

/**
 * The same for the segment whose numbers, all of them finite, stand in `ends` from position `at` on; those of the face stand in `numbers` from `row` on, and the face
 * itself is only looked at where they do not tell.
 */
export function planSpansOf(
  ends: Float64Array,
  at: number,
  numbers: Float64Array,
  row: number,
  face: Face,
): IntervalSet {
  const ox = numbers[row + AT.origin]!;
  const oy = numbers[row + AT.origin + 1]!;
  const px = ends[at]! - ox;
  const py = ends[at + 1]! - oy;
  const qx = ends[at + 3]! - ox;
  const qy = ends[at + 4]! - oy;
  const x0 = Math.min(px, qx);
  const y0 = Math.min(py, qy);
  const x1 = Math.max(px, qx);
  const y1 = Math.max(py, qy);
  const coreX0 = numbers[row + AT.core]!;
  const coreY0 = numbers[row + AT.core + 1]!;
  const coreX1 = numbers[row + AT.core + 2]!;
  const coreY1 = numbers[row + AT.core + 3]!;
  // Most segments lie wholly under one bay, and wholly beside its neighbours.
  if (x0 >= coreX0 && x1 <= coreX1 && y0 >= coreY0 && y1 <= coreY1) return WHOLE;
  if (coreX0 <= coreX1) {
    if (x1 < coreX0 - ROUND_CORE || x0 > coreX1 + ROUND_CORE) return NONE;
    if (y1 < coreY0 - ROUND_CORE || y0 > coreY1 + ROUND_CORE) return NONE;
  }
  return spansInside(face.edges, px, py, qx, qy, face.core);
}
