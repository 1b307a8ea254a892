import { type Interval, type IntervalSet, sortFew } from "./interval-set.ts";
import type { Point2 } from "./point.ts";
import { EDGE_TOLERANCE } from "./tolerance.ts";

/** Numbers kept for each edge: start x y z, end x y z, squared length. */
export const EDGE_STRIDE = 7;

/**
 * All edges of a polygon's rings, `EDGE_STRIDE` numbers each, relative to (ox, oy) and lifted onto z = gx x + gy y + lift of
 * that local frame. Edges of length 0 are left out, except that a ring collapsed into a point keeps
 * one, so that the point stays near whatever is near it.
 */
export function planEdges(
  rings: readonly (readonly Point2[])[],
  ox: number,
  oy: number,
  gx = 0,
  gy = 0,
  lift = 0,
): Float64Array {
  const numbers: number[] = [];
  for (const ring of rings) {
    const collapsed = ring.every(([x, y]) => x === ring[0]![0] && y === ring[0]![1]);
    for (let i = 0; i < ring.length; i++) {
      const a = ring[i]!;
      const b = ring[(i + 1) % ring.length]!;
      if (a[0] === b[0] && a[1] === b[1] && !(collapsed && i === 0)) continue;
      const ax = a[0] - ox;
      const ay = a[1] - oy;
      const bx = b[0] - ox;
      const by = b[1] - oy;
      const az = gx * ax + gy * ay + lift;
      const bz = gx * bx + gy * by + lift;
      numbers.push(ax, ay, az, bx, by, bz, (bx - ax) ** 2 + (by - ay) ** 2 + (bz - az) ** 2);
    }
  }
  return Float64Array.from(numbers);
}

/**
 * Whether (x, y) lies inside the edges, counted even-odd, in plain floating point: near an edge the answer may be
 * either, which is harmless wherever the distance to the edges is looked at too.
 */
export function insideEdges(edges: Float64Array, x: number, y: number): boolean {
  let inside = false;
  for (let e = 0; e < edges.length; e += EDGE_STRIDE) {
    const ay = edges[e + 1]!;
    const by = edges[e + 4]!;
    if (ay > y === by > y) continue;
    const ax = edges[e]!;
    if (x < ax + ((y - ay) / (by - ay)) * (edges[e + 3]! - ax)) inside = !inside;
  }
  return inside;
}

/**
 * A rectangle along the axes that lies wholly inside the edges, clear of them by `CORE_MARGIN`: least x y, greatest x y, relative to
 * the edges' origin. What lies in it is inside without looking at a single edge. Only outlines that are such rectangles themselves, as
 * most bays are, have one; the core of any other is empty.
 */
export function coreOf(rings: readonly (readonly Point2[])[], ox: number, oy: number): Float64Array {
  const core = Float64Array.of(Infinity, Infinity, -Infinity, -Infinity);
  const outline = rings[0];
  if (rings.length !== 1 || outline?.length !== 4) return core;
  const [a, b, c, d] = outline as readonly [Point2, Point2, Point2, Point2];
  const sides = isLevel(a, b) && isUpright(b, c) && isLevel(c, d) && isUpright(d, a);
  if (!sides && !(isUpright(a, b) && isLevel(b, c) && isUpright(c, d) && isLevel(d, a))) return core;
  core[0] = Math.min(a[0], c[0]) - ox + CORE_MARGIN;
  core[1] = Math.min(a[1], c[1]) - oy + CORE_MARGIN;
  core[2] = Math.max(a[0], c[0]) - ox - CORE_MARGIN;
  core[3] = Math.max(a[1], c[1]) - oy - CORE_MARGIN;
  return core;
}

/** Far above the tolerance of edges and the rounding of turned corners, far below anything built. */
const CORE_MARGIN = 1e-6;
const NEARLY_SQUARE = 1e-7;
const isLevel = (a: Point2, b: Point2): boolean => Math.abs(a[1] - b[1]) < NEARLY_SQUARE;
const isUpright = (a: Point2, b: Point2): boolean => Math.abs(a[0] - b[0]) < NEARLY_SQUARE;

