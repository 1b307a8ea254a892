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
  const numbers = new Float64Array(rings.reduce((sum, ring) => sum + ring.length, 0) * EDGE_STRIDE);
  let used = 0;
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
      numbers[used] = ax;
      numbers[used + 1] = ay;
      numbers[used + 2] = az;
      numbers[used + 3] = bx;
      numbers[used + 4] = by;
      numbers[used + 5] = bz;
      numbers[used + 6] = (bx - ax) * (bx - ax) + (by - ay) * (by - ay) + (bz - az) * (bz - az);
      used += EDGE_STRIDE;
    }
  }
  return used === numbers.length ? numbers : numbers.slice(0, used);
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
  const outline = rings[0];
  if (rings.length !== 1 || outline?.length !== 4) return NO_CORE;
  const [a, b, c, d] = outline as readonly [Point2, Point2, Point2, Point2];
  const sides = isLevel(a, b) && isUpright(b, c) && isLevel(c, d) && isUpright(d, a);
  if (!sides && !(isUpright(a, b) && isLevel(b, c) && isUpright(c, d) && isLevel(d, a))) return NO_CORE;
  return Float64Array.of(
    Math.min(a[0], c[0]) - ox + CORE_MARGIN,
    Math.min(a[1], c[1]) - oy + CORE_MARGIN,
    Math.max(a[0], c[0]) - ox - CORE_MARGIN,
    Math.max(a[1], c[1]) - oy - CORE_MARGIN,
  );
}

/** An outline that has a core is nowhere farther from it than this. */
export const ROUND_CORE = 3e-6;

/** Far above the tolerance of edges and the rounding of turned corners, far below anything built. */
const CORE_MARGIN = 1e-6;
const NEARLY_SQUARE = 1e-7;
const isLevel = (a: Point2, b: Point2): boolean => Math.abs(a[1] - b[1]) < NEARLY_SQUARE;
const isUpright = (a: Point2, b: Point2): boolean => Math.abs(a[0] - b[0]) < NEARLY_SQUARE;

/** The core of what has none. */
const NO_CORE = Float64Array.of(Infinity, Infinity, -Infinity, -Infinity);

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
/** Nothing of a segment. */
export const NONE: IntervalSet = [];

/** What is asked of `searchSpans`: both ends of a segment. In an array, numbers need not be stored one by one on their way. */
const asked = new Float64Array(4);
/** Where edges part the segment that is asked about. */
let breaks = new Float64Array(64);

/**
 * The t in [0, 1] for which the point from (ax, ay) to (bx, by) lies inside the edges or on one. Parts no longer than
 * the tolerance (a corner merely touched) are left out; a segment no longer than that is a point: all or nothing.
 * `core`, of the same edges, spares looking at them where it tells.
 */
export function spansInside(
  edges: Float64Array,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  core: Float64Array = NO_CORE,
): IntervalSet {
  // Most segments lie wholly under one bay.
  if (isInCore(core, ax, ay) && isInCore(core, bx, by)) return WHOLE;
  asked[0] = ax;
  asked[1] = ay;
  asked[2] = bx;
  asked[3] = by;
  return searchSpans(edges, core);
}

function searchSpans(edges: Float64Array, core: Float64Array): IntervalSet {
  const ax = asked[0]!;
  const ay = asked[1]!;
  const dx = asked[2]! - ax;
  const dy = asked[3]! - ay;
  const length2 = dx * dx + dy * dy;
  const length = Math.sqrt(length2);
  if (!(length > EDGE_TOLERANCE)) return insideOrOnEdges(edges, ax, ay) ? WHOLE : NONE;
  const near = EDGE_TOLERANCE * length;
  // Each edge parts the segment in three places at most.
  if (breaks.length < edges.length + 1) breaks = new Float64Array(2 * edges.length);
  let count = 0;
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
    if (Math.abs(p) <= near && tp > 0 && tp < 1) breaks[count++] = tp;
    if (Math.abs(q) <= near && tq > 0 && tq < 1) breaks[count++] = tq;
    if (p > 0 !== q > 0) {
      const t = tp + ((tq - tp) * p) / (p - q);
      if (t > 0 && t < 1) breaks[count++] = t;
    }
  }
  // Nearly every other segment lies wholly outside.
  if (count === 0) return insideOrOn(edges, core, ax + 0.5 * dx, ay + 0.5 * dy) ? WHOLE : NONE;
  sortFew(breaks, count);
  breaks[count++] = 1;
  const spans: Interval[] = [];
  const least = (2 * EDGE_TOLERANCE) / length;
  let from = 0;
  // Where the span that is open begins; below 0 where none is.
  let open = -1;
  for (let i = 0; i < count; i++) {
    const to = breaks[i]!;
    if (!(to > from) || to > 1) continue;
    const middle = (from + to) / 2;
    if (insideOrOn(edges, core, ax + middle * dx, ay + middle * dy)) {
      if (open < 0) open = from;
    } else {
      if (open >= 0 && from - open > least) spans.push([open, from]);
      open = -1;
    }
    from = to;
  }
  if (open >= 0 && from - open > least) spans.push([open, from]);
  return spans;
}

/** `insideOrOnEdges`, told by the core and what surrounds it where those tell. */
function insideOrOn(edges: Float64Array, core: Float64Array, x: number, y: number): boolean {
  if (core[0]! <= core[2]!) {
    if (isInCore(core, x, y)) return true;
    if (x < core[0]! - ROUND_CORE || x > core[2]! + ROUND_CORE) return false;
    if (y < core[1]! - ROUND_CORE || y > core[3]! + ROUND_CORE) return false;
  }
  return insideOrOnEdges(edges, x, y);
}
