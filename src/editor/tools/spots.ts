import { parseLength } from "../../units/parse-length.ts";
import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { setSpots } from "../edits/spots.ts";
import type { Tool } from "../tool.ts";
import type { SpotsState } from "./tool-state.ts";
import { chosenArea, problemOf, repeats, sheetOfArea, unitOf } from "./tool-steps.ts";

/** Gives a deck elevations at spots: a point, its elevation, and again, three times or more; or more of them to a deck that has some. */
export const spotsTool: Tool<SpotsState> = {
  start(request, context) {
    const area = chosenArea(context, request.area);
    if (!area.ok) return area;
    const shape = context.job.areas[area.value]!.elevation.shape;
    const spots = shape.is === "spots" && !request.again ? shape.spots : [];
    return ok({ tool: "spots", area: area.value, spots, begun: spots.length });
  },
  reduce(state, event, context) {
    const { area, spots, begun } = state;
    switch (event.is) {
      case "point":
        if (
          repeats(
            spots.map(({ at }) => at),
            event.at,
          )
        )
          return { state };
        return { state: { ...state, spots: [...spots, { at: event.at, elevation: null }] } };
      case "typed": {
        const last = spots.at(-1);
        if (!last || spots.length === begun) return { state, ...problemOf(fail("tool.point-first")) };
        const elevation = parseLength(event.text, unitOf(context.job));
        if (!elevation.ok) return { state, ...problemOf(elevation) };
        return { state: { ...state, spots: spots.with(-1, { ...last, elevation: elevation.value }) } };
      }
      case "finish": {
        if (spots.length === begun) return begun === 0 ? { state, used: false } : { state: null };
        const from = spots.map((_, i) => (i < begun ? i : undefined));
        const edit = setSpots(context.job, area, spots, from);
        if (!edit.ok) return { state, ...problemOf(edit) };
        return { state: null, edit: edit.value, select: { table: "areas", id: area } };
      }
      case "back":
        return spots.length === begun ? { state, used: false } : { state: { ...state, spots: spots.slice(0, -1) } };
      case "release":
        return { state: { ...state, spots: spots.slice(0, begun) } };
      default:
        return { state, used: false };
    }
  },
  wanted({ area, spots, begun }, { job }) {
    const last = spots.at(-1);
    const count = spots.length;
    if (begun > 0 && count === begun)
      return { code: "spots.more", params: { count, next: count + 1 }, asks: ["position"] };
    if (!last) return { code: "spots.first", params: { label: job.areas[area]?.label ?? "" }, asks: ["position"] };
    if (last.elevation === null) return { code: "spots.elevation", params: { count }, asks: ["elevation", "position"] };
    if (count < 3) return { code: "spots.next", params: { next: count + 1 }, asks: ["elevation", "position"] };
    return { code: "spots.enough", params: { count }, asks: ["elevation", "position"] };
  },
  busy: ({ spots, begun }) => spots.length > begun,
  stands: ({ area }, job) => area in job.areas,
  sheetOf: ({ area }, job) => sheetOfArea(job, area),
  points: ({ spots }) => spots.map(({ at }) => at),
  draft({ spots }, _at, { pixel }) {
    const pen = new DraftPen(pixel);
    return spots.flatMap(({ at, elevation }) => [...pen.cross(at, 10), ...(elevation ? pen.ring(at, 6) : [])]);
  },
};
