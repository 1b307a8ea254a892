import { ok } from "../../units/problem.ts";
import { addArea, addHole, setAreaOutline } from "../edits/areas.ts";
import type { Tool } from "../tool.ts";
import { outlining } from "./outlining.ts";
import type { OutlineAreaState } from "./tool-state.ts";
import { chosenArea, problemOf, readySheet, sheetOfArea, viewportFor } from "./tool-steps.ts";

/** Outlines a deck area, gives one another outline, or cuts a hole into one. Closes on the first point or with Enter. */
export const outlineAreaTool: Tool<OutlineAreaState> = {
  start({ area, part = "outline", byRegion = false }, context) {
    const ready = readySheet(context);
    if (!ready.ok) return ready;
    const blank = { tool: "outline-area", part, points: [], byRegion } as const;
    if (area === undefined && part === "outline") return ok({ ...blank, area: null });
    const chosen = chosenArea(context, area);
    return chosen.ok ? ok({ ...blank, area: chosen.value }) : chosen;
  },
  ...outlining<OutlineAreaState>(
    (state, context) => {
      const { area, part, points } = state;
      const viewport = area === null ? viewportFor(context, points[0]!) : ok("");
      if (!viewport.ok) return { state, ...problemOf(viewport) };
      const id = area ?? context.newId();
      const edit =
        area === null
          ? addArea(context.job, id, viewport.value, points)
          : (part === "hole" ? addHole : setAreaOutline)(context.job, area, points);
      return edit.ok
        ? { state: null, edit: edit.value, select: { table: "areas", id } }
        : { state, ...problemOf(edit) };
    },
    ({ part }) => part,
  ),
  draws: true,
  stands: ({ area }, job) => area === null || area in job.areas,
  sheetOf: ({ area }, job) => (area === null ? null : sheetOfArea(job, area)),
};
