import { circleSteps, lineSteps, QUARTER } from "../geometry/path-steps.ts";
import type { PathItem, PathStep } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";

/** How a path is painted; widths and dashes in the units of the picture. */
export type Paint = Omit<PathItem, "type" | "steps">;

/** A path through points, closed back to the first when `closed`. */
export function linePath(points: readonly Point2[], paint: Paint, closed = false): PathItem {
  return { type: "path", steps: lineSteps(points, closed), ...paint };
}

/** A level line at the height `y`. */
export const levelPath = (x0: number, x1: number, y: number, paint: Paint): PathItem =>
  linePath(
    [
      [x0, y],
      [x1, y],
    ],
    paint,
  );

/** Several closed rings as one path, holes left open (even-odd). */
export function ringsPath(rings: readonly (readonly Point2[])[], paint: Paint): PathItem {
  return { type: "path", steps: rings.flatMap((ring) => lineSteps(ring, true)), evenOdd: true, ...paint };
}

/** A rectangle from two opposite corners. */
export function rectPath(x0: number, y0: number, x1: number, y1: number, paint: Paint): PathItem {
  const corners: Point2[] = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  return linePath(corners, paint, true);
}

/** A circle; off the true one by less than 0.03 % of its radius. */
export const circlePath = (centre: Point2, r: number, paint: Paint): PathItem => ({
  type: "path",
  steps: circleSteps(centre, r),
  ...paint,
});

/** Part of a circle, counter-clockwise from angle `from` to `to` (radians), as curves of at most a quarter turn. */
export function arcSteps([x, y]: Point2, r: number, from: number, to: number): PathStep[] {
  const pieces = Math.max(1, Math.ceil((to - from) / (Math.PI / 2) - 1e-9));
  const sweep = (to - from) / pieces;
  const k = (4 / 3) * Math.tan(sweep / 4) * r;
  const at = (a: number): Point2 => [x + r * Math.cos(a), y + r * Math.sin(a)];
  const start = at(from);
  const steps: PathStep[] = [["M", start[0], start[1]]];
  for (let i = 0; i < pieces; i++) {
    const a = from + i * sweep;
    const b = a + sweep;
    const p = at(a);
    const q = at(b);
    steps.push([
      "C",
      p[0] - k * Math.sin(a),
      p[1] + k * Math.cos(a),
      q[0] + k * Math.sin(b),
      q[1] - k * Math.cos(b),
      q[0],
      q[1],
    ]);
  }
  return steps;
}

/** A rectangle with rounded corners. */
export function roundRectPath(x0: number, y0: number, x1: number, y1: number, r: number, paint: Paint): PathItem {
  const k = r * (1 - QUARTER);
  const steps: PathStep[] = [
    ["M", x0 + r, y0],
    ["L", x1 - r, y0],
    ["C", x1 - k, y0, x1, y0 + k, x1, y0 + r],
    ["L", x1, y1 - r],
    ["C", x1, y1 - k, x1 - k, y1, x1 - r, y1],
    ["L", x0 + r, y1],
    ["C", x0 + k, y1, x0, y1 - k, x0, y1 - r],
    ["L", x0, y0 + r],
    ["C", x0, y0 + k, x0 + k, y0, x0 + r, y0],
    ["Z"],
  ];
  return { type: "path", steps, ...paint };
}
