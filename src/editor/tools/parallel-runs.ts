import type { Point2 } from "../../geometry/point.ts";
import { signedArea } from "../../geometry/polygon.ts";
import type { Run } from "../../job/elements/run.ts";
import type { Job } from "../../job/schema.ts";
import { formatLength } from "../../units/format-length.ts";
import { toInches } from "../../units/length.ts";
import { fail, ok } from "../../units/problem.ts";
import { inches } from "../../units/quantity.ts";
import { DraftPen } from "../draft.ts";
import { addParallels, parallelsOf } from "../edits/copies.ts";
import { centresFor } from "../edits/racks.ts";
import { outlineOf, segmentsOf } from "../handles.ts";
import { nearestOn } from "../near.ts";
import { parseCopies } from "../parse-copies.ts";
import { pickedIn, selectionOf } from "../selection.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { ParallelRunsState } from "./tool-state.ts";
import { askedFor, problemOf } from "./tool-steps.ts";

type Side = NonNullable<ParallelRunsState["side"]>;

/** Lays runs beside the selected one: how many and how far apart is typed, the side pointed at or chosen by S. One point, or Enter, lays them. */
export const parallelRunsTool: Tool<ParallelRunsState> = {
  start(_request, { job, selection }) {
    const picked = pickedIn(selection, "elements");
    const run = picked.length === 1 ? runOf(job, picked[0]!) : undefined;
    if (!run) return fail("parallel.no-run");
    return ok({ tool: "parallel-runs", run: picked[0]!, count: 1, apart: centresFor(run.wiring), side: null });
  },
  reduce(state, event, context) {
    switch (event.is) {
      case "point":
        return laid(state, state.side ?? sideOf(context.job, state, askedFor(event.at, context)), context);
      case "finish": {
        const side = state.side ?? (context.place && sideOf(context.job, state, context.place));
        return side ? laid(state, side, context) : { state, ...problemOf(fail("parallel.no-side")) };
      }
      case "typed": {
        const typed = parseCopies(event.text, context.job.settings.job.system);
        if (!typed.ok) return { state, ...problemOf(typed) };
        const { count, apart } = typed.value;
        return { state: { ...state, count: count ?? state.count, apart: apart ?? state.apart } };
      }
      case "key": {
        if (event.key.toLowerCase() !== "s" || event.shift || event.ctrl || event.alt) return { state, used: false };
        const present = state.side ?? (context.place && sideOf(context.job, state, context.place));
        return { state: { ...state, side: present === "left" ? "right" : "left" } };
      }
      case "back":
        return state.side === null ? { state, used: false } : { state: { ...state, side: null } };
      default:
        return { state, used: false };
    }
  },
  wanted({ run, count, apart, side }, { job }) {
    const distance = formatLength(inches(toInches(apart)), job.settings.job.system);
    const params = { label: job.elements[run]?.label ?? "", count, apart: distance, side: side ?? "" };
    return { code: side === null ? "parallel.side" : "parallel.chosen", params, asks: ["copies"] };
  },
  busy: () => false,
  stands: ({ run }, job) => runOf(job, run) !== undefined,
  sheetOf: ({ run }, job) => job.viewports[job.elements[run]?.viewport ?? ""]?.sheet ?? null,
  points: () => [],
  snaps: () => false,
  draft(state, at, { job, pixel }) {
    const side = state.side ?? (at && sideOf(job, state, at));
    const lines = side && parallelsOf(job, state.run, apartOf(state, side), state.count);
    const pen = new DraftPen(pixel);
    return lines?.ok ? lines.value.flatMap((line) => [...pen.line(line), ...pen.handles(line)]) : [];
  },
};

function runOf(job: Job, id: string): Run | undefined {
  const element = job.elements[id];
  return element && "wiring" in element ? element : undefined;
}

const apartOf = ({ apart }: ParallelRunsState, side: Side) => inches(toInches(apart) * (side === "left" ? 1 : -1));

/** The side of a run a place lies on, by the piece of it that is nearest. */
function sideOf(job: Job, { run }: ParallelRunsState, at: Point2): Side {
  const record = job.elements[run];
  const segments = record ? [...segmentsOf(outlineOf("elements", record))] : [];
  let best: { readonly away: number; readonly turn: number } | undefined;
  for (const { a, b } of segments) {
    const on = nearestOn({ a, b }, at);
    const away = Math.hypot(at[0] - on[0], at[1] - on[1]);
    // At a corner two pieces are equally near: the one that is seen more squarely says which side.
    const turn = signedArea([a, b, at]) / Math.max(Math.hypot(b[0] - a[0], b[1] - a[1]), 1e-9);
    const nearer = !best || away < best.away - 1e-9;
    if (nearer || (away <= best!.away + 1e-9 && Math.abs(turn) > Math.abs(best!.turn))) best = { away, turn };
  }
  return (best?.turn ?? 0) < 0 ? "right" : "left";
}

function laid(state: ParallelRunsState, side: Side, context: ToolContext): ToolStep<ParallelRunsState> {
  const ids = Array.from({ length: state.count }, () => context.newId());
  const edit = addParallels(context.job, state.run, ids, apartOf(state, side));
  if (!edit.ok) return { state, ...problemOf(edit) };
  return { state: null, edit: edit.value, select: selectionOf(ids.map((id) => ({ table: "elements", id }))) };
}
