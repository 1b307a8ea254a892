import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Edit } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { deleteRecords } from "../edits/delete-records.ts";
import { moveMany } from "../edits/many.ts";
import { deleteVertex, insertVertex, moveVertex, moveWhole } from "../edits/vertices.ts";
import { handlesOf, outlineOf, type ShapedTable, segmentsOf, sheetOfRecord } from "../handles.ts";
import { nearestSegment, nearestVertex, type Placed } from "../near.ts";
import { pickAt, selectionOfMark } from "../pick.ts";
import { sameSelection } from "../selection.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import { drawMoved, severalHere, takenUp } from "./move-several.ts";
import { adds, turned, windowFrom } from "./select-several.ts";
import type { EditState } from "./tool-state.ts";
import { problemOf } from "./tool-steps.ts";

type Moving = NonNullable<EditState["moving"]>;
type Step = ToolStep<EditState>;

const IDLE: EditState = { tool: "edit", moving: null };
const idle = (): Step => ({ state: IDLE });

/** The standing tool: selects, moves whole things and vertices, puts vertices in and takes them out. */
export const editTool: Tool<EditState> = {
  start: ({ begin }, context) => (begin === "move" ? underKeys(context) : ok(IDLE)),
  reduce(state, event, context) {
    switch (event.is) {
      case "grab":
        if (adds(event) && !event.alt && !onVertex(event.at, context)) return { state, next: windowFrom(event.at) };
        return grab(state, event.at, event, context);
      case "drag":
        return state.moving
          ? { state: { ...state, moving: moved(state.moving, event.at, context) } }
          : { state, used: false };
      case "drop":
        return state.moving ? settle({ ...state.moving, to: event.at }, context) : { state, used: false };
      case "point":
        // A movement by keys is ended by where it is told to go.
        if (state.moving) return settle({ ...state.moving, to: event.at }, context);
        if (event.alt) return insertNear(state, event.at, context);
        return select(state, (adds(event) ? turned : pickAt)(context, event.at, event.mark));
      case "finish":
        return state.moving ? settle(state.moving, context) : { state, used: false };
      case "release":
        return state.moving ? idle() : { state, used: false };
      case "back":
        return state.moving ? idle() : remove(state, context);
      case "key":
        return onKey(state, event.key, event, context);
      default:
        return { state, used: false };
    }
  },
  wanted({ moving }, context) {
    const thing = selected(context);
    const things = severalHere(context).length;
    if (things > 0)
      return {
        code: moving ? `edit.moving-${moving.by}` : "edit.several",
        params: { label: `${things} things`, things },
        asks: asksOf(moving),
      };
    if (!thing) return { code: "edit.idle", asks: [] };
    const { label } = thing.record;
    if (moving) return { code: `edit.moving-${moving.by}`, params: { label }, asks: asksOf(moving) };
    const vertex = vertexOf(context);
    const count = thing.outline.vertices.length;
    const end = vertex === undefined ? undefined : thing.outline.strands[0]?.ends?.[vertex];
    if (end !== undefined) return { code: "edit.end", params: { label, end }, asks: [] };
    return vertex === undefined || count === 1
      ? { code: "edit.selected", params: { label }, asks: [] }
      : { code: "edit.vertex", params: { label, vertex: vertex + 1, count }, asks: [] };
  },
  busy: ({ moving }) => moving !== null,
  snaps: ({ moving }) =>
    moving !== null && moving.vertex !== null && moving.by === "pointer" && moving.hold === undefined,
  stands: ({ moving }, job) =>
    (moving?.along ?? (moving ? [moving] : [])).every(({ table, id }) => Object.hasOwn(job[table], id)),
  moving: ({ moving }) => moving?.along ?? (moving ? [moving] : []),
  points: ({ moving }, { job }) => (moving ? (moving.by === "keys" ? [moving.from] : neighbours(job, moving)) : []),
  preview: ({ moving }) => moving?.edit ?? null,
  draft({ moving }, _at, context) {
    const pen = new DraftPen(context.pixel);
    if (moving?.along) return drawMoved(pen, moving.edit);
    const thing = selected(context);
    if (!thing) return [];
    const shown = moving?.edit?.changes.find(({ id }) => id === thing.id)?.after as Placed["record"] | undefined;
    const outline = shown ? outlineOf(thing.table, shown) : thing.outline;
    const ghost = shown
      ? outline.strands.flatMap(({ knots, closed, joined }) =>
          joined
            ? pen.line(
                knots.map(({ at }) => at),
                { closed },
              )
            : [],
        )
      : [];
    return [...ghost, ...pen.handles(outline.vertices, moving?.vertex ?? vertexOf(context))];
  },
};

