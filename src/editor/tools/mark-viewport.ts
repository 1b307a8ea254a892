import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { addViewport, nextPartName } from "../edits/sheets.ts";
import { cornersOf } from "../region.ts";
import type { Tool } from "../tool.ts";
import type { MarkViewportState } from "./tool-state.ts";
import { problemOf, readySheet } from "./tool-steps.ts";

const BEGUN: MarkViewportState = { tool: "mark-viewport", corner: null };

/** Marks a part of the sheet that has a scale of its own: two opposite corners. */
export const markViewportTool: Tool<MarkViewportState> = {
  start(_, context) {
    const ready = readySheet(context);
    return ready.ok ? ok(BEGUN) : ready;
  },
  reduce(state, event, context) {
    const { corner } = state;
    const { job, reach } = context;
    switch (event.is) {
      case "point": {
        if (corner === null) return { state: { ...state, corner: event.at } };
        const sheet = readySheet(context);
        if (!sheet.ok) return { state, ...problemOf(sheet) };
        const [[x0, y0], [x1, y1]] = [corner, event.at];
        // Two corners that look like one place, as of a double click, are one.
        if (Math.abs(x1 - x0) <= reach || Math.abs(y1 - y0) <= reach)
          return { state, ...problemOf(fail("edit.empty-region")) };
        const id = context.newId();
        const name = nextPartName(job, sheet.value);
        const edit = addViewport(job, id, { sheet: sheet.value, name, region: [x0, y0, x1, y1] });
        return edit.ok
          ? { state: null, edit: edit.value, select: { table: "viewports", id } }
          : { state, ...problemOf(edit) };
      }
      case "finish":
        return corner === null ? { state, used: false } : { state, ...problemOf(fail("edit.empty-region")) };
      case "back":
        return corner === null ? { state, used: false } : { state: BEGUN };
      case "release":
        return { state: BEGUN };
      default:
        return { state, used: false };
    }
  },
  wanted: ({ corner }) => ({ code: corner ? "mark-viewport.second" : "mark-viewport.first", asks: ["position"] }),
  busy: ({ corner }) => corner !== null,
  // A corner lies beside a plan, not on its lines.
  snaps: () => false,
  stands: () => true,
  points: ({ corner }) => (corner ? [corner] : []),
  draft({ corner }, at, { pixel }) {
    if (!corner) return [];
    const pen = new DraftPen(pixel);
    return [
      ...(at ? pen.line(cornersOf([...corner, ...at]), { closed: true, dashed: true }) : []),
      ...pen.handles([corner]),
    ];
  },
};
