import { type FindingKey, isSameFinding } from "../check/finding.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { outlineOf } from "./handles.ts";

/** What is selected: a record (and perhaps one of its vertices, counted from 0), a finding, or nothing. */
export type Selection =
  | { readonly table: SelectableTable; readonly id: Id; readonly vertex?: number }
  | { readonly finding: FindingKey }
  | null;

/** The tables whose records lie on a sheet and can be selected. */
export type SelectableTable = "areas" | "elements" | "storeyOutlines" | "viewports";

/** Whether two selections are the same thing, vertex included. */
export function sameSelection(a: Selection, b: Selection): boolean {
  if (a === null || b === null) return a === b;
  if ("finding" in a || "finding" in b) {
    if (!("finding" in a && "finding" in b)) return false;
    return isSameFinding(a.finding, b.finding);
  }
  return a.table === b.table && a.id === b.id && a.vertex === b.vertex;
}

/** The selection as far as a job still holds what it names: nothing where the record is gone, no vertex where that is. */
export function standing(job: Job, selection: Selection): Selection {
  if (selection === null) return null;
  if ("finding" in selection) return selection.finding.elementId in job.elements ? selection : null;
  const { table, id, vertex } = selection;
  if (!(id in job[table])) return null;
  if (vertex === undefined || table === "viewports") return selection;
  return vertex < outlineOf(table, job[table][id]!).vertices.length ? selection : { table, id };
}
