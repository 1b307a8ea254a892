import type { Colour, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { linePath } from "../paths.ts";

/** Parallel hatch lines between a lower and an upper line, `step` apart along; slant 1 leans right, -1 left, 0 upright. */
export function hatch(
  low: readonly [Point2, Point2],
  high: readonly [Point2, Point2],
  step: number,
  slant: number,
  paint: { stroke: Colour; width: number; opacity: number },
): PictureItem[] {
  const [x0, x1] = [low[0][0], low[1][0]];
  const yOn = (line: readonly [Point2, Point2], x: number): number =>
    line[1][0] === line[0][0]
      ? line[0][1]
      : line[0][1] + ((line[1][1] - line[0][1]) * (x - line[0][0])) / (line[1][0] - line[0][0]);
  const tallest = Math.max(yOn(high, x0) - yOn(low, x0), yOn(high, x1) - yOn(low, x1), 0);
  const items: PictureItem[] = [];
  for (let x = x0 - (slant > 0 ? tallest : 0); x < x1 + (slant < 0 ? tallest : 0) && items.length < 2000; x += step) {
    // The part of the hatch line from (x, low) that lies between both ends and both lines, in small steps of the height.
    const points: Point2[] = [];
    const pieces = slant === 0 ? 1 : 24;
    for (let k = 0; k <= pieces; k++) {
      const up = (tallest * k) / pieces;
      const px = x + slant * up;
      if (px < x0 - 1e-9 || px > x1 + 1e-9) continue;
      const base = yOn(low, Math.min(Math.max(x, x0), x1));
      const py = slant === 0 && k === pieces ? yOn(high, px) : base + up;
      if (py >= yOn(low, px) - 1e-9 && py <= yOn(high, px) + 1e-9) points.push([px, py]);
    }
    const first = points[0];
    const last = points[points.length - 1];
    if (first && last && first !== last) items.push(linePath([first, last], paint));
  }
  return items;
}
