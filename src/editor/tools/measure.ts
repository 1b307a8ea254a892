import type { Point2 } from "../../geometry/point.ts";
import { selfCrossings } from "../../geometry/polygon.ts";
import { fail, ok } from "../../units/problem.ts";
import { inches } from "../../units/quantity.ts";
import { DraftPen } from "../draft.ts";
import {
  areaWords,
  degreesWords,
  extentOf,
  type Level,
  lengthWords,
  levelAt,
  measured,
  sizeWords,
} from "../measured.ts";
import { asDisplayed, sheetPerInch } from "../parse-position.ts";
import { pickedOf } from "../selection.ts";
import type { Tool, ToolContext, Wanted } from "../tool.ts";
import { wordLevel, wordLevels } from "../words.ts";
import type { MeasureState } from "./tool-state.ts";
import { inViewport, problemOf, readySheet, repeats, viewportFor } from "./tool-steps.ts";

const BLANK: MeasureState = { tool: "measure", points: [], done: false, closed: false };

/** Measures between points, along several, and round an outline that is closed on its first point; told in the prompt, and no record of the job. */
export const measureTool: Tool<MeasureState> = {
  start(_request, context) {
    const ready = readySheet(context);
    return ready.ok ? ok(BLANK) : ready;
  },
  reduce(state, event, context) {
    const { points, done } = state;
    switch (event.is) {
      case "point": {
        const before = done ? [] : points;
        if (repeats(points, event.at)) return { state };
        const [first] = before;
        const viewport = viewportFor(context, first ?? event.at);
        const scaled = viewport.ok ? sheetPerInch(context.job, viewport.value) : viewport;
        if (!viewport.ok) return { state, ...problemOf(viewport) };
        if (!scaled.ok) return { state, ...problemOf(scaled) };
        const inside = inViewport(context, viewport.value, event.at);
        if (!inside.ok) return { state, ...problemOf(inside) };
        if (first && before.length > 2 && first[0] === event.at[0] && first[1] === event.at[1]) return closed(state);
        return { state: { ...BLANK, points: [...before, event.at] } };
      }
      case "finish":
        return points.length < 2 || done ? { state, used: false } : { state: { ...state, done: true } };
      case "back":
        if (points.length === 0) return { state, used: false };
        return { state: done ? { ...state, done: false, closed: false } : { ...state, points: points.slice(0, -1) } };
      case "release":
        return { state: BLANK };
      default:
        return { state, used: false };
    }
  },
  wanted: told,
  busy: ({ points, done }) => points.length > 0 && !done,
  draws: true,
  stands: () => true,
  points: ({ points, done }) => (done ? [] : points),
  draft({ points, done, closed: round }, at, context) {
    const pen = new DraftPen(context.pixel);
    const open = at && !done && points.length > 0 ? [...points, at] : points;
    return [
      ...pen.line(open, { closed: round }),
      ...pen.handles(points),
      ...(open.length > points.length ? lengthBeside(pen, points.at(-1)!, at!, context) : []),
    ];
  },
};

function closed(state: MeasureState) {
  return selfCrossings(state.points).length > 0
    ? { state, ...problemOf(fail("ring.crosses-itself")) }
    : { state: { ...state, done: true, closed: true } };
}

/** The length so far, written at the end of the piece that is being drawn. */
function lengthBeside(pen: DraftPen, from: Point2, at: Point2, context: ToolContext) {
  const { job, sheet, pixel } = context;
  const viewport = viewportFor(context, from);
  const perInch = viewport.ok ? sheetPerInch(job, viewport.value) : viewport;
  if (!perInch.ok) return [];
  const rotate = job.sheets[sheet ?? ""]?.rotate ?? 0;
  const length = inches(Math.hypot(at[0] - from[0], at[1] - from[1]) / perInch.value);
  const [dx, dy] = asDisplayed([10 * pixel, 10 * pixel], rotate);
  return pen.text(lengthWords(length, job.settings.job.system), [at[0] + dx, at[1] + dy], asDisplayed([1, 0], rotate));
}

function told({ points, done, closed: round }: MeasureState, context: ToolContext): Wanted {
  const { job, sheet, selection } = context;
  const { system } = job.settings.job;
  const asks: Wanted["asks"] = points.length === 0 || done ? ["position"] : ["length", "position"];
  const [first] = points;
  const viewport = first ? viewportFor(context, first) : null;
  if (!first || !viewport?.ok || sheet === null) {
    const [only, ...others] = pickedOf(selection);
    return { code: "measure.first", params: { of: only && others.length === 0 ? sizeWords(job, only) : "" }, asks };
  }
  const levelOf = (at: Point2): Level | undefined => levelAt(job, sheet, viewport.value, at);
  const from = points.at(-2);
  const to = levelOf(points.at(-1)!);
  const figures = from && measured(job, viewport.value, points);
  if (!from || !figures?.ok) return { code: "measure.next", params: { level: to ? wordLevel(to, system) : "" }, asks };
  const extent = round ? extentOf(job, viewport.value, [points]) : null;
  if (extent?.ok) {
    const { squareInches, round: length } = extent.value;
    const params = { area: areaWords(squareInches, system), round: lengthWords(length, system) };
    return { code: "measure.area", params, asks };
  }
  const { last, total, pieces, degrees, turn } = figures.value;
  return {
    code: "measure.told",
    params: {
      last: lengthWords(last, system),
      total: lengthWords(total, system),
      pieces,
      degrees: degreesWords(degrees),
      turn: turn === null ? "" : degreesWords(Math.abs(turn)),
      side: (turn ?? 0) < 0 ? "right" : "left",
      levels: wordLevels(levelOf(from), to, last, system),
      done: done ? 1 : 0,
      enough: points.length > 2 ? 1 : 0,
    },
    asks,
  };
}