/** How far a thing goes may be typed while keys move it. */
const asksOf = (moving: EditState["moving"]) => (moving?.by === "keys" ? (["length", "position"] as const) : []);

/** The selected area or element, where it lies on the shown sheet. */
function selected({ job, selection, sheet }: ToolContext): Placed | undefined {
  if (!selection || !("table" in selection) || selection.table === "viewports") return undefined;
  const { table, id } = selection;
  const record = job[table][id];
  if (!record || sheetOfRecord(job, record) !== sheet) return undefined;
  return { table, id, record, outline: outlineOf(table, record) };
}

const vertexOf = ({ selection }: ToolContext): number | undefined =>
  selection && "table" in selection ? selection.vertex : undefined;

const select = (state: EditState, selection: Step["select"]): Step => ({ state, select: selection ?? null });

/** Whether a vertex of the one selected thing lies there: pressed with Shift it moves at right angles. */
function onVertex(at: Point2, context: ToolContext): boolean {
  const thing = selected(context);
  return thing !== undefined && nearestVertex([thing], at, context.reach) !== undefined;
}

function grab(
  state: EditState,
  at: Point2,
  { alt, mark }: { readonly alt: boolean; readonly mark?: string | null },
  context: ToolContext,
): Step {
  const several = takenUp(context, at);
  if (several) return { state: { ...state, moving: several } };
  const thing = selected(context);
  if (!thing) return { state, used: false };
  const { table, id } = thing;
  const still = { table, id, by: "pointer", edit: null } as const;
  const vertex = nearestVertex([thing], at, context.reach);
  if (vertex && !alt) {
    const whole = thing.outline.vertices.length === 1;
    return {
      state: {
        ...state,
        moving: {
          ...still,
          vertex: whole ? null : vertex.vertex,
          from: whole ? at : vertex.at,
          to: vertex.at,
          inserted: false,
        },
      },
      select: whole ? { table, id } : { table, id, vertex: vertex.vertex },
    };
  }
  const segment = nearestSegment([thing], at, context.reach);
  if (!segment) return alt ? { state, used: false } : grip(state, thing, at, mark, context);
  if (!alt) return { state: { ...state, moving: { ...still, vertex: null, from: at, to: at, inserted: false } } };
  const moving: Moving = { ...still, vertex: segment.vertex + 1, from: segment.at, to: segment.at, inserted: true };
  return { state: { ...state, moving }, select: { table, id, vertex: segment.vertex + 1 } };
}

/** A thing taken hold of by its mark, beside its vertices and lines: the vertex that carries the mark goes along. */
function grip(
  state: EditState,
  thing: Placed,
  at: Point2,
  mark: string | null | undefined,
  context: ToolContext,
): Step {
  const { table, id } = thing;
  const vertex = handlesOf(table, thing.record).grip;
  const spot = vertex === undefined ? undefined : thing.outline.vertices[vertex];
  const own = mark != null && sameSelection(selectionOfMark(mark, context), { table, id });
  if (vertex === undefined || !spot || !own) return { state, used: false };
  const hold: Point2 = [spot[0] - at[0], spot[1] - at[1]];
  return {
    state: {
      ...state,
      moving: { table, id, by: "pointer", edit: null, vertex, from: at, to: at, inserted: false, hold },
    },
  };
}

/** What a movement comes to when it ends at `to`. */
function editOfMove(moving: Moving, to: Point2, { job }: ToolContext): Result<Edit> {
  const { table, id, along, vertex, from, inserted, hold } = moving;
  if (along) return moveMany(job, along, [to[0] - from[0], to[1] - from[1]]);
  if (vertex !== null && hold) return moveVertex(job, table, id, vertex, [to[0] + hold[0], to[1] + hold[1]]);
  if (vertex === null) return moveWhole(job, table, id, [to[0] - from[0], to[1] - from[1]]);
  return inserted ? insertVertex(job, table, id, vertex - 1, to) : moveVertex(job, table, id, vertex, to);
}

function moved(moving: Moving, to: Point2, context: ToolContext): Moving {
  const edit = editOfMove(moving, to, context);
  // A place that will be refused is not shown as if it were possible: the last good one stays.
  return { ...moving, to, edit: edit.ok ? (edit.value.changes.length > 0 ? edit.value : null) : moving.edit };
}

function settle(moving: Moving, context: ToolContext): Step {
  const edit = editOfMove(moving, moving.to, context);
  if (!edit.ok) return { ...idle(), ...problemOf(edit) };
  return edit.value.changes.length > 0 ? { ...idle(), edit: edit.value } : idle();
}

