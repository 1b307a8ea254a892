import { type FindingKey, isSameFinding } from "../check/finding.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { outlineOf, type ShapedTable } from "./handles.ts";

/**
 * What is selected: a record (and perhaps one of its vertices, counted from 0), a finding, several records in the order they were selected, or
 * nothing. `several` holds two or more, each once: what asks for one selected record sees none there. Built by `selectionOf`.
 */
export type Selection =
  | { readonly table: SelectableTable; readonly id: Id; readonly vertex?: number }
  | { readonly finding: FindingKey }
  | { readonly several: readonly Picked[] }
  | null;

/** The tables whose records lie on a sheet and can be selected. */
export type SelectableTable = PickedTable | "viewports";

/** The tables whose records can be selected together with others. A viewport stands alone: it would take all that is traced in it along. */
export type PickedTable = ShapedTable;

/** A selected record, whichever of its vertices is. */
export interface Picked {
  readonly table: PickedTable;
  readonly id: Id;
}

/** The selected records that can stand with others, in the order they were selected; of a finding the element it is about. */
export function pickedOf(selection: Selection): readonly Picked[] {
  if (selection === null) return NONE;
  if ("several" in selection) return selection.several;
  if ("finding" in selection) return [{ table: "elements", id: selection.finding.elementId }];
  const { table, id } = selection;
  return table === "viewports" ? NONE : [{ table, id }];
}
const NONE: readonly Picked[] = [];

/** The records as a selection, each once: nothing, one, or several. */
export function selectionOf(records: readonly Picked[]): Selection {
  const each = [...new Map(records.map(({ table, id }) => [`${table}/${id}`, { table, id }])).values()];
  return each.length > 1 ? { several: each } : (each[0] ?? null);
}

/** The selection with records added at its end. */
export const withAlso = (selection: Selection, records: readonly Picked[]): Selection =>
  records.length === 0 ? selection : selectionOf([...pickedOf(selection), ...records]);

/** The selection without what is in it of the records, and with what is not. */
export function withTurned(selection: Selection, records: readonly Picked[]): Selection {
  const before = pickedOf(selection);
  const out = (from: readonly Picked[], of: readonly Picked[]) => {
    const gone = new Set(of.map(({ table, id }) => `${table}/${id}`));
    return from.filter(({ table, id }) => !gone.has(`${table}/${id}`));
  };
  return selectionOf([...out(before, records), ...out(records, before)]);
}

/** The ids of the selected records of a table, in the order they were selected. */
export const pickedIn = (selection: Selection, table: PickedTable): readonly Id[] =>
  pickedOf(selection).flatMap((one) => (one.table === table ? [one.id] : []));

/** Whether two selections are the same thing, vertex and order included. */
export function sameSelection(a: Selection, b: Selection): boolean {
  if (a === b) return true;
  if (a === null || b === null) return false;
  if ("finding" in a || "finding" in b) return "finding" in a && "finding" in b && isSameFinding(a.finding, b.finding);
  if ("several" in a || "several" in b) {
    if (!("several" in a && "several" in b) || a.several.length !== b.several.length) return false;
    return a.several.every(({ table, id }, i) => table === b.several[i]!.table && id === b.several[i]!.id);
  }
  return a.table === b.table && a.id === b.id && a.vertex === b.vertex;
}

/** The selection as far as a job still holds what it names: nothing where the record is gone, no vertex where that is. */
export function standing(job: Job, selection: Selection): Selection {
  if (selection === null) return null;
  if ("finding" in selection) return Object.hasOwn(job.elements, selection.finding.elementId) ? selection : null;
  if ("several" in selection) {
    const left = selection.several.filter(({ table, id }) => Object.hasOwn(job[table], id));
    return left.length === selection.several.length ? selection : selectionOf(left);
  }
  const { table, id, vertex } = selection;
  if (!Object.hasOwn(job[table], id)) return null;
  if (vertex === undefined || table === "viewports") return selection;
  return vertex < outlineOf(table, job[table][id]!).vertices.length ? selection : { table, id };
}
