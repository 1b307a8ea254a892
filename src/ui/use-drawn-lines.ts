import { useEffect } from "react";
import { useStore } from "zustand";
import { useDesk, useHost, useSession } from "./desk-context.ts";
import { drawnLinesOf } from "./drawn-lines-of.ts";
import { reportBug } from "./report-bug.ts";

/** Reads the linework and the words of the sheet shown, and hands them to the session. What it came to is kept with the view, to be said where somebody asks. */
export function useDrawnLines(): void {
  const { session, host, view } = useDesk();
  const sheetId = useSession((state) => state.sheet);
  const page = useSession((state) => (state.sheet === null ? undefined : state.job.sheets[state.sheet]?.page));
  const sha256 = useSession((state) => (state.sheet === null ? undefined : state.job.sheets[state.sheet]?.file.sha256));
  const drawing = useHost((state) => (sha256 === undefined ? undefined : state.drawings[sha256]));
  const handle = drawing?.is === "open" ? drawing.handle : undefined;
  const asked = useStore(view.store, (state) => state.linesAsked);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asking again is the occasion
  useEffect(() => {
    if (sheetId === null || page === undefined || handle === undefined) return;
    let wanted = true;
    const say = (lines: "reading" | "there" | "none" | "partial" | "stopped") =>
      view.store.setState({ lines: { sheet: sheetId, is: lines } });
    session.setDrawn(sheetId, null);
    session.setWords(sheetId, null);
    say("reading");
    host.pageLines(handle, page).then(
      (found) => {
        if (!wanted) return;
        const lines = found && drawnLinesOf(found.linework);
        session.setDrawn(sheetId, lines);
        session.setWords(sheetId, found?.words ?? null);
        say(!found ? "stopped" : !lines ? "none" : found.linework.partial ? "partial" : "there");
      },
      (error: unknown) => {
        if (!wanted) return;
        say("stopped");
        // A drawing that was closed meanwhile is no bug, and neither is a worker that had to be replaced.
        if (!(error instanceof Error) || error.name === "AbortError" || error.name === "RendererLost") return;
        reportBug(error);
      },
    );
    return () => {
      wanted = false;
    };
  }, [session, host, view, sheetId, handle, page, asked]);
}
