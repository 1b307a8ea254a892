import { lengthOfLine, placeAlong } from "../../geometry/along-line.ts";
import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Job } from "../../job/schema.ts";
import { formatLength } from "../../units/format-length.ts";
import { toInches } from "../../units/length.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { inches } from "../../units/quantity.ts";
import { DraftPen } from "../draft.ts";
import { addCopies } from "../edits/copies.ts";
import { nearestSegment, placedOn } from "../near.ts";
import { MOST_COPIES, parseSpread } from "../parse-copies.ts";
import { sheetPerInch } from "../parse-position.ts";
import { pickedIn, selectionOf } from "../selection.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { CopyAlongState } from "./tool-state.ts";
import { askedFor, problemOf, repeats, viewportFor } from "./tool-steps.ts";

/** Places this near, in sheet units, are one: what stands there already is not copied onto itself. */
const SAME = 0.25;

/** Copies a placed thing along a run that is pointed at, or along a line put point by point: so far apart, or in so many equal parts. One undo step. */
export const copyAlongTool: Tool<CopyAlongState> = {
  start(_request, { job, selection }) {
    const picked = pickedIn(selection, "elements");
    const [only] = picked.length === 1 ? picked : [];
    if (only === undefined || !placeOf(job, only)) return fail("along.nothing");
    return ok({ tool: "copy-along", element: only, line: [], whole: false, spread: null, ends: true });
  },
  reduce(state, event, context) {
    const { line, whole } = state;
    switch (event.is) {
      case "point": {
        if (whole) return copied(state, context);
        const found = line.length === 0 && !event.alt ? lineNear(state, askedFor(event.at, context), context) : null;
        if (found) return { state: { ...state, line: found, whole: true } };
        return repeats(line, event.at) ? { state } : { state: { ...state, line: [...line, event.at] } };
      }
      case "finish":
        if (whole) return copied(state, context);
        if (line.length === 0) return { state, used: false };
        return line.length < 2
          ? { state, ...problemOf(fail("along.too-few-points")) }
          : { state: { ...state, whole: true } };
      case "typed": {
        const spread = parseSpread(event.text, context.job.settings.job.system);
        return spread.ok ? { state: { ...state, spread: spread.value } } : { state, ...problemOf(spread) };
      }
      case "key": {
        const key = event.ctrl || event.alt ? "" : event.key.toLowerCase();
        if (key === "e") return { state: { ...state, ends: !state.ends } };
        if (key === "r" && whole) return { state: { ...state, line: line.toReversed() } };
        return { state, used: false };
      }
      case "back":
        if (line.length === 0) return { state, used: false };
        return { state: whole ? { ...state, line: [], whole: false } : { ...state, line: line.slice(0, -1) } };
      case "release":
        return { state: { ...state, line: [], whole: false } };
      default:
        return { state, used: false };
    }
  },
  wanted(state, context) {
    const { element, line, whole, spread, ends } = state;
    const { job } = context;
    const params = { label: job.elements[element]?.label ?? "" };
    if (line.length === 0) return { code: "along.first", params, asks: ["spread", "position"] };
    if (!whole) return { code: "along.next", params, asks: ["length", "spread", "position"] };
    if (!spread) return { code: "along.spread", params, asks: ["spread"] };
    const places = placesOf(state, context);
    const count = places.ok ? places.value.length : 0;
    const how =
      spread.is === "parts" ? `${spread.count}` : formatLength(inches(toInches(spread.apart)), job.settings.job.system);
    return {
      code: spread.is === "parts" ? "along.parts" : "along.every",
      params: { ...params, how, count, ends: ends ? 1 : 0 },
      asks: ["spread"],
    };
  },
  busy: ({ line }) => line.length > 0,
  draws: true,
  stands: ({ element }, job) => placeOf(job, element) !== undefined,
  sheetOf: ({ element }, job) => job.viewports[job.elements[element]?.viewport ?? ""]?.sheet ?? null,
  points: ({ line, whole }) => (whole ? [] : line),
  snaps: ({ whole }) => !whole,
  draft(state, at, context) {
    const { line, whole } = state;
    const pen = new DraftPen(context.pixel);
    const places = whole ? placesOf(state, context) : null;
    return [
      ...pen.line(at && !whole && line.length > 0 ? [...line, at] : line, { faint: whole }),
      ...pen.handles(places ? (places.ok ? places.value : []) : line),
    ];
  },
};

/** Where a thing stands that is placed at one point; undefined for any other. */
function placeOf(job: Job, id: string): Point2 | undefined {
  const element = job.elements[id];
  return element && "at" in element ? element.at : undefined;
}

/** The line of the run or rack within reach of a place, from the end that is nearer to it along the line; null where there is none. */
function lineNear(
  { element }: CopyAlongState,
  at: Point2,
  { job, sheet, reach }: ToolContext,
): readonly Point2[] | null {
  const things = sheet === null ? [] : placedOn(job, sheet);
  const near = nearestSegment(things, at, reach, ({ table, id }) => table === "elements" && id !== element);
  if (!near) return null;
  const { vertices } = near.thing.outline;
  const before = lengthOfLine([...vertices.slice(0, near.vertex + 1), near.at]);
  return before > lengthOfLine(vertices) / 2 ? vertices.toReversed() : vertices;
}

/** Where the copies go. Problems: `along.no-spread`, `along.none`, `along.too-many`, and those of a viewport without a scale. */
function placesOf({ element, line, spread, ends }: CopyAlongState, context: ToolContext): Result<Point2[]> {
  if (!spread) return fail("along.no-spread");
  const total = lengthOfLine(line);
  if (total <= SAME) return fail("along.none");
  let apart = spread.is === "parts" ? total / spread.count : 0;
  if (spread.is === "every") {
    const viewport = viewportFor(context, line[0]!);
    const perInch = viewport.ok ? sheetPerInch(context.job, viewport.value) : viewport;
    if (!perInch.ok) return perInch;
    apart = toInches(spread.apart) * perInch.value;
  }
  // A length that is a whole number of spacings but for rounding has the last of them too.
  const steps = spread.is === "parts" ? spread.count : Math.floor(total / apart + 1e-9);
  const reaches = total - steps * apart <= SAME;
  const returns = distance2(line[0]!, line.at(-1)!) <= SAME;
  const last = reaches && (!ends || returns) ? steps - 1 : steps;
  if (last > MOST_COPIES) return fail("along.too-many", "", { count: last, most: MOST_COPIES });
  const own = placeOf(context.job, element)!;
  const places: Point2[] = [];
  for (let k = ends ? 0 : 1; k <= last; k++) places.push(placeAlong(line, k * apart));
  const free = places.filter((at) => distance2(at, own) > SAME);
  return free.length > 0 ? ok(free) : fail("along.none");
}

function copied(state: CopyAlongState, context: ToolContext): ToolStep<CopyAlongState> {
  const places = placesOf(state, context);
  if (!places.ok) return { state, ...problemOf(places) };
  const own = placeOf(context.job, state.element)!;
  const copies = places.value.map(([x, y]) => ({
    of: state.element,
    id: context.newId(),
    by: [x - own[0], y - own[1]] as const,
  }));
  const edit = addCopies(context.job, copies);
  if (!edit.ok) return { state, ...problemOf(edit) };
  return { state: null, edit: edit.value, select: selectionOf(copies.map(({ id }) => ({ table: "elements", id }))) };
}
