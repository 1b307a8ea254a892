import type { Verdict } from "../check/finding.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";

/** What is selected: a record (and perhaps one of its vertices, counted from 0), a finding, or nothing. */
export type Selection =
  | { readonly table: SelectableTable; readonly id: Id; readonly vertex?: number }
  | { readonly finding: { readonly elementId: Id; readonly verdict: Verdict } }
  | null;

/** The tables whose records lie on a sheet and can be selected. */
export type SelectableTable = "areas" | "elements" | "viewports";

/** Whether two selections are the same thing, vertex included. */
export function sameSelection(a: Selection, b: Selection): boolean {
  if (a === null || b === null) return a === b;
  if ("finding" in a || "finding" in b) {
    if (!("finding" in a && "finding" in b)) return false;
    return a.finding.elementId === b.finding.elementId && a.finding.verdict === b.finding.verdict;
  }
  return a.table === b.table && a.id === b.id && a.vertex === b.vertex;
}

/** Whether the record a selection names is in the job. */
export function exists(job: Job, selection: Selection): boolean {
  if (selection === null) return true;
  if ("finding" in selection) return selection.finding.elementId in job.elements;
  return selection.id in job[selection.table];
}
