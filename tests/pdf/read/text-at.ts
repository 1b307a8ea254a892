import type { TextRun } from "../../../src/pdf/read/plan-contents.ts";
import { radians, sheetUnits } from "../../../src/units/quantity.ts";

/** A text run for tests: by default 10 units high at (x, y), each character 5 units wide. */
export const textAt = (
  text: string,
  x = 0,
  y = 0,
  more: { degrees?: number; height?: number; width?: number } = {},
): TextRun => ({
  text,
  at: [x, y],
  angle: radians(((more.degrees ?? 0) * Math.PI) / 180),
  height: sheetUnits(more.height ?? 10),
  width: sheetUnits(more.width ?? text.length * 5),
});
