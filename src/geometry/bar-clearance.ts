import { type Inches, inches } from "../units/quantity.ts";
import { type Bar, barCorners, barPoint, boxOfBar, SECTION_CORNERS } from "./bar.ts";
import { gapAlong, nearStretches, planSpans } from "./clearance.ts";
import type { Face } from "./face.ts";
import { type Interval, type IntervalSet, normalise } from "./interval-set.ts";
import { EDGE_STRIDE, insideOrOnEdges, spansInside } from "./plan-edges.ts";
import { elevationAt } from "./plane.ts";
import type { Point3 } from "./point.ts";
import { assertFinite, ENDS_STRIDE, leastSquared, type Nearest, nowhere, readFound, setEnds } from "./segment-face.ts";
import { isCloserThan, LIMIT_TOLERANCE } from "./tolerance.ts";

/** The twelve edges of a bar by the numbers of its corners: round both ends, and along it. */
const EDGES = [0, 1, 2, 3].flatMap(
  (i) =>
    [
      [i, (i + 1) % 4],
      [4 + i, 4 + ((i + 1) % 4)],
      [i, 4 + i],
    ] as const,
);

/** An edge of the bar, as it is asked about. */
const ends = new Float64Array(ENDS_STRIDE);

/** The nearest of a bar, which always says how far along its axis, inches from p. */
export type BarNearest = Nearest & { readonly s: number };

/**
 * The least distance between the solid bar and the bounded face; 0 where they meet. Exact up to rounding: it lies at an edge of the bar, or
 * at a corner or an edge of the face. Throws when a coordinate is not finite.
 */
export function barToFace(bar: Bar, face: Face): BarNearest {
  assertFinite(bar.p, bar.q, bar.halfWidth + bar.halfHeight);
  const corners = barCorners(bar);
  let best: Nearest | undefined;
  let bound = Number.POSITIVE_INFINITY;
  for (const [i, j] of EDGES) {
    const p = corners[i]!;
    const q = corners[j]!;
    const square = leastSquared(face, setEnds(ends, p, q), 0, bound);
    if (square >= bound) continue;
    bound = square;
    best = readFound(square, p, q, face);
    if (square === 0) return withStation(bar, best);
  }
  const { edges } = face;
  const half = [bar.halfWidth, bar.halfHeight] as const;
  for (let e = 0; e < edges.length; e += EDGE_STRIDE) {
    const edge = edgeOfBar(bar, face, e);
    const [s, v, w] = edge.from;
    const onBar = [Math.min(bar.length, Math.max(0, s)), within(v, half[0]), within(w, half[1])] as const;
    const square = (s - onBar[0]) ** 2 + (v - onBar[1]) ** 2 + (w - onBar[2]) ** 2;
    const t = firstWithin(edge.from, edge.step, bar);
    if (t !== undefined) {
      const at = barPoint(bar, s + t * edge.step[0], v + t * edge.step[1], w + t * edge.step[2]);
      return withStation(bar, { distance: inches(0), onElement: at, onFace: at });
    }
    if (square >= bound) continue;
    bound = square;
    best = { distance: inches(Math.sqrt(square)), onElement: barPoint(bar, ...onBar), onFace: barPoint(bar, s, v, w) };
  }
  return withStation(bar, best ?? nowhere(bar.p));
}

function withStation(bar: Bar, near: Nearest): BarNearest {
  const { onElement, distance, onFace } = near;
  const s = [0, 1, 2].reduce((sum, k) => sum + (onElement[k]! - bar.p[k]!) * bar.along[k]!, 0);
  return { distance, onElement, onFace, s: Math.min(bar.length, Math.max(0, s)) };
}

const within = (n: number, half: number): number => Math.min(half, Math.max(-half, n));

/** An edge of a face, or another way, as the bar sees it: its first point and the step to its last, along, across and up from p. */
interface SeenEdge {
  readonly from: Point3;
  readonly step: Point3;
}

const edgeOfBar = (bar: Bar, { edges, origin }: Face, e: number): SeenEdge =>
  seenBy(
    bar,
    [edges[e]! + origin[0], edges[e + 1]! + origin[1], edges[e + 2]! + origin[2]],
    [edges[e + 3]! - edges[e]!, edges[e + 4]! - edges[e + 1]!, edges[e + 5]! - edges[e + 2]!],
  );

function seenBy({ p, along, across, up }: Bar, from: Point3, [dx, dy, dz]: Point3): SeenEdge {
  const [x, y, z] = [from[0] - p[0], from[1] - p[1], from[2] - p[2]];
  return {
    from: [
      x * along[0] + y * along[1] + z * along[2],
      x * across[0] + y * across[1] + z * across[2],
      x * up[0] + y * up[1] + z * up[2],
    ],
    step: [
      dx * along[0] + dy * along[1] + dz * along[2],
      dx * across[0] + dy * across[1] + dz * across[2],
      dx * up[0] + dy * up[1] + dz * up[2],
    ],
  };
}

