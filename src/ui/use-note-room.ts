import { useEffect } from "react";
import type { ScreenMark } from "../canvas/screen-mark.ts";
import { noteRoom } from "../issue/note-room.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import { useDesk, useSession } from "./desk-context.ts";
import { usePageContents } from "./use-page-contents.ts";

const NO_WORDS: readonly TextRun[] = [];

/** Tells the session where words find room on the sheet shown: beside its marks and the drawing's own words. */
export function useNoteRoom(sheetId: string | null, layers: Readonly<Record<string, readonly ScreenMark[]>>): void {
  const { session } = useDesk();
  const sheet = useSession((state) => (sheetId === null ? undefined : state.job.sheets[sheetId]));
  const words = usePageContents(sheetId)?.texts ?? NO_WORDS;
  useEffect(() => {
    if (sheetId !== null && sheet) session.setRoom(sheetId, noteRoom(sheet, Object.values(layers).flat(), words));
  }, [session, sheetId, sheet, layers, words]);
}
