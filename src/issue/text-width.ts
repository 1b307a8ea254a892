import type { FontFace, TextItem } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import { GLYPH_WIDTHS } from "./glyph-widths.ts";

const tables = new Map<FontFace, Map<string, number>>();

function tableOf(face: FontFace): Map<string, number> {
  let table = tables.get(face);
  if (!table) {
    table = new Map(
      GLYPH_WIDTHS[face].flatMap(([width, characters]) => [...characters].map((c) => [c, width] as const)),
    );
    tables.set(face, table);
  }
  return table;
}

/** Width of a line of text set at `size`, in the units of `size`; a character outside the table counts as 0.6 em. */
export function textWidth(text: string, size: number, face: FontFace): number {
  const table = tableOf(face);
  let sum = 0;
  for (const character of text) sum += table.get(character) ?? 600;
  return (sum * size) / 1000;
}

/** Height of capitals and figures, as a part of the em, in all three faces. */
export const CAP_HEIGHT = 0.711;
/** How far descenders reach below the baseline, as a part of the em. */
export const DESCENT = 0.21;

/** The four corners of what a text item covers, from descender to capital height, baseline start first. */
export function textCorners(item: TextItem): readonly [Point2, Point2, Point2, Point2] {
  const width = textWidth(item.text, item.size, item.face);
  const from = item.align === "start" ? 0 : item.align === "middle" ? -width / 2 : -width;
  const [c, s] = [Math.cos(item.angle), Math.sin(item.angle)];
  const [low, high] = [-DESCENT * item.size, CAP_HEIGHT * item.size];
  const at = (along: number, up: number): Point2 => [item.at[0] + along * c - up * s, item.at[1] + along * s + up * c];
  return [at(from, low), at(from + width, low), at(from + width, high), at(from, high)];
}
