import { nextLabel } from "../../job/labels.ts";
import { findRacewayKind } from "../../trade/raceways.ts";
import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { addRun } from "../edits/elements.ts";
import { parseTag, tagIn } from "../parse-tag.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { TraceRunState } from "./tool-state.ts";
import { problemOf, readySheet, repeats, viewportFor } from "./tool-steps.ts";

/** Traces runs: vertices, a tag typed at any of them, Enter or a double click at the end; then the next run of the same wiring. */
export const traceRunTool: Tool<TraceRunState> = {
  start({ type, tradeSize }, context) {
    const ready = readySheet(context);
    if (!ready.ok) return ready;
    const last = lastWiring(context);
    const wiring =
      type === undefined && tradeSize === undefined && last
        ? last
        : {
            type: type ?? last?.type ?? "emt",
            tradeSize: tradeSize ?? last?.tradeSize ?? "3/4",
            outsideDiameter: null,
          };
    return ok({ tool: "trace-run", wiring, vertices: [], firstTag: null });
  },
  reduce(state, event, context) {
    const { vertices, firstTag, wiring } = state;
    switch (event.is) {
      case "point": {
        if (
          repeats(
            vertices.map(({ at }) => at),
            event.at,
          )
        )
          return { state };
        const viewport = firstTag ? viewportFor(context, event.at) : null;
        if (viewport && !viewport.ok) return { state, ...problemOf(viewport) };
        const tag = firstTag && viewport ? tagIn(firstTag, context.job, viewport.value) : ok(null);
        if (!tag.ok) return { state, ...problemOf(tag) };
        const vertex = { at: event.at, tag: tag.value };
        return { state: { ...state, vertices: [...vertices, vertex], firstTag: null } };
      }
      case "typed": {
        const last = vertices.at(-1);
        const viewport = vertices[0] ? viewportFor(context, vertices[0].at) : ok(context.viewport);
        const tag = parseTag(event.text, context.job, viewport.ok ? viewport.value : context.viewport);
        if (!tag.ok) return { state, ...problemOf(tag) };
        if (!last) return { state: { ...state, firstTag: tag.value } };
        return { state: { ...state, vertices: vertices.with(-1, { ...last, tag: tag.value }) } };
      }
      case "key": {
        const last = vertices.at(-1);
        if (event.key.toLowerCase() !== "d" || event.ctrl || !last) return { state, used: false };
        return { state: { ...state, vertices: [...vertices, { at: last.at, tag: null }] } };
      }
      case "finish":
        return vertices.length === 0 ? { state, used: false } : ended(state, context);
      case "back":
        if (vertices.length === 0)
          return firstTag === null ? { state, used: false } : { state: { ...state, firstTag: null } };
        return { state: { ...state, vertices: vertices.slice(0, -1) } };
      case "release":
        return { state: { tool: "trace-run", wiring, vertices: [], firstTag: null } };
      default:
        return { state, used: false };
    }
  },
  wanted({ vertices, wiring }, { job }) {
    const name = `${nextLabel(job, "run")}, ${wiring.tradeSize} ${findRacewayKind(wiring.type)?.short ?? wiring.type}`;
    const params = { wiring: name };
    if (vertices.length === 0) return { code: "run.first", params, asks: ["tag", "position"] };
    // A drop goes to an elevation: a bare length typed there is its tag.
    if (isDrop(vertices)) return { code: "run.drop", params, asks: ["tag", "position"] };
    return { code: vertices.length === 1 ? "run.next" : "run.end", params, asks: ["tag", "length", "position"] };
  },
  busy: ({ vertices, firstTag }) => vertices.length > 0 || firstTag !== null,
  draws: true,
  stands: () => true,
  points: ({ vertices }) => vertices.map(({ at }) => at),
  draft({ vertices }, at, { pixel }) {
    const pen = new DraftPen(pixel);
    const points = vertices.map((vertex) => vertex.at);
    const tagged = vertices.filter(({ tag }) => tag !== null).flatMap((vertex) => pen.ring(vertex.at, 8));
    return [...pen.line(at ? [...points, at] : points), ...pen.handles(points), ...tagged];
  },
};

/** Whether a run ends in a drop whose elevation is still to be typed. */
function isDrop(vertices: TraceRunState["vertices"]): boolean {
  const [before, last] = vertices.slice(-2);
  return last !== undefined && last.tag === null && repeats([before!.at], last.at);
}

function ended(state: TraceRunState, context: ToolContext): ToolStep<TraceRunState> {
  const { vertices, wiring } = state;
  const viewport = viewportFor(context, vertices[0]!.at);
  if (!viewport.ok) return { state, ...problemOf(viewport) };
  if (vertices.length < 2) return { state, ...problemOf(fail("run.too-few-vertices", "", { count: vertices.length })) };
  const id = context.newId();
  const edit = addRun(context.job, id, { viewport: viewport.value, wiring, vertices: [...vertices] });
  if (!edit.ok) return { state, ...problemOf(edit) };
  const next: TraceRunState = { tool: "trace-run", wiring, vertices: [], firstTag: null };
  return { state: next, edit: edit.value, select: { table: "elements", id } };
}

/** The wiring of the run selected, or of the one traced last. */
function lastWiring({ job, selection }: ToolContext): TraceRunState["wiring"] | undefined {
  const chosen =
    selection && "table" in selection && selection.table === "elements" ? job.elements[selection.id] : undefined;
  const wired = [...Object.values(job.elements), ...(chosen ? [chosen] : [])].filter((element) => "wiring" in element);
  return wired.at(-1)?.wiring;
}
