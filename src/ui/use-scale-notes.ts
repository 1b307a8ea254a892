import { useMemo } from "react";
import { partsOf } from "../editor/edits/sheets.ts";
import type { Id } from "../job/fields.ts";
import type { Sheet, Viewport } from "../job/schema.ts";
import type { ScaleNote } from "../units/scale-note.ts";
import { useSession } from "./desk-context.ts";
import { scaleNotesIn } from "./scale-notes-in.ts";
import { usePageContents } from "./use-page-contents.ts";

/**
 * The scale notes written on a viewport's sheet, each once, those that stand by the viewport first; undefined while they are being read. A
 * page whose text cannot be read offers none; the scale can still be typed or measured.
 */
export function useScaleNotes(
  id: Id,
  { sheet: sheetId, region }: Viewport,
  sheet: Sheet,
): readonly ScaleNote[] | undefined {
  const contents = usePageContents(sheetId);
  const job = useSession((state) => state.job);
  return useMemo(() => {
    if (contents === undefined) return undefined;
    const others = partsOf(job, sheetId).flatMap(([other, part]) =>
      other === id || !part.region ? [] : [part.region],
    );
    return contents === null ? [] : scaleNotesIn(contents.texts, { region, others, sheet });
  }, [contents, job, id, sheetId, region, sheet]);
}
