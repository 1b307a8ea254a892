import { orient2d } from "robust-predicates";
import type { Problem } from "../units/problem.ts";
import type { IntervalSet } from "./interval-set.ts";
import { insideEdges, planDistance2, planEdges, spansInside } from "./plan-edges.ts";
import type { Point2 } from "./point.ts";

/** The corners of a closed plan outline in order, either way round; the first is not repeated at the end. */
export type Ring = readonly Point2[];

/** A plan polygon, in the space and unit of its holder. Inside is counted even-odd over all rings. */
export interface Polygon {
  readonly outline: Ring;
  readonly holes: readonly Ring[];
}

/** A rectangle along the axes. */
export interface Box2 {
  readonly min: Point2;
  readonly max: Point2;
}

/** Area within a ring, positive when it runs counter-clockwise, in the unit of its points squared. */
export function signedArea(ring: Ring): number {
  const o = ring[0];
  if (!o) return 0;
  let twice = 0;
  for (let i = 1; i + 1 < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[i + 1]!;
    twice += (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
  }
  return twice / 2;
}

/** Area of the outline less that of the holes. */
export const area = (polygon: Polygon): number =>
  polygon.holes.reduce((rest, hole) => rest - Math.abs(signedArea(hole)), Math.abs(signedArea(polygon.outline)));

/** The smallest rectangle along the axes that holds the points; infinitely inverted for none. */
export function boundingBox(points: Iterable<Point2>): Box2 {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return { min: [x0, y0], max: [x1, y1] };
}

/** A place where edge i of a ring (from point i to the next) meets edge j > i, beside the corner neighbours share. */
export interface Crossing {
  readonly i: number;
  readonly j: number;
  readonly at: Point2;
}

/**
 * Every pair of edges of a ring that cross, touch or run along each other where they should not; decided exactly.
 * Edges of length 0 take no part (see `ringProblems`).
 */
export function selfCrossings(ring: Ring): Crossing[] {
  const edges = ring
    .map((from, number) => ({ number, from, to: ring[(number + 1) % ring.length]! }))
    .filter(({ from, to }) => from[0] !== to[0] || from[1] !== to[1]);
  const crossings: Crossing[] = [];
  for (let i = 0; i < edges.length; i++) {
    const { from: a, to: b } = edges[i]!;
    for (let j = i + 1; j < edges.length; j++) {
      const { from: c, to: d } = edges[j]!;
      if (Math.max(c[0], d[0]) < Math.min(a[0], b[0]) || Math.min(c[0], d[0]) > Math.max(a[0], b[0])) continue;
      if (Math.max(c[1], d[1]) < Math.min(a[1], b[1]) || Math.min(c[1], d[1]) > Math.max(a[1], b[1])) continue;
      const at =
        j === i + 1 ? foldedBack(a, b, d) : i === 0 && j === edges.length - 1 ? foldedBack(b, a, c) : meet(a, b, c, d);
      if (at) crossings.push({ i: edges[i]!.number, j: edges[j]!.number, at });
    }
  }
  return crossings;
}

/** Neighbours share a corner; they meet elsewhere only when one runs back over the other. */
function foldedBack(before: Point2, corner: Point2, after: Point2): Point2 | undefined {
  const back = (before[0] - corner[0]) * (after[0] - corner[0]) + (before[1] - corner[1]) * (after[1] - corner[1]);
  return back > 0 && orient(before, corner, after) === 0 ? corner : undefined;
}

const orient = (a: Point2, b: Point2, c: Point2): number => orient2d(a[0], a[1], b[0], b[1], c[0], c[1]);

/** A point common to two edges whose boxes overlap, or undefined. */
function meet(a: Point2, b: Point2, c: Point2, d: Point2): Point2 | undefined {
  const oc = orient(a, b, c);
  const od = orient(a, b, d);
  const oa = orient(c, d, a);
  const ob = orient(c, d, b);
  if (oc > 0 === od > 0 && oc !== 0 && od !== 0) return undefined;
  if (oa > 0 === ob > 0 && oa !== 0 && ob !== 0) return undefined;
  if (oc === 0 && between(c, a, b)) return c;
  if (od === 0 && between(d, a, b)) return d;
  if (oa === 0 && between(a, c, d)) return a;
  if (ob === 0 && between(b, c, d)) return b;
  if (oc === 0 || od === 0 || oa === 0 || ob === 0) return undefined;
  const t = oa / (oa - ob);
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
}

/** Whether p, known to lie on the line through a and b, lies between them (ends included). */
const between = (p: Point2, a: Point2, b: Point2): boolean =>
  Math.min(a[0], b[0]) <= p[0] &&
  p[0] <= Math.max(a[0], b[0]) &&
  Math.min(a[1], b[1]) <= p[1] &&
  p[1] <= Math.max(a[1], b[1]);

/**
 * Everything that makes a ring unfit as an outline or a hole: `ring.not-finite`, `ring.too-few-points`,
 * `ring.repeated-point` (params i, j: neighbours that coincide), `ring.crosses-itself` (params i, j: edges; x, y: where)
 * and `ring.collapsed` (no area to speak of: less than 1e-9 of the square of its extent). Empty for a sound ring.
 */
export function ringProblems(ring: Ring): Problem[] {
  for (const at of ring) if (!Number.isFinite(at[0] + at[1])) return [problem("ring.not-finite")];
  if (ring.length < 3) return [problem("ring.too-few-points", { count: ring.length })];
  const problems: Problem[] = [];
  for (let i = 0; i < ring.length; i++) {
    const j = (i + 1) % ring.length;
    if (ring[i]![0] === ring[j]![0] && ring[i]![1] === ring[j]![1])
      problems.push(problem("ring.repeated-point", { i, j }));
  }
  for (const { i, j, at } of selfCrossings(ring)) {
    problems.push(problem("ring.crosses-itself", { i, j, x: at[0], y: at[1] }));
  }
  const { min, max } = boundingBox(ring);
  const extent = Math.max(max[0] - min[0], max[1] - min[1]);
  const crossed = problems.some(({ code }) => code === "ring.crosses-itself");
  if (!crossed && Math.abs(signedArea(ring)) <= 1e-9 * extent * extent) problems.push(problem("ring.collapsed"));
  return problems;
}

const problem = (code: string, params: Problem["params"] = {}): Problem => ({ code, where: "", params });

/** Where a point lies, decided exactly: "edge" means on an edge or corner of any ring to the last bit. */
export function locate(polygon: Polygon, p: Point2): "inside" | "edge" | "outside" {
  let inside = false;
  for (const ring of [polygon.outline, ...polygon.holes]) {
    for (let i = 0; i < ring.length; i++) {
      const a = ring[i]!;
      const b = ring[(i + 1) % ring.length]!;
      const [low, high] = a[1] <= b[1] ? [a, b] : [b, a];
      if (p[1] < low[1] || p[1] > high[1]) continue;
      if (p[0] > Math.max(a[0], b[0])) continue;
      const side = orient(low, high, p);
      if (side === 0 && p[0] >= Math.min(a[0], b[0])) return "edge";
      // robust-predicates counts a turn to the left as negative: the edge is to the right of p.
      if (low[1] <= p[1] && p[1] < high[1] && side < 0) inside = !inside;
    }
  }
  return inside ? "inside" : "outside";
}

/**
 * The t in [0, 1] for which the point from a to b lies inside the polygon or on its edge (within `EDGE_TOLERANCE`).
 * A corner merely touched is left out. When a and b coincide the answer is [[0, 1]] or [].
 */
export function segmentInside(polygon: Polygon, a: Point2, b: Point2): IntervalSet {
  return spansInside(planEdges([polygon.outline, ...polygon.holes], a[0], a[1]), 0, 0, b[0] - a[0], b[1] - a[1]);
}

/**
 * A point well inside the polygon, for a label: of the centroid and the middles of the widest level chords, the one
 * farthest from all edges; for a collapsed polygon its first corner.
 */
export function labelPoint(polygon: Polygon): Point2 {
  const { min, max } = boundingBox(polygon.outline);
  const [ox, oy] = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
  const edges = planEdges([polygon.outline, ...polygon.holes], ox, oy);
  const candidates: Point2[] = [centroid(polygon.outline, ox, oy)];
  const levels = [...new Set([polygon.outline, ...polygon.holes].flat().map((p) => p[1] - oy))].sort((a, b) => a - b);
  const halfWidth = max[0] - ox + 1;
  const chords = levels.slice(1).flatMap((level, i) => {
    const below = levels[i]!;
    return [0.25, 0.5, 0.75].map((part) => below + (level - below) * part);
  });
  for (const y of [0, ...chords]) {
    for (const [from, to] of spansInside(edges, -halfWidth, y, halfWidth, y)) {
      candidates.push([halfWidth * (from + to - 1), y]);
    }
  }
  let best: Point2 | undefined;
  let room = 0;
  for (const [x, y] of candidates) {
    if (!insideEdges(edges, x, y)) continue;
    const here = planDistance2(edges, x, y);
    if (here > room) {
      best = [x + ox, y + oy];
      room = here;
    }
  }
  return best ?? polygon.outline[0] ?? [0, 0];
}

/** Centre of area of a ring, relative to (ox, oy); not a number for a collapsed ring. */
function centroid(ring: Ring, ox: number, oy: number): Point2 {
  let [x, y, twice] = [0, 0, 0];
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    const cross = (a[0] - ox) * (b[1] - oy) - (a[1] - oy) * (b[0] - ox);
    x += (a[0] + b[0] - 2 * ox) * cross;
    y += (a[1] + b[1] - 2 * oy) * cross;
    twice += cross;
  }
  return [x / (3 * twice), y / (3 * twice)];
}
