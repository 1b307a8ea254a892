import { distance2, lerp2, type Point2 } from "./point.ts";

/** How long a line through points is, in their unit. */
export const lengthOfLine = (points: readonly Point2[]): number =>
  points.slice(1).reduce((sum, at, i) => sum + distance2(points[i]!, at), 0);

/** The place so far along a line of at least one point; its end for what is farther, its beginning for less than nought. */
export function placeAlong(points: readonly Point2[], far: number): Point2 {
  let left = Math.max(0, far);
  for (let i = 0; i + 1 < points.length; i++) {
    const [a, b] = [points[i]!, points[i + 1]!];
    const piece = distance2(a, b);
    if (left < piece) return lerp2(a, b, left / piece);
    left -= piece;
  }
  return points.at(-1)!;
}
