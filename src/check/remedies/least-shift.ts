import type { Point2 } from "../../geometry/point.ts";
import { locate, type Polygon } from "../../geometry/polygon.ts";

/** Something in plan that is shifted as a whole: its corners, and the straight lines between them. */
export interface PlanBody {
  readonly corners: readonly Point2[];
  readonly sides: readonly Side[];
}
export type Side = readonly [from: Point2, to: Point2];

/** A piece of the border of the shifts that bring body and polygon too near each other: straight, or a circle. */
type Border =
  | { readonly is: "line"; readonly a: Point2; readonly b: Point2; readonly near: number }
  | { readonly is: "circle"; readonly centre: Point2; readonly near: number };

/** Of how many pieces of the border, those nearest to no shift at all, every meeting of two is looked at. */
const MOST_BORDERS = 120;
/** How much nearer than asked counts as far enough, so that a shift right on the border is one. */
const ROUNDING = 1e-8;

/**
 * Shifts in plan that take a body that is in the polygon or too near it out of it and at least `apart` away from all of it, the shortest first; none longer
 * than `farthest`, at most `most`. All in the polygon's unit. The first is the shortest there is, where the outline is not so
 * long that more than `MOST_BORDERS` pieces of the border lie within reach.
 *
 * The shifts that are too near fill the polygon's outline offset by `apart` and grown by the body. The shortest way out ends on its border:
 * square to one piece of it, or where two pieces meet. So those places are listed and tried, shortest first.
 */
export function leastShifts(
  body: PlanBody,
  polygon: Polygon,
  apart: number,
  farthest: number,
  most: number,
): readonly Point2[] {
  const edges = edgesOf(polygon);
  const borders = bordersOf(body, edges, apart)
    .filter(({ near }) => near <= farthest)
    .sort((a, b) => a.near - b.near)
    .slice(0, MOST_BORDERS);
  const ends: Point2[] = borders.flatMap((border) => squareOn(border, apart));
  for (let i = 0; i < borders.length; i++)
    for (let j = 0; j < i; j++) ends.push(...meetings(borders[i]!, borders[j]!, apart));
  const ordered = ends
    .map((shift) => ({ shift, length: Math.hypot(shift[0], shift[1]) }))
    .filter(({ length }) => length <= farthest)
    .sort((a, b) => a.length - b.length);
  const found: Point2[] = [];
  for (const { shift } of ordered) {
    if (found.length >= most) break;
    if (found.some((other) => distance(other, shift) < 1e-6)) continue;
    if (isOut(body, polygon, edges, shift, apart - ROUNDING)) found.push(shift);
  }
  return found;
}

function edgesOf({ outline, holes }: Polygon): Side[] {
  return [outline, ...holes].flatMap((ring) =>
    ring
      .map((from, i): Side => [from, ring[(i + 1) % ring.length]!])
      .filter(([from, to]) => from[0] !== to[0] || from[1] !== to[1]),
  );
}

/** An edge against a corner of the body gives two lines beside the edge; a corner of the outline against a side, two beside the side; two corners, a circle. */
function bordersOf({ corners, sides }: PlanBody, edges: readonly Side[], apart: number): Border[] {
  const lines: Border[] = [];
  const circles: Border[] = [];
  const beside = (a: Point2, b: Point2): void => {
    const length = distance(a, b);
    if (length === 0) return;
    const [nx, ny] = [((b[1] - a[1]) / length) * apart, ((a[0] - b[0]) / length) * apart];
    for (const s of [1, -1]) {
      const from: Point2 = [a[0] + s * nx, a[1] + s * ny];
      const to: Point2 = [b[0] + s * nx, b[1] + s * ny];
      lines.push({ is: "line", a: from, b: to, near: distance(NOWHERE, nearestOn(from, to, NOWHERE)) });
    }
  };
  for (const [c, d] of edges) {
    for (const v of corners) {
      beside(minus(c, v), minus(d, v));
      const centre = minus(c, v);
      circles.push({ is: "circle", centre, near: Math.abs(Math.hypot(centre[0], centre[1]) - apart) });
    }
    for (const [a, b] of sides) beside(minus(c, a), minus(c, b));
  }
  return [...lines, ...circles];
}

