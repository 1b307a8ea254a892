import type { Point2 } from "../../../src/geometry/point.ts";
import { gatherLinework } from "../../../src/pdf/read/gather-linework.ts";
import type { LineStyle, Linework } from "../../../src/pdf/read/linework.ts";
import { sheetUnits } from "../../../src/units/quantity.ts";

/** A plain black line. */
export const INK: LineStyle = {
  layer: null,
  shown: true,
  stroke: "#000000",
  fill: null,
  width: sheetUnits(1),
  dash: [],
};
/** Another pen. */
export const RED: LineStyle = { ...INK, stroke: "#ff0000" };

/** Linework of lines through points, each drawn as one path, on a page of 1,000 by 1,000. */
export function madeLinework(
  lines: readonly { readonly points: readonly Point2[]; readonly style?: LineStyle; readonly flags?: number }[],
  userUnit = 1,
): Linework {
  const view = [0, 0, 1000, 1000] as const;
  const gatherer = gatherLinework({ page: 1, view, rotate: 0, userUnit });
  for (const { points, style = INK, flags = 0 } of lines) {
    const place = gatherer.styleOf(style);
    gatherer.part();
    points.slice(1).forEach(([x, y], i) => {
      gatherer.add(points[i]![0], points[i]![1], x, y, place, flags, view);
    });
  }
  return gatherer.finish();
}
