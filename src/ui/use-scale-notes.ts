import { useMemo } from "react";
import type { PageContents } from "../pdf/read/plan-contents.ts";
import { parseScaleNote, type ScaleNote } from "../units/scale-note.ts";
import { usePageContents } from "./use-page-contents.ts";

/**
 * The scale notes written on a sheet, each once, in the order of their size; undefined while they are being read. A page whose text
 * cannot be read offers none; the scale can still be typed or measured.
 */
export function useScaleNotes(sheetId: string): readonly ScaleNote[] | undefined {
  const contents = usePageContents(sheetId);
  return useMemo(() => (contents === undefined ? undefined : contents === null ? [] : notesIn(contents)), [contents]);
}

/** Scale notes among the lines of text of a page. */
function notesIn({ texts }: PageContents): readonly ScaleNote[] {
  const found = new Map<number, ScaleNote>();
  for (const { text } of texts) {
    if (text.length > 60 || !/\d/.test(text)) continue;
    // A note may stand beside other words: only the part from "scale" on, or from the first digit, is one.
    const part = /scale.*$/i.exec(text)?.[0] ?? text;
    const note = parseScaleNote(part);
    const plausible = note.ok && note.value.ratio > 1 && note.value.ratio <= 5000;
    if (plausible && !found.has(note.value.ratio)) found.set(note.value.ratio, note.value);
  }
  return [...found.values()];
}
