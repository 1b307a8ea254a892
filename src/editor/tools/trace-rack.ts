import { nextLabel } from "../../job/labels.ts";
import { fail, ok } from "../../units/problem.ts";
import { addRack } from "../edits/racks.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { TraceRackState } from "./tool-state.ts";
import { problemOf, viewportFor } from "./tool-steps.ts";
import { traceRunTool } from "./trace-run.ts";

/** Traces racks as runs are traced: the line all raceways lie along, with its tags. Each begins with one raceway; the others are added on its card. */
export const traceRackTool: Tool<TraceRackState> = {
  start(_request, context) {
    const line = traceRunTool.start({ tool: "trace-run" }, context);
    return line.ok ? ok({ tool: "trace-rack", line: line.value }) : line;
  },
  reduce(state, event, context) {
    if (event.is === "finish") return state.line.vertices.length === 0 ? { state, used: false } : ended(state, context);
    const step = traceRunTool.reduce(state.line, event, context);
    return { ...step, state: step.state && { ...state, line: step.state } };
  },
  wanted({ line }, context) {
    const wanted = traceRunTool.wanted(line, context);
    if (line.vertices.length > 0) return wanted;
    return { ...wanted, code: "rack.first", params: { label: nextLabel(context.job, "rack") } };
  },
  busy: ({ line }) => traceRunTool.busy(line),
  draws: true,
  stands: ({ line }, job) => traceRunTool.stands(line, job),
  points: ({ line }, context) => traceRunTool.points(line, context),
  draft: ({ line }, at, context) => traceRunTool.draft(line, at, context),
};

function ended(state: TraceRackState, context: ToolContext): ToolStep<TraceRackState> {
  const { wiring, vertices } = state.line;
  const viewport = viewportFor(context, vertices[0]!.at);
  if (!viewport.ok) return { state, ...problemOf(viewport) };
  if (vertices.length < 2) return { state, ...problemOf(fail("run.too-few-vertices", "", { count: vertices.length })) };
  const id = context.newId();
  const edit = addRack(context.job, id, { viewport: viewport.value, wiring, vertices: [...vertices] });
  if (!edit.ok) return { state, ...problemOf(edit) };
  const line = { ...state.line, vertices: [], firstTag: null };
  return { state: { ...state, line }, edit: edit.value, select: { table: "elements", id } };
}