const NOWHERE: Point2 = [0, 0];
const minus = (a: Point2, b: Point2): Point2 => [a[0] - b[0], a[1] - b[1]];
const distance = (a: Point2, b: Point2): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** The shifts on a piece of the border that no shift nearby on it undercuts. */
function squareOn(border: Border, apart: number): Point2[] {
  if (border.is === "line") return [nearestOn(border.a, border.b, NOWHERE)];
  const [x, y] = border.centre;
  const away = Math.hypot(x, y);
  if (away > 0) return [[x - (x / away) * apart, y - (y / away) * apart]];
  return [
    [apart, 0],
    [-apart, 0],
    [0, apart],
    [0, -apart],
  ];
}

function meetings(one: Border, other: Border, apart: number): Point2[] {
  if (one.is === "line" && other.is === "line") return lineMeetsLine(one.a, one.b, other.a, other.b);
  if (one.is === "circle" && other.is === "circle") return circleMeetsCircle(one.centre, other.centre, apart);
  const [line, circle] = one.is === "line" ? [one, other] : [other, one];
  return line.is === "line" && circle.is === "circle" ? lineMeetsCircle(line.a, line.b, circle.centre, apart) : [];
}

function lineMeetsLine(a: Point2, b: Point2, c: Point2, d: Point2): Point2[] {
  const [u, v, w] = [minus(b, a), minus(d, c), minus(c, a)];
  const cross = u[0] * v[1] - u[1] * v[0];
  if (cross === 0) return [];
  const s = (w[0] * v[1] - w[1] * v[0]) / cross;
  const t = (w[0] * u[1] - w[1] * u[0]) / cross;
  return s >= 0 && s <= 1 && t >= 0 && t <= 1 ? [[a[0] + u[0] * s, a[1] + u[1] * s]] : [];
}

function lineMeetsCircle(a: Point2, b: Point2, centre: Point2, radius: number): Point2[] {
  const u = minus(b, a);
  const w = minus(a, centre);
  const square = u[0] * u[0] + u[1] * u[1];
  const half = (u[0] * w[0] + u[1] * w[1]) / square;
  const root = half * half - (w[0] * w[0] + w[1] * w[1] - radius * radius) / square;
  if (!(root >= 0)) return [];
  return [-half - Math.sqrt(root), -half + Math.sqrt(root)]
    .filter((t) => t >= 0 && t <= 1)
    .map((t): Point2 => [a[0] + u[0] * t, a[1] + u[1] * t]);
}

function circleMeetsCircle(p: Point2, q: Point2, radius: number): Point2[] {
  const apart = distance(p, q);
  const rise = radius * radius - (apart * apart) / 4;
  if (apart === 0 || rise < 0) return [];
  const [x, y] = [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
  const s = Math.sqrt(rise) / apart;
  const [dx, dy] = [(q[1] - p[1]) * s, (p[0] - q[0]) * s];
  return [
    [x + dx, y + dy],
    [x - dx, y - dy],
  ];
}

/** Whether the body, shifted, lies wholly outside the polygon and nowhere nearer to it than `apart`. */
function isOut(
  { corners, sides }: PlanBody,
  polygon: Polygon,
  edges: readonly Side[],
  [dx, dy]: Point2,
  apart: number,
): boolean {
  const at = ([x, y]: Point2): Point2 => [x + dx, y + dy];
  for (const [a, b] of sides)
    for (const [c, d] of edges) if (sidesApart(at(a), at(b), c, d) < Math.max(apart, 0)) return false;
  return corners.every((corner) => locate(polygon, at(corner)) !== "inside");
}

/** Least distance between two straight lines; 0 where they cross. */
function sidesApart(a: Point2, b: Point2, c: Point2, d: Point2): number {
  if (lineMeetsLine(a, b, c, d).length > 0) return 0;
  return Math.min(
    distance(a, nearestOn(c, d, a)),
    distance(b, nearestOn(c, d, b)),
    distance(c, nearestOn(a, b, c)),
    distance(d, nearestOn(a, b, d)),
  );
}

function nearestOn(a: Point2, b: Point2, p: Point2): Point2 {
  const u = minus(b, a);
  const square = u[0] * u[0] + u[1] * u[1];
  const t = square > 0 ? Math.min(1, Math.max(0, (u[0] * (p[0] - a[0]) + u[1] * (p[1] - a[1])) / square)) : 0;
  return [a[0] + u[0] * t, a[1] + u[1] * t];
}
