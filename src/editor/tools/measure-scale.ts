import { distance2 } from "../../geometry/point.ts";
import { parseLength } from "../../units/parse-length.ts";
import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { setMeasuredScale } from "../edits/scale.ts";
import type { Tool } from "../tool.ts";
import type { MeasureScaleState } from "./tool-state.ts";
import { chosenViewport, inViewport, problemOf, unitOf, viewportFor } from "./tool-steps.ts";

/** Sets the scale of a viewport, the one asked for or the one the first point lies in: two points, then the distance written between them. */
export const measureScaleTool: Tool<MeasureScaleState> = {
  start(request, context) {
    const viewport = chosenViewport(context, request.viewport);
    if (!viewport.ok) return viewport;
    const fixed = request.viewport !== undefined;
    return ok({ tool: "measure-scale", viewport: viewport.value, fixed, points: [] });
  },
  reduce(state, event, context) {
    const { points, viewport } = state;
    switch (event.is) {
      case "point": {
        const [first] = points;
        if (!first) {
          const inside = state.fixed ? inViewport(context, viewport, event.at) : ok(null);
          if (!inside.ok) return { state, ...problemOf(inside) };
          const own = state.fixed ? ok(viewport) : viewportFor(context, event.at);
          return own.ok
            ? { state: { ...state, viewport: own.value, points: [event.at] } }
            : { state, ...problemOf(own) };
        }
        if (distance2(first, event.at) === 0) return { state, ...problemOf(fail("scale.equal-points")) };
        return { state: { ...state, points: [first, event.at] } };
      }
      case "typed": {
        const [a, b] = points;
        if (!a || !b) return { state, ...problemOf(fail("tool.points-first")) };
        const distance = parseLength(event.text, unitOf(context.job));
        if (!distance.ok) return { state, ...problemOf(distance) };
        const edit = setMeasuredScale(context.job, viewport, a, b, distance.value);
        return edit.ok
          ? { state: null, edit: edit.value, select: { table: "viewports", id: viewport } }
          : { state, ...problemOf(edit) };
      }
      case "finish":
        return { state, ...problemOf(fail(points.length < 2 ? "tool.points-first" : "tool.distance-first")) };
      case "back":
        return points.length === 0 ? { state, used: false } : { state: { ...state, points: points.slice(0, -1) } };
      case "release":
        return { state: { ...state, points: [] } };
      default:
        return { state, used: false };
    }
  },
  wanted({ points, viewport }, { job }) {
    const params = { viewport: job.viewports[viewport]?.name ?? "" };
    if (points.length === 0) return { code: "measure-scale.first", params, asks: ["position"] };
    if (points.length === 1) return { code: "measure-scale.second", params, asks: ["position"] };
    return { code: "measure-scale.distance", params, asks: ["distance"] };
  },
  busy: ({ points }) => points.length > 0,
  draws: true,
  stands: ({ viewport }, job) => viewport in job.viewports,
  sheetOf: ({ viewport }, job) => job.viewports[viewport]?.sheet ?? null,
  points: ({ points }) => points,
  draft({ points }, at, { pixel }) {
    const pen = new DraftPen(pixel);
    return [...pen.line(points.length === 1 && at ? [...points, at] : points), ...pen.handles(points)];
  },
};
