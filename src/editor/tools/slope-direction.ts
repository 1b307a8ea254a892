import { distance2 } from "../../geometry/point.ts";
import { parseLength } from "../../units/parse-length.ts";
import { fail, ok } from "../../units/problem.ts";
import { parseSlope, type Slope } from "../../units/slope.ts";
import { DraftPen } from "../draft.ts";
import { setElevation } from "../edits/areas.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { SlopeDirectionState } from "./tool-state.ts";
import { chosenArea, problemOf, sheetOfArea, unitOf } from "./tool-steps.ts";

/** Gives a deck a slope: a point with its elevation, a second point down the slope, and the slope as it is written. */
export const slopeDirectionTool: Tool<SlopeDirectionState> = {
  start(request, context) {
    const area = chosenArea(context, request.area);
    if (!area.ok) return area;
    const shape = context.job.areas[area.value]!.elevation.shape;
    const at = "at" in shape ? shape.at : null;
    return ok({ tool: "slope-direction", area: area.value, point: null, at, towards: null });
  },
  reduce(state, event, context) {
    const { area, point, towards } = state;
    switch (event.is) {
      case "point":
        if (point === null) return { state: { ...state, point: event.at } };
        if (distance2(point, event.at) === 0) return { state, ...problemOf(fail("edit.equal-points")) };
        return { state: { ...state, towards: event.at } };
      case "typed": {
        if (point === null) return { state, ...problemOf(fail("tool.point-first")) };
        if (towards !== null) {
          const slope = parseSlope(event.text);
          return slope.ok ? done(state, slope.value, context) : { state, ...problemOf(slope) };
        }
        const at = parseLength(event.text, unitOf(context.job));
        return at.ok ? { state: { ...state, at: at.value } } : { state, ...problemOf(at) };
      }
      case "finish": {
        const known = knownSlope(context, area);
        if (point === null || towards === null) return { state, ...problemOf(fail("tool.point-first")) };
        return known ? done(state, known, context) : { state, ...problemOf(fail("tool.slope-first")) };
      }
      case "back":
        if (towards !== null) return { state: { ...state, towards: null } };
        return point === null ? { state, used: false } : { state: { ...state, point: null } };
      case "release":
        return { state: { ...state, point: null, towards: null } };
      default:
        return { state, used: false };
    }
  },
  wanted({ area, point, at, towards }, context) {
    const label = context.job.areas[area]?.label ?? "";
    if (point === null) return { code: "slope.point", params: { label }, asks: ["position"] };
    if (towards === null)
      return { code: "slope.towards", params: { at: at === null ? 0 : 1 }, asks: ["elevation", "position"] };
    const known = knownSlope(context, area);
    return known
      ? { code: "slope.slope-or-keep", params: { slope: known.text }, asks: ["slope"] }
      : { code: "slope.slope", asks: ["slope"] };
  },
  busy: ({ point }) => point !== null,
  draws: true,
  stands: ({ area }, job) => area in job.areas,
  sheetOf: ({ area }, job) => sheetOfArea(job, area),
  points: ({ point, towards }) => [point, towards].filter((one) => one !== null),
  draft({ point, towards }, at, { pixel }) {
    if (point === null) return [];
    const pen = new DraftPen(pixel);
    const to = towards ?? at;
    return [...(to ? pen.arrow(point, to) : []), ...pen.handles([point])];
  },
};

function knownSlope({ job }: ToolContext, area: string): Slope | null {
  const shape = job.areas[area]?.elevation.shape;
  return shape && "rise" in shape ? { rise: shape.rise, text: shape.text } : null;
}

function done(state: SlopeDirectionState, slope: Slope, context: ToolContext): ToolStep<SlopeDirectionState> {
  const { area, point, towards, at } = state;
  const shape = { is: "slope", at, point: point!, towards: towards!, rise: slope.rise, text: slope.text } as const;
  const edit = setElevation(context.job, area, { shape });
  return edit.ok
    ? { state: null, edit: edit.value, select: { table: "areas", id: area } }
    : { state, ...problemOf(edit) };
}
