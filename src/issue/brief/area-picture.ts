import type { Picture } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { boundingBox } from "../../geometry/polygon.ts";
import { radians } from "../../units/quantity.ts";
import { FAINT_INK, HAIR_INK, INK } from "../inks.ts";
import { linePath } from "../paths.ts";

/** Room for the numbers beside the corners, points. */
const AROUND = 14;
const NUMBER_SIZE = 8;

/**
 * An outline with its corners numbered from 1 and an arrow down the slope, or instead of both the edges given between corners, fitted into a box of paper: points, origin at the lower left
 * corner. Plan x runs right and y up, as in building space.
 */
export function areaPicture(
  corners: readonly { readonly at: Point2; readonly deck: number }[],
  width: number,
  height: number,
  edges: readonly (readonly [number, number])[] = [],
): Picture {
  const { min, max } = boundingBox(corners.map(({ at }) => at));
  const scale = Math.min((width - 2 * AROUND) / (max[0] - min[0] || 1), (height - 2 * AROUND) / (max[1] - min[1] || 1));
  const place = ([x, y]: Point2): Point2 => [AROUND + (x - min[0]) * scale, AROUND + (y - min[1]) * scale];
  const middle: Point2 = place([(min[0] + max[0]) / 2, (min[1] + max[1]) / 2]);
  const numbers = corners.map(({ at }, i) => {
    const [x, y] = place(at);
    const away = Math.hypot(x - middle[0], y - middle[1]) || 1;
    const spot: Point2 = [x + ((x - middle[0]) / away) * 8, y + ((y - middle[1]) / away) * 8 - NUMBER_SIZE * 0.35];
    return {
      type: "text",
      text: String(i + 1),
      at: spot,
      size: NUMBER_SIZE,
      angle: radians(0),
      align: "middle",
      face: "bold",
      fill: INK,
    } as const;
  });
  if (edges.length > 0) {
    const paint = { stroke: HAIR_INK, width: 0.8 };
    return [
      ...edges.map((ends) =>
        linePath(
          ends.map((k) => place(corners[k]!.at)),
          paint,
        ),
      ),
      ...numbers,
    ];
  }
  return [
    linePath(
      corners.map(({ at }) => place(at)),
      { stroke: HAIR_INK, width: 0.8 },
      true,
    ),
    ...arrow(corners, place, middle),
    ...numbers,
  ];
}

/** From the middle towards the lower side; nothing where all corners are of one height. */
function arrow(
  corners: readonly { readonly at: Point2; readonly deck: number }[],
  place: (at: Point2) => Point2,
  middle: Point2,
): Picture {
  const mean = corners.reduce((sum, { deck }) => sum + deck, 0) / corners.length;
  let [dx, dy] = [0, 0];
  for (const { at, deck } of corners) {
    const [x, y] = place(at);
    dx -= (x - middle[0]) * (deck - mean);
    dy -= (y - middle[1]) * (deck - mean);
  }
  const length = Math.hypot(dx, dy);
  if (length < 1e-9) return [];
  const [ux, uy] = [dx / length, dy / length];
  const tip: Point2 = [middle[0] + ux * 18, middle[1] + uy * 18];
  const barb = (side: number): Point2 => [tip[0] - ux * 6 - uy * 3 * side, tip[1] - uy * 6 + ux * 3 * side];
  const paint = { stroke: FAINT_INK, width: 0.9 };
  return [
    linePath([[middle[0] - ux * 18, middle[1] - uy * 18], tip], paint),
    linePath([barb(1), tip, barb(-1)], paint),
  ];
}
