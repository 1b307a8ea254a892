import { placedOn } from "../../editor/near.ts";
import type { Point2 } from "../../geometry/point.ts";
import { mapBy, type Similarity } from "../../geometry/similarity.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { ToLookAt } from "../../job/sheet-issue.ts";
import type { IssueChanges, ThingOnSheet } from "../../pdf/read/issue-changes.ts";

/** Something that lies on a sheet, as the comparison of two issues and its list know it. */
export interface LabelledThing extends ThingOnSheet {
  readonly table: ToLookAt["table"];
  readonly id: Id;
  readonly label: string;
}

/** Everything traced on a sheet, in its sheet space; notes hold nothing of what is drawn. */
export function thingsOnSheet(job: Job, sheet: Id): LabelledThing[] {
  return placedOn(job, sheet).flatMap(({ table, id, record, outline }) => {
    if (table === "notes") return [];
    const drawn = outline.strands.filter(({ joined, knots }) => joined || knots.length === 1);
    return {
      key: keyOf({ table, id }),
      table,
      id,
      label: record.label,
      encloses: outline.strands.some(({ closed }) => closed),
      paths: drawn.map(({ knots, closed }) => {
        const points = knots.map(({ at }) => at);
        return closed && points[0] ? [...points, points[0]] : points;
      }),
    };
  });
}

/** What a thing is known by in lists. */
export const keyOf = ({ table, id }: Pick<ToLookAt, "table" | "id">): string => `${table}/${id}`;

/** The same things where a way of lying puts them. */
export function thingsMoved(things: readonly LabelledThing[], sim: Similarity): LabelledThing[] {
  const map = mapBy(sim);
  return things.map((thing) => ({ ...thing, paths: thing.paths.map((path) => path.map((at): Point2 => map(at))) }));
}

/** What there is to look at, as the job records it. */
export const toLookAtOf = (changes: IssueChanges, things: readonly LabelledThing[]): ToLookAt[] =>
  changes.things.flatMap(({ key, line, beside, texts }): ToLookAt[] => {
    const thing = things.find((one) => one.key === key);
    return thing
      ? [{ table: thing.table, id: thing.id, line: line && roundedLine(line), beside, texts: [...texts] }]
      : [];
  });

/** To a thousandth of the line and a whole 1/72 in.: more is not known. */
const roundedLine = ({ there, movedPt }: NonNullable<ToLookAt["line"]>): ToLookAt["line"] => ({
  there: Math.round(there * 1000) / 1000,
  movedPt: movedPt === null ? null : Math.round(movedPt),
});
