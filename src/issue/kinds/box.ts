import type { Box } from "../../job/elements/box.ts";
import { findBoxKind } from "../../trade/boxes.ts";
import { linePath } from "../paths.ts";
import type { Drawing, DrawingContext } from "./drawing.ts";
import { drawPlacedBox, inchesOf } from "./placed-box.ts";

/** What a box is called: its table row, or "box of its own size". */
export const boxWords = (box: Box): string => findBoxKind(box.item)?.label ?? "box with a size of its own";

/** Its rectangle in plan with both diagonals. */
export function drawBox(box: Box, context: DrawingContext): Drawing {
  const row = findBoxKind(box.item);
  const width = inchesOf(box.size?.width) ?? row?.width.value;
  const length = inchesOf(box.size?.length) ?? row?.length.value;
  const depth = inchesOf(box.size?.depth) ?? row?.depth.value;
  // A cover that faces sideways stands the box on edge: its length is then the height.
  const [along, across] = box.cover === "down" ? [length, width] : [width, depth];
  const sizeIn = along !== undefined && across !== undefined ? ([along, across] as const) : undefined;
  return drawPlacedBox({ ...box, words: boxWords(box), subject: "Box", sizeIn }, context, (ink, corner) => {
    const paint = { stroke: ink, width: 0.5 * context.frame.point, opacity: 0.7 };
    return [linePath([corner(-1, -1), corner(1, 1)], paint), linePath([corner(-1, 1), corner(1, -1)], paint)];
  });
}
