import { type ShapedTable, sheetOfRecord } from "../editor/handles.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Element } from "../job/elements/element.ts";
import type { Note } from "../job/note.ts";
import { useDesk } from "./desk-context.ts";

/** Something on a sheet. */
type Goal = { readonly table: ShapedTable; readonly id: string } | { readonly sheet: string; readonly at: Point2 };

/** Shows the sheet a thing lies on and brings the thing into view. */
export function useGoTo(): (goal: Goal) => void {
  const { session, view } = useDesk();
  return (goal) => {
    const { job, sheet: shown } = session.getState();
    if ("sheet" in goal) {
      if (goal.sheet !== shown) session.setSheet(goal.sheet);
      view.goTo(goal.at, true);
      return;
    }
    const record = job[goal.table][goal.id];
    if (!record) return;
    const sheet = sheetOfRecord(job, record);
    if (sheet !== undefined && sheet !== shown)
      session.setSheet(sheet, "viewport" in record ? record.viewport : undefined);
    view.goTo(middle("outline" in record ? record.outline : placesOf(record)));
  };
}

/** Where an element or a note lies, sheet space. */
const placesOf = (thing: Element | Note): readonly Point2[] => {
  if ("vertices" in thing) return thing.vertices.map(({ at }) => at);
  return "place" in thing ? [thing.at, thing.place] : [thing.at];
};

function middle(points: readonly Point2[]): Point2 {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
}