/** The least t in [0, 1] for which a way lies in the bar, or undefined. */
function firstWithin(from: Point3, step: Point3, { length, halfWidth, halfHeight }: Bar): number | undefined {
  let range: Interval = [0, 1];
  const sides = [
    [0, length],
    [-halfWidth, halfWidth],
    [-halfHeight, halfHeight],
  ] as const;
  for (const k of [0, 1, 2] as const) {
    const part = linearWithin(from[k], step[k], sides[k]![0], sides[k]![1]);
    if (!part) return undefined;
    range = [Math.max(range[0], part[0]), Math.min(range[1], part[1])];
  }
  return range[0] <= range[1] ? range[0] : undefined;
}

/** The t in [0, 1] with low <= value + t * change <= high, or undefined. */
function linearWithin(value: number, change: number, low: number, high: number): Interval | undefined {
  if (change === 0) return low <= value && value <= high ? [0, 1] : undefined;
  const a = (low - value) / change;
  const b = (high - value) / change;
  const range: Interval = [Math.max(0, Math.min(a, b)), Math.min(1, Math.max(a, b))];
  return range[0] <= range[1] ? range : undefined;
}

/**
 * How far along the axis, inches from p, the section of the bar is closer than `reach` to the bounded face in the sense of `isCloserThan`;
 * empty exactly when `barToFace` is not closer. In closed form. The section is moved along, not turned, so it is near where one of its four corners
 * is near the face (`nearStretches`), where one of its sides goes through the face, or where it is near an edge of the face: for each edge the places
 * are one interval, as both are convex. A bar without length is all or nothing.
 */
export function barNearStretches(bar: Bar, face: Face, reach: Inches, nearest = barToFace(bar, face)): IntervalSet {
  if (!isCloserThan(nearest.distance, reach)) return [];
  const { length } = bar;
  if (length === 0) return [[0, 0]];
  const parts: Interval[] = [[nearest.s, nearest.s]];
  const corners = barCorners(bar);
  for (let i = 0; i < 4; i++) {
    for (const [from, to] of nearStretches(corners[i]!, corners[i + 4]!, face, reach))
      parts.push([from * length, to * length]);
    const through = throughFace(bar, face, i);
    for (const part of through) parts.push(part);
  }
  const r = reach - LIMIT_TOLERANCE;
  for (let e = 0; e < face.edges.length; e += EDGE_STRIDE) {
    const part = nearEdge(bar, edgeOfBar(bar, face, e), r);
    if (part) parts.push(part);
  }
  return normalise(parts);
}

/** Where side i of the section, from its corner i to the next, goes through the face: inches from p. */
function throughFace(bar: Bar, face: Face, i: number): IntervalSet {
  const [v0, w0] = SECTION_CORNERS[i]!;
  const [v1, w1] = SECTION_CORNERS[(i + 1) % 4]!;
  const at = (s: number, k: number): Point3 =>
    barPoint(bar, s, (v0 + k * (v1 - v0)) * bar.halfWidth, (w0 + k * (w1 - w0)) * bar.halfHeight);
  const gapOf = (point: Point3): number => elevationAt(face.plane, [point[0], point[1]]) - point[2];
  // The gap is linear over the strip that the side sweeps: h = h0 + hs s + hk k, and 0 on one line of it.
  const h0 = gapOf(at(0, 0));
  const hs = (gapOf(at(bar.length, 0)) - h0) / bar.length;
  const hk = gapOf(at(0, 1)) - h0;
  const ends = lineInStrip(h0, hs, hk, bar.length);
  if (!ends) return [];
  const [[s0, k0], [s1, k1]] = ends;
  const [a, b] = [at(s0, k0), at(s1, k1)];
  const [ox, oy] = face.origin;
  if (Math.hypot(b[0] - a[0], b[1] - a[1]) < 1e-9)
    return insideOrOnEdges(face.edges, a[0] - ox, a[1] - oy) ? [[Math.min(s0, s1), Math.max(s0, s1)]] : [];
  return spansInside(face.edges, a[0] - ox, a[1] - oy, b[0] - ox, b[1] - oy).map(([from, to]): Interval => {
    const [x, y] = [s0 + from * (s1 - s0), s0 + to * (s1 - s0)];
    return [Math.min(x, y), Math.max(x, y)];
  });
}

type InStrip = readonly [s: number, k: number];

/** The ends of the line h0 + hs s + hk k = 0 in the strip 0 <= s <= length, 0 <= k <= 1, or undefined where it misses it. */
function lineInStrip(h0: number, hs: number, hk: number, length: number): readonly [InStrip, InStrip] | undefined {
  if (hs === 0 && hk === 0) return undefined;
  if (Math.abs(hk) >= Math.abs(hs) * length) {
    // k as a function of s.
    const range = linearWithin(-h0 / hk, (-hs / hk) * length, 0, 1);
    return range && [kAt(range[0] * length), kAt(range[1] * length)];
  }
  const range = linearWithin(-h0 / hs, -hk / hs, 0, length);
  return range && [sAt(range[0]), sAt(range[1])];

  function kAt(s: number): InStrip {
    return [s, Math.min(1, Math.max(0, -(h0 + hs * s) / hk))];
  }
  function sAt(k: number): InStrip {
    return [Math.min(length, Math.max(0, -(h0 + hk * k) / hs)), k];
  }
}

