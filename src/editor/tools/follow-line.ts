import { distance2, type Point2 } from "../../geometry/point.ts";
import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import type { DrawnBranch, DrawnRun } from "../drawn-lines.ts";
import { nearestOn } from "../near.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { FollowLineState, TraceRunState } from "./tool-state.ts";
import { askedFor, problemOf } from "./tool-steps.ts";
import { traceRunTool } from "./trace-run.ts";

/**
 * Follows a line of the drawing from where it is pointed at, both ways; what comes of it is the draft of a run, which is then taken, taken
 * back point by point, ended where it is pointed at, gone on with along a branch, or by hand like any run that is being traced.
 */
export const followLineTool: Tool<FollowLineState> = {
  start(request, context) {
    const run = traceRunTool.start({ ...request, tool: "trace-run" }, context);
    return run.ok ? ok({ tool: "follow-line", run: run.value, line: null, first: null }) : run;
  },
  reduce(state, event, context) {
    const { run } = state;
    if (event.is === "point") {
      const place = askedFor(event.at, context);
      if (run.vertices.length === 0) return found(state, place, context);
      const changed = alongBranch(state, place, context) ?? endedAt(state, place, context);
      if (changed) return { state: changed };
    }
    if (event.is === "key" && (event.key === "." || event.key === ",") && !event.ctrl && !event.alt)
      return nextBranch(state, event.key === "." ? 1 : -1, context);
    if (event.is === "key" && event.key.toLowerCase() === "w" && !event.ctrl && !event.alt) {
      if (run.vertices.length === 0)
        return context.place === null ? { state, used: false } : found(state, context.place, context);
      return { state: turned(state) };
    }
    return wrapped(state, traceRunTool.reduce(run, event, context));
  },
  wanted({ run, line }, context) {
    const wanted = traceRunTool.wanted(run, context);
    if (run.vertices.length === 0) return { ...wanted, code: "follow.first" };
    if (line === null || run.vertices.length !== count(line)) return wanted;
    const [from, to] = line.stops;
    const { bridged, branches } = line;
    const params = { count: count(line), bridged: bridged.length, branches: branches.length, from, to };
    return { ...wanted, code: "follow.found", params };
  },
  busy: ({ run }) => traceRunTool.busy(run),
  draws: true,
  stands: ({ run }, job) => traceRunTool.stands(run, job),
  points: ({ run }, context) => traceRunTool.points(run, context),
  draft({ run, line }, at, context) {
    const pen = new DraftPen(context.pixel);
    const breaks = line?.bridged.flatMap(({ from, to }) => [...pen.ring(from, 5), ...pen.ring(to, 5)]) ?? [];
    const branches = line?.branches.flatMap(({ at: spot }) => pen.cross(spot, 9)) ?? [];
    return [...traceRunTool.draft(run, at, context), ...breaks, ...branches];
  },
};

/** How many points following gave: a closed line comes back to its first. */
const count = ({ vertices, closed }: DrawnRun): number => vertices.length + (closed ? 1 : 0);

/** The other way round: the next point goes to the other end. */
function turned(state: FollowLineState): FollowLineState {
  const line = state.line && turnedLine(state.line);
  const run = { ...state.run, vertices: [...state.run.vertices].reverse() };
  return { ...state, run, line, first: line && { line, run, taken: -1 } };
}

const turnedLine = (line: DrawnRun): DrawnRun => ({
  ...line,
  vertices: [...line.vertices].reverse(),
  stops: [line.stops[1], line.stops[0]],
  branches: [...line.branches].reverse(),
});

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
  const run = { ...begun.state, vertices };
  const branches = inOrder(line.branches, places);
  return {
    state: { ...state, run, line: { ...line, branches }, first: { line: { ...line, branches }, run, taken: -1 } },
  };
}

/** The state after going along the branch within reach of a place, where it is nearer than the run itself. */
function alongBranch(state: FollowLineState, place: Point2, context: ToolContext): FollowLineState | undefined {
  const { line, run } = state;
  if (!line) return undefined;
  const near = line.branches
    .map((branch) => ({ branch, away: distance2(place, nearestOn(stretchOf(branch), place)) }))
    .filter(({ away }) => away <= context.reach)
    .sort((a, b) => a.away - b.away)[0];
  const on = placeOn(run, place);
  return near && !(on && on.away <= near.away) ? gone(state, near.branch, context) : undefined;
}

/** A branch's first stretch: `towards` lies in the middle of it. */
const stretchOf = ({ at, towards }: DrawnBranch) => ({
  a: at,
  b: [2 * towards[0] - at[0], 2 * towards[1] - at[1]] as Point2,
});