function onKey(
  state: EditState,
  key: string,
  held: { shift: boolean; alt: boolean; ctrl: boolean },
  context: ToolContext,
): Step {
  const step = state.moving && context.stepOf(key, held);
  if (state.moving && step) return nudge(state.moving, step, context);
  const thing = selected(context);
  if (!thing) return key === "Delete" ? remove(state, context) : { state, used: false };
  const { table, id } = thing;
  const count = thing.outline.vertices.length;
  const vertex = vertexOf(context);
  if ((key === "." || key === ",") && !held.ctrl) {
    const by = key === "." ? 1 : -1;
    const next = vertex === undefined ? (by === 1 ? 0 : count - 1) : (vertex + by + count) % count;
    return select(state, { table, id, vertex: next });
  }
  if (key === "Delete") return remove(state, context);
  if ((key === "Insert" || key.toLowerCase() === "i") && !held.ctrl) return insertAfter(state, thing, vertex, context);
  return { state, used: false };
}

/** What is selected, the chosen vertex or the whole of it, taken up to be moved by the arrow keys. */
function underKeys(context: ToolContext): Result<EditState> {
  const several = takenUp(context, null);
  if (several) return ok({ ...IDLE, moving: several });
  const thing = selected(context);
  if (!thing) return fail("tool.nothing-to-move");
  const { table, id, outline } = thing;
  const vertex = outline.vertices.length === 1 ? null : (vertexOf(context) ?? null);
  const from = outline.vertices[vertex ?? 0]!;
  return ok({
    ...IDLE,
    moving: { table, id, vertex, from, to: from, by: "keys", inserted: false, edit: null },
  });
}

const nudge = (moving: Moving, [dx, dy]: Point2, context: ToolContext): Step => ({
  state: { ...IDLE, moving: moved(moving, [moving.to[0] + dx, moving.to[1] + dy], context) },
});

function insertNear(state: EditState, at: Point2, context: ToolContext): Step {
  const thing = selected(context);
  const segment = thing && nearestSegment([thing], at, context.reach);
  if (!thing || !segment) return select(state, pickAt(context, at, undefined));
  return inserted(state, thing.table, thing.id, segment.vertex, segment.at, context);
}

/** In the middle of the segment that starts at a vertex, of the first one while none is chosen, of the one before where none starts. */
function insertAfter(state: EditState, thing: Placed, vertex: number | undefined, context: ToolContext): Step {
  const segments = [...segmentsOf(thing.outline)];
  const wanted = vertex ?? 0;
  const segment = segments.find(({ after }) => after === wanted) ?? segments.find(({ after }) => after === wanted - 1);
  if (!segment) return { state, ...problemOf({ problems: [{ code: "edit.no-segment", where: "", params: {} }] }) };
  const { a, b, after } = segment;
  return inserted(state, thing.table, thing.id, after, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], context);
}

function inserted(state: EditState, table: ShapedTable, id: Id, after: number, at: Point2, { job }: ToolContext): Step {
  const edit = insertVertex(job, table, id, after, at);
  if (!edit.ok) return { state, ...problemOf(edit) };
  return { state: IDLE, edit: edit.value, select: { table, id, vertex: after + 1 } };
}

function remove(state: EditState, context: ToolContext): Step {
  if (context.selection && "several" in context.selection) {
    const all = deleteRecords(context.job, context.selection.several);
    return all.ok ? { state: IDLE, edit: all.value, select: null } : { state, ...problemOf(all) };
  }
  const thing = selected(context);
  if (!thing) return { state, used: false };
  const { table, id, outline } = thing;
  const whole = outline.vertices.length === 1 || outline.strands[0]?.ends !== undefined;
  const vertex = whole ? undefined : vertexOf(context);
  const edit =
    vertex === undefined ? deleteRecords(context.job, [{ table, id }]) : deleteVertex(context.job, table, id, vertex);
  if (!edit.ok) return { state, ...problemOf(edit) };
  return { state: IDLE, edit: edit.value, select: vertex === undefined ? null : { table, id } };
}

/** The two vertices before a moved one (or after it, at the start), so that a right angle is kept to its neighbour; for whole things where it began. */
function neighbours(job: ToolContext["job"], { table, id, vertex, from, inserted: fresh }: Moving): readonly Point2[] {
  const record = job[table][id];
  if (vertex === null || !record) return [from];
  const { vertices } = outlineOf(table, record);
  const around = fresh
    ? [vertices[vertex - 2], vertices[vertex - 1]]
    : vertex > 0
      ? [vertices[vertex - 2], vertices[vertex - 1]]
      : [vertices[2], vertices[1]];
  return around.filter((one) => one !== undefined).filter((one, i, all) => i === 0 || distance2(one, all[i - 1]!) > 0);
}
