import type { Point2 } from "../../geometry/point.ts";
import { ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { pickAt } from "../pick.ts";
import { cornersOf } from "../region.ts";
import { pickedOf, type Selection, withAlso, withTurned } from "../selection.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import { inWindow } from "../window.ts";
import type { SelectSeveralState } from "./tool-state.ts";

const BEGUN: SelectSeveralState = {
  tool: "select-several",
  corner: null,
  held: null,
  takes: "touched",
  lasts: true,
};

/** The state in which a held pointer draws one window and the standing tool takes over again: what Shift or Control with a drag does. */
export const windowFrom = (at: Point2): SelectSeveralState => ({ ...BEGUN, held: { from: at, to: at }, lasts: false });

/** Whether a click or a window adds to the selection: Shift or Control is held, as on every platform. */
export const adds = (held: { readonly shift: boolean; readonly ctrl: boolean }): boolean => held.shift || held.ctrl;

/** The selection with what was clicked added to it, or taken out where it was in it; as it was where nothing was there. */
export function turned(context: ToolContext, at: Point2, mark: string | null | undefined): Selection {
  // A vertex of what is selected is no thing of its own here.
  const there = pickedOf(pickAt({ ...context, selection: null }, at, mark));
  return there.length === 0 ? context.selection : withTurned(context.selection, there);
}

/** Selects several things: a click adds a thing or takes it out, a drag or two corners are a window whose things are added. */
export const selectSeveralTool: Tool<SelectSeveralState> = {
  start: () => ok(BEGUN),
  reduce(state, event, context) {
    const { corner, held } = state;
    switch (event.is) {
      case "grab":
        return { state: { ...state, held: { from: corner ?? event.at, to: event.at } } };
      case "drag":
        return held ? { state: { ...state, held: { ...held, to: event.at } } } : { state, used: false };
      case "drop":
        return held ? taken(state, held.from, event.at, context) : { state, used: false };
      case "point": {
        if (corner !== null) return taken(state, corner, event.at, context);
        const selection = turned(context, event.at, event.mark);
        if (selection === context.selection) return { state: { ...state, corner: event.at } };
        return { state, select: selection };
      }
      case "finish":
        return { state: null };
      case "back":
        return corner === null ? { state, used: false } : { state: { ...state, corner: null } };
      case "release":
        // A press that was a click after all leaves the first corner of a window where it is.
        if (held !== null) return { state: state.lasts ? { ...state, held: null } : null };
        return { state: { ...state, corner: null } };
      case "key":
        if (event.key.toLowerCase() !== "i" || event.ctrl) return { state, used: false };
        return { state: { ...state, takes: state.takes === "touched" ? "inside" : "touched" } };
      default:
        return { state, used: false };
    }
  },
  wanted({ corner, held, takes }, context) {
    const params = { takes, selected: pickedOf(context.selection).length };
    if (held === null || (held.from[0] === held.to[0] && held.from[1] === held.to[1]))
      return { code: corner === null ? "several.idle" : "several.corner", params, asks: [] };
    const count = inWindow(context, held.from, held.to, takes).length;
    return { code: "several.window", params: { ...params, count }, asks: [] };
  },
  busy: ({ corner, held }) => corner !== null || held !== null,
  // A window lies beside things, not on them.
  snaps: () => false,
  stands: () => true,
  points: ({ corner }) => (corner ? [corner] : []),
  draft({ corner, held, takes }, at, { pixel }) {
    const from = held?.from ?? corner;
    const to = held?.to ?? at;
    if (!from) return [];
    const pen = new DraftPen(pixel);
    const window = to ? pen.line(cornersOf([...from, ...to]), { closed: true, dashed: takes === "touched" }) : [];
    return held ? window : [...window, ...pen.handles([from])];
  },
};

function taken(
  state: SelectSeveralState,
  from: Point2,
  to: Point2,
  context: ToolContext,
): ToolStep<SelectSeveralState> {
  const select = withAlso(context.selection, inWindow(context, from, to, state.takes));
  return { state: state.lasts ? { ...state, corner: null, held: null } : null, select };
}
