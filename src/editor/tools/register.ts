import type { Point2 } from "../../geometry/point.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { registerViewport } from "../edits/registration.ts";
import type { Tool, ToolContext } from "../tool.ts";
import type { RegisterState } from "./tool-state.ts";
import { chosenViewport, problemOf } from "./tool-steps.ts";

/** Registers a viewport on another: a point here and the same point there, twice or more; the sheet changes in between. */
export const registerTool: Tool<RegisterState> = {
  start(request, context) {
    const viewport = chosenViewport(context, request.viewport);
    if (!viewport.ok) return viewport;
    const known = context.job.viewports[viewport.value]?.registration ?? null;
    const to = chosenOther(context.job, viewport.value, request.to ?? known?.to);
    if (!to.ok) return to;
    const pairs = known?.to === to.value ? known.pairs : [];
    return ok({ tool: "register", viewport: viewport.value, to: to.value, pairs, begun: pairs, here: null, label: "" });
  },
  reduce(state, event, context) {
    const { viewport, to, pairs, here, label } = state;
    const { job } = context;
    const sheetOf = (id: Id) => job.viewports[id]!.sheet;
    switch (event.is) {
      case "point": {
        const wanted = here === null ? viewport : to;
        // Another point on the first sheet replaces the one put there, as long as the two are different sheets.
        if (here !== null && sheetOf(viewport) !== sheetOf(to) && context.sheet === sheetOf(viewport))
          return { state: { ...state, here: event.at }, sheet: sheetOf(to) };
        if (context.sheet !== sheetOf(wanted)) {
          const sheet = sheetOf(wanted);
          return {
            state,
            sheet,
            ...problemOf(fail("tool.other-sheet", "", { sheet: job.sheets[sheet]?.title ?? "" })),
          };
        }
        if (!holds(job, wanted, event.at))
          return { state, ...problemOf(fail("tool.other-viewport", "", { viewport: job.viewports[wanted]!.name })) };
        if (here === null) return { state: { ...state, here: event.at }, sheet: sheetOf(to) };
        const pair = { label: label || `${pairs.length + 1}`, here, there: event.at };
        return { state: { ...state, pairs: [...pairs, pair], here: null, label: "" }, sheet: sheetOf(viewport) };
      }
      case "typed":
        return { state: { ...state, label: event.text.trim() } };
      case "finish": {
        const edit = registerViewport(job, viewport, to, [...pairs]);
        return edit.ok ? { state: null, edit: edit.value } : { state, ...problemOf(edit) };
      }
      case "back":
        if (here !== null) return { state: { ...state, here: null }, sheet: sheetOf(viewport) };
        if (pairs.length === 0) return { state, used: false };
        return { state: { ...state, pairs: pairs.slice(0, -1) }, sheet: sheetOf(viewport) };
      case "release":
        return { state: { ...state, here: null, label: "", pairs: state.begun }, sheet: sheetOf(viewport) };
      default:
        return { state, used: false };
    }
  },
  wanted({ viewport, to, pairs, here, label }, { job }) {
    const name = (id: Id) => job.viewports[id]?.name ?? "";
    const pair = label || pairs.length + 1;
    if (here !== null)
      return { code: "register.there", params: { pair, there: name(to) }, asks: ["label", "position"] };
    const enough = pairs.length >= 2;
    return {
      code: enough ? "register.here-enough" : "register.here",
      params: { pair, here: name(viewport), count: pairs.length },
      asks: ["label", "position"],
    };
  },
  busy: ({ here, pairs, label, begun }) => here !== null || label !== "" || pairs !== begun,
  stands: ({ viewport, to }, job) => viewport in job.viewports && to in job.viewports,
  sheetOf: ({ viewport }, job) => job.viewports[viewport]?.sheet ?? null,
  acrossSheets: true,
  points: (state, context) => shown(state, context),
  draft(state, _at, context) {
    const pen = new DraftPen(context.pixel);
    return shown(state, context).flatMap((at) => [...pen.cross(at, 12), ...pen.ring(at, 7)]);
  },
};

/** The points of the pairs that lie on the shown sheet, in the order they were put. */
function shown({ viewport, to, pairs, here }: RegisterState, { job, sheet }: ToolContext): Point2[] {
  const on = (id: Id) => job.viewports[id]?.sheet === sheet;
  const points = pairs.flatMap((pair) => [...(on(viewport) ? [pair.here] : []), ...(on(to) ? [pair.there] : [])]);
  return here !== null && on(viewport) ? [...points, here] : points;
}

function holds(job: Job, viewport: Id, [x, y]: Point2): boolean {
  const region = job.viewports[viewport]?.region ?? null;
  return region === null || (x >= region[0] && x <= region[2] && y >= region[1] && y <= region[3]);
}

/** The viewport to register on: the one asked for, the only other one, or the only other one that is not registered itself. */
function chosenOther(job: Job, viewport: Id, asked: Id | undefined): Result<Id> {
  if (asked !== undefined && asked !== viewport && asked in job.viewports) return ok(asked);
  const others = Object.keys(job.viewports).filter((id) => id !== viewport);
  const [only, ...more] = others;
  if (only === undefined) return fail("tool.no-other-viewport");
  if (more.length === 0) return ok(only);
  const roots = others.filter(
    (id) => job.viewports[id]!.registration === null && job.viewports[id]!.scale.use !== null,
  );
  return roots.length === 1 ? ok(roots[0]!) : fail("tool.choose-viewport");
}