/** Whether (x, y) lies in a core. */
export const isInCore = (core: Float64Array, x: number, y: number): boolean =>
  x >= core[0]! && x <= core[2]! && y >= core[1]! && y <= core[3]!;

/** Squared plan distance from (x, y) to the nearest edge; infinite when there is none. */
export function planDistance2(edges: Float64Array, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let e = 0; e < edges.length; e += EDGE_STRIDE) {
    const ax = edges[e]!;
    const ay = edges[e + 1]!;
    const ux = edges[e + 3]! - ax;
    const uy = edges[e + 4]! - ay;
    const length2 = ux * ux + uy * uy;
    const along = length2 > 0 ? Math.min(1, Math.max(0, ((x - ax) * ux + (y - ay) * uy) / length2)) : 0;
    const dx = x - ax - along * ux;
    const dy = y - ay - along * uy;
    least = Math.min(least, dx * dx + dy * dy);
  }
  return least;
}

/** Whether (x, y) lies inside the edges or within `EDGE_TOLERANCE` of one. */
export const insideOrOnEdges = (edges: Float64Array, x: number, y: number): boolean =>
  insideEdges(edges, x, y) || planDistance2(edges, x, y) <= EDGE_TOLERANCE * EDGE_TOLERANCE;

/** All of a segment. */
export const WHOLE: IntervalSet = [[0, 1]];
const NONE: IntervalSet = [];

/**
 * The t in [0, 1] for which the point from (ax, ay) to (bx, by) lies inside the edges or on one. Parts no longer than
 * the tolerance (a corner merely touched) are left out; a segment no longer than that is a point: all or nothing.
 */
export function spansInside(edges: Float64Array, ax: number, ay: number, bx: number, by: number): IntervalSet {
  const dx = bx - ax;
  const dy = by - ay;
  const length2 = dx * dx + dy * dy;
  const length = Math.sqrt(length2);
  if (!(length > EDGE_TOLERANCE)) return insideOrOnEdges(edges, ax, ay) ? [[0, 1]] : [];
  const near = EDGE_TOLERANCE * length;
  const breaks: number[] = [];
  for (let e = 0; e < edges.length; e += EDGE_STRIDE) {
    const px = edges[e]! - ax;
    const py = edges[e + 1]! - ay;
    const qx = edges[e + 3]! - ax;
    const qy = edges[e + 4]! - ay;
    const p = dx * py - dy * px;
    const q = dx * qy - dy * qx;
    if ((p > near && q > near) || (p < -near && q < -near)) continue;
    const tp = (dx * px + dy * py) / length2;
    const tq = (dx * qx + dy * qy) / length2;
    // Ends on the line part the stretch even when the edge runs along it. Only what lies strictly within the segment parts it.
    if (Math.abs(p) <= near && tp > 0 && tp < 1) breaks.push(tp);
    if (Math.abs(q) <= near && tq > 0 && tq < 1) breaks.push(tq);
    if (p > 0 !== q > 0) {
      const t = tp + ((tq - tp) * p) / (p - q);
      if (t > 0 && t < 1) breaks.push(t);
    }
  }
  // Nearly every segment lies wholly within one face or outside it.
  if (breaks.length === 0) return insideOrOnEdges(edges, ax + 0.5 * dx, ay + 0.5 * dy) ? WHOLE : NONE;
  sortFew(breaks);
  breaks.push(1);
  const spans: Interval[] = [];
  let from = 0;
  for (const to of breaks) {
    if (!(to > from) || to > 1) continue;
    const middle = (from + to) / 2;
    if (insideOrOnEdges(edges, ax + middle * dx, ay + middle * dy)) {
      const before = spans[spans.length - 1];
      if (before?.[1] === from) spans[spans.length - 1] = [before[0], to];
      else spans.push([from, to]);
    }
    from = to;
  }
  const least = (2 * EDGE_TOLERANCE) / length;
  return spans.every(([start, end]) => end - start > least)
    ? spans
    : spans.filter(([start, end]) => end - start > least);
}
