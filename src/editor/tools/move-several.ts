import type { Picture } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import type { Edit } from "../../job/edit.ts";
import type { RecordOf } from "../../job/schema.ts";
import type { DraftPen } from "../draft.ts";
import { outlineOf, type ShapedTable } from "../handles.ts";
import { nearestSegment, nearestVertex, type Placed, placedOn } from "../near.ts";
import type { ToolContext } from "../tool.ts";
import type { EditState } from "./tool-state.ts";

/** The things of a selection of several that lie on the shown sheet; none while one or nothing is selected. */
export function severalHere({ job, selection, sheet }: ToolContext): readonly Placed[] {
  if (!selection || !("several" in selection) || sheet === null) return [];
  const wanted = new Set(selection.several.map(({ table, id }) => `${table}/${id}`));
  return placedOn(job, sheet).filter(({ table, id }) => wanted.has(`${table}/${id}`));
}

/** Several things taken up to be moved: by a pointer on one of them, or by keys where no place is given. Undefined where none is there. */
export function takenUp(context: ToolContext, at: Point2 | null): NonNullable<EditState["moving"]> | undefined {
  const things = severalHere(context);
  const first = at
    ? (nearestVertex(things, at, context.reach) ?? nearestSegment(things, at, context.reach))?.thing
    : things[0];
  if (!first) return undefined;
  const from = at ?? first.outline.vertices[0]!;
  return {
    table: first.table,
    id: first.id,
    along: things.map(({ table, id }) => ({ table, id })),
    vertex: null,
    from,
    to: from,
    by: at ? "pointer" : "keys",
    inserted: false,
    edit: null,
  };
}

/** Where things that are being moved would lie. */
export const drawMoved = (pen: DraftPen, edit: Edit | null): Picture =>
  (edit?.changes ?? []).flatMap(({ table, after }) => {
    const { strands } = outlineOf(table as ShapedTable, after as RecordOf<ShapedTable>);
    return strands.flatMap(({ knots, closed, joined }) => {
      const points = knots.map(({ at }) => at);
      return joined ? pen.line(points, { closed }) : pen.handles(points);
    });
  });
