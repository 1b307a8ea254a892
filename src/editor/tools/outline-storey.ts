import { fail, ok } from "../../units/problem.ts";
import { addStoreyHole, addStoreyOutline, setStoreyRing } from "../edits/storey-outlines.ts";
import type { Tool } from "../tool.ts";
import { outlining } from "./outlining.ts";
import type { OutlineStoreyState } from "./tool-state.ts";
import { problemOf, readySheet, viewportFor } from "./tool-steps.ts";

/** Outlines what stands on a deck, gives such an outline another ring, or cuts a court or shaft out of one. Closes on the first point or with Enter. */
export const outlineStoreyTool: Tool<OutlineStoreyState> = {
  start({ storey, part = "outline" }, context) {
    const ready = readySheet(context);
    if (!ready.ok) return ready;
    if (storey === undefined && part === "outline")
      return ok({ tool: "outline-storey", storey: null, part, points: [] });
    const { job, selection } = context;
    const selected = selection && "table" in selection && selection.table === "storeyOutlines" ? selection.id : "";
    const id = storey ?? selected;
    return id in job.storeyOutlines
      ? ok({ tool: "outline-storey", storey: id, part, points: [] })
      : fail("tool.no-storey-outline");
  },
  ...outlining<OutlineStoreyState>(
    (state, context) => {
      const { storey, part, points } = state;
      const viewport = storey === null ? viewportFor(context, points[0]!) : ok("");
      if (!viewport.ok) return { state, ...problemOf(viewport) };
      const id = storey ?? context.newId();
      const edit =
        storey === null
          ? addStoreyOutline(context.job, id, viewport.value, points)
          : (part === "hole" ? addStoreyHole : setStoreyRing)(context.job, storey, points);
      return edit.ok
        ? { state: null, edit: edit.value, select: { table: "storeyOutlines", id } }
        : { state, ...problemOf(edit) };
    },
    ({ part }) => (part === "hole" ? "court or shaft" : "storey above"),
  ),
  draws: true,
  stands: ({ storey }, job) => storey === null || storey in job.storeyOutlines,
  sheetOf: ({ storey }, job) => job.viewports[job.storeyOutlines[storey ?? ""]?.viewport ?? ""]?.sheet ?? null,
};
