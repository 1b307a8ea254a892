import { sheetUnits } from "../../units/quantity.ts";
import type { FoundArc, Linework } from "./linework.ts";

/** Fewest segments that are taken for an arc: a hexagon is drawn as one more often than as a circle. */
const LEAST_SEGMENTS = 7;
/** Least turn of an arc, all its segments together. */
const LEAST_TURN = Math.PI / 6;
/** Greatest turn from one segment to the next. */
const GREATEST_STEP = Math.PI / 3;
/** How far the corners may lie from the circle: on paper, and as a part of the radius. */
const OFF_PT = 0.12;
const OFF_PART = 0.01;
/** Larger circles are taken for lines. */
const GREATEST_RADIUS_PT = 5000;

type Drawn = Pick<Linework, "coords" | "pathStart" | "pathClosed" | "userUnit">;

/** The parts of circles among the paths: curves that were flattened, and those that a drawing program drew as short lines. */
export function findArcs({ coords, pathStart, pathClosed, userUnit }: Drawn): FoundArc[] {
  const arcs: FoundArc[] = [];
  const off = OFF_PT / userUnit;
  for (let path = 0; path < pathClosed.length; path++) {
    const end = pathStart[path + 1]!;
    const ring = pathClosed[path] ? wholeCircle(coords, pathStart[path]!, end, off) : undefined;
    if (ring) {
      const { x, y, radius } = ring;
      arcs.push({ first: pathStart[path]!, last: end - 1, centre: [x, y], radius: sheetUnits(radius), full: true });
      continue;
    }
    for (let first = pathStart[path]!; first + LEAST_SEGMENTS <= end; ) {
      const circle = circleThrough(coords, first, first + 2, first + 4);
      if (!circle || circle.radius > GREATEST_RADIUS_PT / userUnit) {
        first++;
        continue;
      }
      // The first corners alone place the circle badly where coordinates are coarse: it is placed anew by all that it holds.
      let run = runOn(coords, first, end, circle, off);
      const better = run.last - first >= LEAST_SEGMENTS - 3 ? fitted(coords, first, run.last) : undefined;
      if (better) {
        const again = runOn(coords, first, end, better, off);
        if (again.last >= run.last) run = again;
      }
      const { last, turned } = run;
      const steps = last - first + 1;
      // A chain of n chords turns n - 1 times; seen from the centre it spans one step more.
      const spanned = (Math.abs(turned) * steps) / Math.max(1, steps - 1);
      if (steps < LEAST_SEGMENTS || spanned < LEAST_TURN) {
        first++;
        continue;
      }
      const gap = Math.hypot(
        coords[4 * first]! - coords[4 * last + 2]!,
        coords[4 * first + 1]! - coords[4 * last + 3]!,
      );
      const full = gap <= off && spanned > 1.9 * Math.PI;
      const placed = full ? middleOf(coords, first, last) : (fitted(coords, first, last) ?? circle);
      arcs.push({ first, last, centre: [placed.x, placed.y], radius: sheetUnits(placed.radius), full });
      first = last + 1;
    }
  }
  return arcs;
}

/** The circle that a closed path is, if it is one. */
function wholeCircle(coords: Float32Array, first: number, end: number, off: number): Circle | undefined {
  if (end - first < LEAST_SEGMENTS) return undefined;
  const circle = middleOf(coords, first, end - 1);
  const { last, turned } = runOn(coords, first, end, circle, off);
  return last === end - 1 && Math.abs(turned) > 1.5 * Math.PI ? circle : undefined;
}

/** How far the segments from `first` on stay on a circle and keep turning the same way; the last of them, and the turn in all. */
function runOn(
  coords: Float32Array,
  first: number,
  end: number,
  { x, y, radius }: Circle,
  off: number,
): { readonly last: number; readonly turned: number } {
  const slack = Math.min(off + OFF_PART * radius, 0.1 * radius);
  let last = first;
  let turned = 0;
  for (let i = first; i < end; i++) {
    const away = Math.hypot(coords[4 * i + 2]! - x, coords[4 * i + 3]! - y) - radius;
    if (Math.abs(away) > slack) break;
    const turn = i > first ? turnBetween(coords, i - 1, i) : 0;
    if (Math.abs(turn) > GREATEST_STEP || turn * turned < 0 || Math.abs(turned + turn) > 2 * Math.PI + 0.01) break;
    turned += turn;
    last = i;
  }
  return { last, turned };
}

