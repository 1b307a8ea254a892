import { useEffect, useState } from "react";
import type { PageContents } from "../pdf/read/plan-contents.ts";
import { parseScaleNote, type ScaleNote } from "../units/scale-note.ts";
import { useDesk, useHost, useSession } from "./desk-context.ts";

/** The scale notes written on a sheet, each once, in the order of their size; undefined while they are being read. */
export function useScaleNotes(sheetId: string): readonly ScaleNote[] | undefined {
  const { host } = useDesk();
  const sheet = useSession((state) => state.job.sheets[sheetId]);
  const drawing = useHost((state) => (sheet ? state.drawings[sheet.file.sha256] : undefined));
  const handle = drawing?.is === "open" ? drawing.handle : undefined;
  const page = sheet?.page;
  const [notes, setNotes] = useState<readonly ScaleNote[]>();
  useEffect(() => {
    if (handle === undefined || page === undefined) return;
    const stop = new AbortController();
    host.renderer
      .readPlan(handle, page, stop.signal)
      .then((contents) => setNotes(notesIn(contents)))
      // A page whose text cannot be read offers no notes; the scale can still be typed or measured.
      .catch(() => stop.signal.aborted || setNotes([]));
    return () => stop.abort();
  }, [host, handle, page]);
  return notes;
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
