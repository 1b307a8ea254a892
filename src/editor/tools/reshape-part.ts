import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { setViewport } from "../edits/sheets.ts";
import { cornersOf, type Region } from "../region.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { ReshapePartState } from "./tool-state.ts";
import { chosenViewport, problemOf } from "./tool-steps.ts";

type Step = ToolStep<ReshapePartState>;

/** Moves the corners of a part of a sheet, by dragging, or by choosing one and putting it elsewhere. The opposite corner stays. */
export const reshapePartTool: Tool<ReshapePartState> = {
  start({ viewport: asked }, context) {
    const viewport = chosenViewport(context, asked);
    if (!viewport.ok) return viewport;
    if (!regionOf(context.job, viewport.value)) return fail("tool.no-part");
    return ok({ tool: "reshape-part", viewport: viewport.value, corner: null, to: null });
  },
  reduce(state, event, context) {
    const { corner } = state;
    switch (event.is) {
      case "grab": {
        const near = nearestCorner(state, event.at, context);
        return near === undefined ? { state, used: false } : { state: { ...state, corner: near, to: null } };
      }
      case "drag":
        return corner === null ? { state, used: false } : { state: { ...state, to: event.at } };
      case "drop":
        return put(state, event.at, context);
      case "point": {
        const near = corner === null ? nearestCorner(state, event.at, context) : undefined;
        if (corner !== null) return put(state, event.at, context);
        return near === undefined
          ? { state, ...problemOf(fail("tool.no-corner")) }
          : { state: { ...state, corner: near } };
      }
      case "key": {
        if ((event.key !== "." && event.key !== ",") || event.ctrl) return { state, used: false };
        const by = event.key === "." ? 1 : 3;
        return { state: { ...state, corner: corner === null ? 0 : (corner + by) % 4, to: null } };
      }
      case "finish":
        return corner === null ? { state: null } : { state: { ...state, corner: null, to: null } };
      case "back":
      case "release":
        return corner === null ? { state, used: false } : { state: { ...state, corner: null, to: null } };
      default:
        return { state, used: false };
    }
  },
  wanted: ({ viewport, corner }, { job }) => ({
    code: corner === null ? "reshape-part.first" : "reshape-part.second",
    params: { viewport: job.viewports[viewport]?.name ?? "" },
    asks: corner === null ? [] : ["position"],
  }),
  busy: ({ corner }) => corner !== null,
  snaps: () => false,
  sheetOf: ({ viewport }, job) => job.viewports[viewport]?.sheet ?? null,
  stands: ({ viewport }, job) => regionOf(job, viewport) !== null,
  points: ({ viewport, corner }, { job }) => {
    const region = regionOf(job, viewport);
    return region && corner !== null ? [cornersOf(region)[corner]!] : [];
  },
  draft({ viewport, corner, to }, at, { job, sheet, pixel }) {
    const region = regionOf(job, viewport);
    if (!region || job.viewports[viewport]?.sheet !== sheet) return [];
    const pen = new DraftPen(pixel);
    const corners = cornersOf(region);
    const next = to ?? at;
    const ghost = corner === null || !next ? [] : cornersOf(between(corners[(corner + 2) % 4]!, next));
    return [...pen.line(ghost, { closed: true, dashed: true }), ...pen.handles(corners, corner ?? undefined)];
  },
};

const regionOf = (job: Job, viewport: Id): Region | null => job.viewports[viewport]?.region ?? null;

const between = ([x0, y0]: Point2, [x1, y1]: Point2): Region => [x0, y0, x1, y1];

function nearestCorner({ viewport }: ReshapePartState, at: Point2, { job, reach }: ToolContext): number | undefined {
  const region = regionOf(job, viewport);
  const [first] = (region ? cornersOf(region) : [])
    .map((corner, i) => ({ i, distance: distance2(corner, at) }))
    .filter(({ distance }) => distance <= reach)
    .toSorted((a, b) => a.distance - b.distance);
  return first?.i;
}

/** The chosen corner put at a place. */
function put(state: ReshapePartState, at: Point2, { job, reach }: ToolContext): Step {
  const region = regionOf(job, state.viewport);
  if (!region || state.corner === null) return { state, used: false };
  const opposite = cornersOf(region)[(state.corner + 2) % 4]!;
  const idle = { ...state, corner: null, to: null };
  if (Math.abs(at[0] - opposite[0]) <= reach || Math.abs(at[1] - opposite[1]) <= reach)
    return { state: idle, ...problemOf(fail("edit.empty-region")) };
  const edit = setViewport(job, state.viewport, { region: between(opposite, at) });
  return edit.ok ? { state: idle, edit: edit.value } : { state: idle, ...problemOf(edit) };
}
