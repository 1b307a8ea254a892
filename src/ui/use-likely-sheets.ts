import { useEffect } from "react";
import type { SheetView } from "../canvas/sheet-view.ts";
import { sheetsInOrder } from "../editor/sheet-order.ts";
import { useHost, useSession } from "./desk-context.ts";

/** Tells the view which sheets may be wanted next: the one after the sheet shown, and the one before it. */
export function useLikelySheets(sheetView: SheetView | undefined, sheetId: string | null): void {
  const sheets = useSession((state) => state.job.sheets);
  const drawings = useHost((state) => state.drawings);
  useEffect(() => {
    if (!sheetView || sheetId === null) return;
    const order = sheetsInOrder({ sheets });
    const here = order.indexOf(sheetId);
    const pages = [order[here + 1], order[here - 1]].flatMap((id) => {
      const sheet = id === undefined ? undefined : sheets[id];
      const drawing = sheet && drawings[sheet.file.sha256];
      return sheet && drawing?.is === "open" ? [{ handle: drawing.handle, page: sheet.page }] : [];
    });
    sheetView.expectPages(pages);
  }, [sheetView, sheetId, sheets, drawings]);
}
