import type { Point2 } from "../../geometry/point.ts";

/** Nearly turning back, a mitred corner would lie far away: it is cut off at this many times the offset. */
const FARTHEST = 4;

/**
 * The line that runs beside a traced one, so far to its right (negative: left), in the unit of its points: a point for every point, on the line that
 * halves each corner. Points at one place, as of a drop, stay at one place. A line that goes nowhere in plan is shifted along y.
 */
export function offsetAxis(line: readonly Point2[], right: number): Point2[] {
  const ways = line.slice(1).map((to, i): Point2 | undefined => {
    const [dx, dy] = [to[0] - line[i]![0], to[1] - line[i]![1]];
    const length = Math.hypot(dx, dy);
    return length > 0 ? [dx / length, dy / length] : undefined;
  });
  return line.map(([x, y], i): Point2 => {
    const before = ways.slice(0, i).findLast((way) => way !== undefined);
    const after = ways.slice(i).find((way) => way !== undefined);
    const a = before ?? after ?? [1, 0];
    const b = after ?? a;
    // To the right of a way (dx, dy) is (dy, -dx).
    const [nx, ny] = [a[1] + b[1], -a[0] - b[0]];
    const reach = Math.max(1 + a[0] * b[0] + a[1] * b[1], 2 / (FARTHEST * FARTHEST));
    return [x + (right * nx) / reach, y + (right * ny) / reach];
  });
}
