import type { PathStep } from "./picture.ts";
import type { Point2 } from "./point.ts";

/** The steps of a line through points, closed back to the first when `closed`. */
export function lineSteps(points: readonly Point2[], closed = false): PathStep[] {
  const steps: PathStep[] = points.map(([x, y], i) => [i === 0 ? "M" : "L", x, y]);
  if (closed && points.length > 0) steps.push(["Z"]);
  return steps;
}

/** Handle length of the cubic curve nearest to a quarter circle of radius 1: 4/3 (sqrt 2 - 1). */
export const QUARTER = (4 / 3) * (Math.SQRT2 - 1);

/** A circle of four cubic curves; off the true circle by less than 0.03 % of its radius. */
export function circleSteps([x, y]: Point2, r: number): PathStep[] {
  const k = QUARTER * r;
  return [
    ["M", x + r, y],
    ["C", x + r, y + k, x + k, y + r, x, y + r],
    ["C", x - k, y + r, x - r, y + k, x - r, y],
    ["C", x - r, y - k, x - k, y - r, x, y - r],
    ["C", x + k, y - r, x + r, y - k, x + r, y],
    ["Z"],
  ];
}