/** The circle nearest to the corners of a run, by least squares of x2 + y2 + a x + b y + c; undefined for corners on a line. */
function fitted(coords: Float32Array, first: number, last: number): Circle | undefined {
  const [ox, oy] = [coords[4 * first]!, coords[4 * first + 1]!];
  let [n, sx, sy, sxx, syy, sxy, sxz, syz, sz] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = first; i <= last; i++) {
    const [x, y] = [coords[4 * i + 2]! - ox, coords[4 * i + 3]! - oy];
    const z = x * x + y * y;
    n++;
    sx += x;
    sy += y;
    sxx += x * x;
    syy += y * y;
    sxy += x * y;
    sxz += x * z;
    syz += y * z;
    sz += z;
  }
  const [a, b, c] = [n * sxx - sx * sx, n * sxy - sx * sy, n * syy - sy * sy];
  const [d, e] = [n * sxz - sx * sz, n * syz - sy * sz];
  const determinant = a * c - b * b;
  if (!(Math.abs(determinant) > 1e-9 * a * c)) return undefined;
  const [x, y] = [(d * c - e * b) / (2 * determinant), (e * a - d * b) / (2 * determinant)];
  const square = sz / n - (2 * (x * sx + y * sy)) / n + x * x + y * y;
  return square > 0 ? { x: ox + x, y: oy + y, radius: Math.sqrt(square) } : undefined;
}

interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** The circle through the starts of three segments; undefined when they lie on a line. */
function circleThrough(coords: Float32Array, a: number, b: number, c: number): Circle | undefined {
  const [ax, ay] = [coords[4 * a]!, coords[4 * a + 1]!];
  const [bx, by] = [coords[4 * b]! - ax, coords[4 * b + 1]! - ay];
  const [cx, cy] = [coords[4 * c]! - ax, coords[4 * c + 1]! - ay];
  const twice = 2 * (bx * cy - by * cx);
  const [b2, c2] = [bx * bx + by * by, cx * cx + cy * cy];
  if (Math.abs(twice) <= 1e-6 * (b2 + c2)) return undefined;
  const x = (cy * b2 - by * c2) / twice;
  const y = (bx * c2 - cx * b2) / twice;
  return { x: ax + x, y: ay + y, radius: Math.hypot(x, y) };
}

/** The circle of a whole ring: centre of its corners, weighted by the chords beside them, and their mean distance. */
function middleOf(coords: Float32Array, first: number, last: number): Circle {
  let [x, y, weight] = [0, 0, 0];
  for (let i = first; i <= last; i++) {
    const length = Math.hypot(coords[4 * i + 2]! - coords[4 * i]!, coords[4 * i + 3]! - coords[4 * i + 1]!);
    x += (length * (coords[4 * i]! + coords[4 * i + 2]!)) / 2;
    y += (length * (coords[4 * i + 1]! + coords[4 * i + 3]!)) / 2;
    weight += length;
  }
  x /= weight;
  y /= weight;
  let radius = 0;
  for (let i = first; i <= last; i++) radius += Math.hypot(coords[4 * i]! - x, coords[4 * i + 1]! - y);
  return { x, y, radius: radius / (last - first + 1) };
}

/** The turn from one segment to the next, counter-clockwise, -pi to pi. */
function turnBetween(coords: Float32Array, a: number, b: number): number {
  const [ax, ay] = [coords[4 * a + 2]! - coords[4 * a]!, coords[4 * a + 3]! - coords[4 * a + 1]!];
  const [bx, by] = [coords[4 * b + 2]! - coords[4 * b]!, coords[4 * b + 3]! - coords[4 * b + 1]!];
  return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
}
