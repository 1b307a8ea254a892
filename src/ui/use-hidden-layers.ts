import { useEffect } from "react";
import { useStore } from "zustand";
import type { SheetView } from "../canvas/sheet-view.ts";
import { withHiddenLayers } from "../pdf/read/hidden-layers.ts";
import { useDesk, useHost, useSession } from "./desk-context.ts";
import { drawnLinesOf } from "./drawn-lines-of.ts";

/**
 * Shows the sheet with the layers that were chosen, and greyed where that was asked for; tools are then offered the lines that are seen. To be used
 * after the sheet is shown and its lines are read: a sheet begins with the layers its file shows.
 */
export function useHiddenLayers(sheetView: SheetView | undefined): void {
  const { session, host, view } = useDesk();
  const sheetId = useSession((state) => state.sheet);
  const sheet = useSession((state) => (state.sheet === null ? undefined : state.job.sheets[state.sheet]));
  const drawing = useHost((state) => (sheet ? state.drawings[sheet.file.sha256] : undefined));
  const hidden = useStore(view.store, ({ layers }) => (sheetId === null ? undefined : layers[sheetId]));
  const asked = useStore(view.store, (state) => state.linesAsked);
  const faded = useStore(view.store, (state) => state.faded);
  const handle = drawing?.is === "open" ? drawing.handle : undefined;
  const page = sheet?.page;
  useEffect(() => sheetView?.setFaded(faded), [sheetView, faded]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a sheet that is shown again, and lines that are read again, begin as the file has them
  useEffect(() => {
    if (!sheetView || sheetId === null || handle === undefined || page === undefined || !hidden) return;
    sheetView.setHiddenLayers(hidden);
    let wanted = true;
    host.pageLines(handle, page).then(
      (found) => {
        if (wanted && found) session.setDrawn(sheetId, drawnLinesOf(withHiddenLayers(found.linework, hidden)));
      },
      // Lines that cannot be read are told of where they are read for the first time.
      () => undefined,
    );
    return () => {
      wanted = false;
    };
  }, [session, host, sheetView, sheetId, handle, page, hidden, asked]);
}