/**
 * Where the section is within r of an edge of the face, inches from p, or undefined. At t along the edge the section has to be within
 * sqrt(r² - g(t)) of a(t) along the axis, where a is linear and g is the squared distance across and up: nought inside the section, quadratic outside
 * one side of it, the sum of two such outside a corner. The ends of the interval are the extremes of a(t) -+ sqrt(r² - g(t)), found piece by piece.
 */
function nearEdge({ halfWidth, halfHeight, length }: Bar, { from, step }: SeenEdge, r: number): Interval | undefined {
  const cuts = [0, 1];
  for (const [k, half] of [
    [1, halfWidth],
    [2, halfHeight],
  ] as const) {
    if (step[k] === 0) continue;
    for (const side of [-half, half]) {
      const t = (side - from[k]) / step[k];
      if (t > 0 && t < 1) cuts.push(t);
    }
  }
  cuts.sort((a, b) => a - b);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i + 1 < cuts.length; i++) {
    const [t0, t1] = [cuts[i]!, cuts[i + 1]!];
    const middle = (t0 + t1) / 2;
    // g = alpha t² + beta t + gamma on this piece.
    let [alpha, beta, gamma] = [0, 0, 0];
    for (const [k, half] of [
      [1, halfWidth],
      [2, halfHeight],
    ] as const) {
      const there = from[k] + step[k] * middle;
      if (Math.abs(there) <= half) continue;
      const out = from[k] - Math.sign(there) * half;
      alpha += step[k] * step[k];
      beta += 2 * out * step[k];
      gamma += out * out;
    }
    for (const t of turningPoints(alpha, beta, gamma, step[0], r, t0, t1)) {
      const rest = r * r - Math.max(0, (alpha * t + beta) * t + gamma);
      if (rest < 0) continue;
      const room = Math.sqrt(rest);
      low = Math.min(low, from[0] + step[0] * t - room);
      high = Math.max(high, from[0] + step[0] * t + room);
    }
  }
  const [start, end] = [Math.max(0, low), Math.min(length, high)];
  return start <= end ? [start, end] : undefined;
}

/** Every t of a piece at which a t -+ sqrt(r² - g(t)) may be extreme: the ends of where g <= r², and the places without slope. */
function turningPoints(
  alpha: number,
  beta: number,
  gamma: number,
  a: number,
  r: number,
  t0: number,
  t1: number,
): number[] {
  if (!(alpha > 0)) return gamma <= r * r ? [t0, t1] : [];
  // g = alpha (t - vertex)² + floor; with x = sqrt(alpha) (t - vertex) the room is sqrt(R² - x²): half a circle.
  const vertex = -beta / (2 * alpha);
  const floor = gamma - (beta * beta) / (4 * alpha);
  const square = r * r - floor;
  if (square < 0) return [];
  const stretch = Math.sqrt(alpha);
  const radius = Math.sqrt(square);
  const slope = a / stretch;
  const steepest = (radius * slope) / Math.hypot(1, slope);
  const inPiece = (t: number): number => Math.min(t1, Math.max(t0, t));
  const [first, last] = [inPiece(vertex - radius / stretch), inPiece(vertex + radius / stretch)];
  const turns = [vertex + steepest / stretch, vertex - steepest / stretch].filter((t) => t > first && t < last);
  return [first, last, ...turns];
}

/**
 * The least vertical gap, deck less bar, over what the two have in common in plan, with the point of the bar that has it; negative where the bar reaches above the
 * surface. Undefined where no part of the bar is over or under the face. Throws when a coordinate is not finite.
 */
export function barVerticalGap(bar: Bar, face: Face): { readonly least: Inches; readonly at: Point3 } | undefined {
  assertFinite(bar.p, bar.q, bar.halfWidth + bar.halfHeight);
  const corners = barCorners(bar);
  let least = Number.POSITIVE_INFINITY;
  let at = bar.p;
  const look = (gap: number, point: Point3): void => {
    if (gap >= least) return;
    least = gap;
    at = point;
  };
  for (const [i, j] of EDGES) {
    const [p, q] = [corners[i]!, corners[j]!];
    for (const span of planSpans(p, q, face))
      for (const t of span)
        look(gapAlong(p, q, face, t), [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]), p[2] + t * (q[2] - p[2])]);
  }
  // Corners of the face over or under the bar: plumb down from above its highest corner, its top is where the way first meets it.
  const { min, max } = boxOfBar(bar);
  const { edges, origin } = face;
  for (let e = 0; e < edges.length; e += EDGE_STRIDE) {
    const [x, y, z] = [edges[e]! + origin[0], edges[e + 1]! + origin[1], edges[e + 2]! + origin[2]];
    const plumb = seenBy(bar, [x, y, max[2]], [0, 0, min[2] - max[2]]);
    const t = firstWithin(plumb.from, plumb.step, bar);
    if (t === undefined) continue;
    const top = max[2] + t * (min[2] - max[2]);
    look(z - top, [x, y, top]);
  }
  return least < Number.POSITIVE_INFINITY ? { least: inches(least), at } : undefined;
}
