import type { Point2 } from "../geometry/point.ts";
import type { Sheet, Viewport } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import { parseScaleNote, type ScaleNote } from "../units/scale-note.ts";

type Region = NonNullable<Viewport["region"]>;

/** What scale notes are looked for: a viewport's region, null for the whole page, and the other parts of the same sheet. Sheet space. */
export interface NoteField {
  readonly region: Region | null;
  readonly others: readonly Region[];
  readonly sheet: Pick<Sheet, "rotate" | "userUnit">;
}

/** A title stands so far below its plan, inches of paper: common practice, no source. */
const BELOW_IN = 1.5;

/**
 * Scale notes among the lines of text of a page, each ratio once. For a part of the sheet, those that stand in it or just below it come
 * first; for the whole page, those that do not stand so in one of its parts.
 */
export function scaleNotesIn(texts: readonly TextRun[], { region, others, sheet }: NoteField): readonly ScaleNote[] {
  const nearFirst = (at: Point2): number => {
    if (region === null) return others.some((other) => belongsTo(other, at, sheet)) ? 1 : 0;
    return belongsTo(region, at, sheet) ? 0 : 1;
  };
  const found = new Map<number, ScaleNote>();
  const ranked = texts.map(({ text, at }) => ({ text, rank: nearFirst(at) })).toSorted((a, b) => a.rank - b.rank);
  for (const { text } of ranked) {
    if (text.length > 60 || !/\d/.test(text)) continue;
    // A note may stand beside other words: only the part from "scale" on, or from the first digit, is one.
    const part = /scale.*$/i.exec(text)?.[0] ?? text;
    const note = parseScaleNote(part);
    const plausible = note.ok && note.value.ratio > 1 && note.value.ratio <= 5000;
    if (plausible && !found.has(note.value.ratio)) found.set(note.value.ratio, note.value);
  }
  return [...found.values()];
}

/** Whether a text stands in a region, or just below it as the page is displayed. */
function belongsTo([x0, y0, x1, y1]: Region, [x, y]: Point2, { rotate, userUnit }: NoteField["sheet"]): boolean {
  const below = (BELOW_IN * 72) / userUnit;
  const [left, bottom, right, top] = [
    rotate === 270 ? below : 0,
    rotate === 0 ? below : 0,
    rotate === 90 ? below : 0,
    rotate === 180 ? below : 0,
  ];
  return x >= x0 - left && x <= x1 + right && y >= y0 - bottom && y <= y1 + top;
}
