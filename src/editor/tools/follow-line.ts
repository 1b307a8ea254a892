import type { Point2 } from "../../geometry/point.ts";
import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import type { DrawnRun } from "../drawn-lines.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { FollowLineState, TraceRunState } from "./tool-state.ts";
import { askedFor, problemOf } from "./tool-steps.ts";
import { traceRunTool } from "./trace-run.ts";

/**
 * Follows a line of the drawing from where it is pointed at, both ways; what comes of it is the draft of a run, which is then taken, taken
 * back point by point, or gone on with by hand like any run that is being traced.
 */
export const followLineTool: Tool<FollowLineState> = {
  start(request, context) {
    const run = traceRunTool.start({ ...request, tool: "trace-run" }, context);
    return run.ok ? ok({ tool: "follow-line", run: run.value, line: null }) : run;
  },
  reduce(state, event, context) {
    const { run } = state;
    if (event.is === "point" && run.vertices.length === 0) return found(state, askedFor(event.at, context), context);
    if (event.is === "key" && event.key.toLowerCase() === "w" && !event.ctrl && !event.alt) {
      if (run.vertices.length === 0)
        return context.place === null ? { state, used: false } : found(state, context.place, context);
      return { state: { ...state, run: { ...run, vertices: [...run.vertices].reverse() }, line: turned(state.line) } };
    }
    return wrapped(state, traceRunTool.reduce(run, event, context));
  },
  wanted({ run, line }, context) {
    const wanted = traceRunTool.wanted(run, context);
    if (run.vertices.length === 0) return { ...wanted, code: "follow.first" };
    if (line === null || run.vertices.length !== count(line)) return wanted;
    const [from, to] = line.stops;
    const { bridged, passed } = line;
    const params = { count: count(line), bridged: bridged.length, passed: passed.length, from, to };
    return { ...wanted, code: "follow.found", params };
  },
  busy: ({ run }) => traceRunTool.busy(run),
  stands: ({ run }, job) => traceRunTool.stands(run, job),
  points: ({ run }, context) => traceRunTool.points(run, context),
  draft({ run, line }, at, context) {
    const pen = new DraftPen(context.pixel);
    const breaks = line?.bridged.flatMap(({ from, to }) => [...pen.ring(from, 5), ...pen.ring(to, 5)]) ?? [];
    const branches = line?.passed.flatMap((spot) => pen.cross(spot, 9)) ?? [];
    return [...traceRunTool.draft(run, at, context), ...breaks, ...branches];
  },
};

/** How many points following gave: a closed line comes back to its first. */
const count = ({ vertices, closed }: DrawnRun): number => vertices.length + (closed ? 1 : 0);

const turned = (line: DrawnRun | null): DrawnRun | null =>
  line && { ...line, vertices: [...line.vertices].reverse(), stops: [line.stops[1], line.stops[0]] };

/** The line at a place, followed; a problem where there is none. */
function found(state: FollowLineState, place: Point2, context: ToolContext): ToolStep<FollowLineState> {
  if (!context.drawn) return { state, ...problemOf(fail("follow.no-lines")) };
  const line = context.drawn.follow(place, context.reach);
  return line ? followed(state, line, context) : { state, ...problemOf(fail("follow.no-line")) };
}

/** The draft of a run along a line that was found. A tag typed before belongs to its first point. */
function followed(state: FollowLineState, line: DrawnRun, context: ToolContext): ToolStep<FollowLineState> {
  const places = line.closed ? [...line.vertices, line.vertices[0]!] : line.vertices;
  const [first, ...rest] = places;
  const begun = traceRunTool.reduce(
    state.run,
    { is: "point", at: first!, shift: false, alt: false, ctrl: false },
    context,
  );
  if (begun.problem || !begun.state) return { state, ...(begun.problem ? { problem: begun.problem } : {}) };
  const vertices: TraceRunState["vertices"] = [...begun.state.vertices, ...rest.map((at) => ({ at, tag: null }))];
  return { state: { ...state, run: { ...begun.state, vertices }, line } };
}

/** What the tracing tool answered, as this tool's answer: when the run is done, the next line is followed. */
function wrapped(state: FollowLineState, step: ToolStep<TraceRunState>): ToolStep<FollowLineState> {
  const run = step.state;
  if (run === null) return { ...step, state: null };
  return { ...step, state: { ...state, run, line: run.vertices.length === 0 ? null : state.line } };
}
