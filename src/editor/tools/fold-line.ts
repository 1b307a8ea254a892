import { distance2, type Point2 } from "../../geometry/point.ts";
import type { SpotsShape } from "../../job/fold-lines.ts";
import type { FoldLine, Job } from "../../job/schema.ts";
import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { addFoldLine } from "../edits/spots.ts";
import { parseFoldLine } from "../parse-fold-line.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { FoldLineState } from "./tool-state.ts";
import { chosenArea, problemOf, sheetOfArea } from "./tool-steps.ts";

/** Draws lines a deck folds along from spot to spot: by pointing at two of them, or by typing their numbers; one after the other, until Enter or Escape. */
export const foldLineTool: Tool<FoldLineState> = {
  start(request, context) {
    const area = chosenArea(context, request.area);
    if (!area.ok) return area;
    if (!shapeOf(context.job, area.value)) return fail("fold.no-spots");
    return ok({ tool: "fold-line", area: area.value, kind: request.kind ?? "ridge", from: null });
  },
  reduce(state, event, context) {
    const { area, from } = state;
    switch (event.is) {
      case "point": {
        const spot = spotNear(context, area, event.at);
        if (spot === undefined) return { state, ...problemOf(fail("fold.no-spot-there")) };
        if (from === null) return { state: { ...state, from: spot } };
        // The second half of a double click.
        if (from === spot) return { state };
        return drawn(state, [from, spot], context);
      }
      case "typed": {
        const typed = parseFoldLine(event.text);
        if (!typed.ok) return { state, ...problemOf(typed) };
        const named = { ...state, kind: typed.value.kind ?? state.kind };
        return typed.value.between ? drawn(named, typed.value.between, context, state) : { state: named };
      }
      case "finish":
        return from === null ? { state: null } : { state: { ...state, from: null } };
      case "back":
        return from === null ? { state, used: false } : { state: { ...state, from: null } };
      case "release":
        return { state: { ...state, from: null } };
      default:
        return { state, used: false };
    }
  },
  wanted({ area, kind, from }, { job }) {
    const label = job.areas[area]?.label ?? "";
    return from === null
      ? { code: "fold.first", params: { label, kind }, asks: ["fold"] }
      : { code: "fold.second", params: { kind, spot: from }, asks: ["fold"] };
  },
  busy: ({ from }) => from !== null,
  stands: ({ area, from }, job) => {
    const shape = shapeOf(job, area);
    return shape !== undefined && (from === null || from <= shape.spots.length);
  },
  sheetOf: ({ area }, job) => sheetOfArea(job, area),
  points: ({ area, from }, { job }) => {
    const spot = from === null ? undefined : shapeOf(job, area)?.spots[from - 1];
    return spot ? [spot.at] : [];
  },
  draft({ area, from }, at, { job, pixel }) {
    const spots = shapeOf(job, area)?.spots ?? [];
    const pen = new DraftPen(pixel);
    const start = from === null ? undefined : spots[from - 1];
    return [
      ...spots.flatMap((spot) => pen.ring(spot.at, 6)),
      ...(start && at ? pen.line([start.at, at]) : []),
      ...(start ? pen.handles([start.at]) : []),
    ];
  },
};

function shapeOf(job: Job, area: string): SpotsShape | undefined {
  const shape = job.areas[area]?.elevation.shape;
  return shape?.is === "spots" ? shape : undefined;
}

/** The number of the spot a point means, counted from 1: the nearest within reach. */
function spotNear({ job, reach }: ToolContext, area: string, at: Point2): number | undefined {
  const spots = shapeOf(job, area)?.spots ?? [];
  const near = spots.map((spot, i) => ({ number: i + 1, apart: distance2(spot.at, at) }));
  return near.filter(({ apart }) => apart <= reach).sort((a, b) => a.apart - b.apart)[0]?.number;
}

function drawn(
  state: FoldLineState,
  between: FoldLine["between"],
  { job }: ToolContext,
  before: FoldLineState = state,
): ToolStep<FoldLineState> {
  const edit = addFoldLine(job, state.area, { between, kind: state.kind });
  if (!edit.ok) return { state: before, ...problemOf(edit) };
  return { state: { ...state, from: null }, edit: edit.value, select: { table: "areas", id: state.area } };
}