/** The run up to where a branch leaves it, and on along that; undefined where it does not leave the run as it is now. */
function gone(state: FollowLineState, branch: DrawnBranch, context: ToolContext): FollowLineState | undefined {
  // At the end the run begins with, the way on is the other way round.
  const from = same(state.run.vertices[0]!.at, branch.at) ? turned(state) : state;
  const kept = cut(from.run, branch.at, context.reach);
  if (!kept || !from.line || !context.drawn) return undefined;
  const way = context.drawn.goAlong(branch);
  const vertices = [...kept, ...way.vertices.slice(1).map((at) => ({ at, tag: null }))];
  const line: DrawnRun = {
    vertices: vertices.map(({ at }) => at),
    closed: false,
    bridged: [...from.line.bridged.filter(({ from }) => onRun(kept, from)), ...way.bridged],
    stops: [from.line.stops[0], way.stops[1]],
    branches: [...from.line.branches.filter((each) => each !== branch && onRun(kept, each.at)), ...way.branches],
  };
  return { ...from, run: { ...from.run, vertices }, line };
}

/** The next branch of the line as it was followed first, counted from its start; after the last the line itself again. */
function nextBranch(state: FollowLineState, step: 1 | -1, context: ToolContext): ToolStep<FollowLineState> {
  const { first, line, run } = state;
  // What has been changed by hand since is not thrown away.
  if (!first || !line || run.vertices.length !== count(line) || first.line.branches.length === 0)
    return { state, used: false };
  const ways = first.line.branches.length + 1;
  const taken = ((first.taken + 1 + step + ways) % ways) - 1;
  const whole = { ...state, run: first.run, line: first.line };
  const branch = first.line.branches[taken];
  const next = branch ? (gone(whole, branch, context) ?? whole) : whole;
  return { state: { ...next, first: { ...first, taken } } };
}

/** The state with the run ended at a place on it; undefined for a place that is not on it, or at its end already. */
function endedAt(state: FollowLineState, place: Point2, { reach }: ToolContext): FollowLineState | undefined {
  const { run, line } = state;
  if (!line || distance2(run.vertices.at(-1)!.at, place) <= reach) return undefined;
  const vertices = cut(run, place, reach);
  // Of less than a stretch nothing is left to be followed.
  if (!vertices || vertices.length < 2) return undefined;
  return { ...state, run: { ...run, vertices } };
}

type Vertices = TraceRunState["vertices"];

/** The vertices of a run up to a place within reach of it, where it then ends. */
function cut(run: TraceRunState, place: Point2, reach: number): Vertices | undefined {
  const on = placeOn(run, place);
  if (!on || on.away > reach) return undefined;
  const kept = run.vertices.slice(0, on.after + 1);
  const last = run.vertices[on.after]!;
  const next = run.vertices[on.after + 1]!;
  if (same(on.at, last.at)) return kept;
  return [...kept, same(on.at, next.at) ? next : { at: on.at, tag: null }];
}

/** The place of a run nearest to another, and the number of the vertex before it; undefined for a run of one point. */
function placeOn({ vertices }: { readonly vertices: Vertices }, place: Point2) {
  let best: { at: Point2; away: number; after: number } | undefined;
  for (let after = 0; after + 1 < vertices.length; after++) {
    const at = nearestOn({ a: vertices[after]!.at, b: vertices[after + 1]!.at }, place);
    const away = distance2(at, place);
    if (!best || away < best.away) best = { at, away, after };
  }
  return best;
}

/** Whether a place of the followed line lies on what is left of the run. */
const onRun = (vertices: Vertices, place: Point2): boolean => {
  const on = placeOn({ vertices }, place);
  return on !== undefined && on.away <= SAME;
};

/** Branches in the order in which a line comes by them. */
function inOrder(branches: readonly DrawnBranch[], places: readonly Point2[]): DrawnBranch[] {
  const vertices = places.map((at) => ({ at, tag: null }));
  const along = ({ at }: DrawnBranch): number => {
    const on = placeOn({ vertices }, at);
    return on
      ? on.after +
          distance2(places[on.after]!, on.at) / Math.max(distance2(places[on.after]!, places[on.after + 1]!), SAME)
      : 0;
  };
  return branches
    .map((branch) => ({ branch, along: along(branch) }))
    .sort((a, b) => a.along - b.along)
    .map(({ branch }) => branch);
}

/** Places this near, in sheet units, are one: a followed line is straightened by less. */
const SAME = 0.25;
const same = (a: Point2, b: Point2): boolean => distance2(a, b) <= SAME;

/** What the tracing tool answered, as this tool's answer: when the run is done, the next line is followed. */
function wrapped(state: FollowLineState, step: ToolStep<TraceRunState>): ToolStep<FollowLineState> {
  const run = step.state;
  if (run === null) return { ...step, state: null };
  const gone = run.vertices.length === 0;
  return { ...step, state: { ...state, run, line: gone ? null : state.line, first: gone ? null : state.first } };
}
