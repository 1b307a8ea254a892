import { changedIds } from "../job/changed-records.ts";
import { inLabelOrder } from "../job/label-order.ts";
import type { LabelledTable } from "../job/labels.ts";
import type { Job } from "../job/schema.ts";

/** The records of a table in the order of their labels, R-2 before R-10. */
export const byLabel = <T extends { readonly label: string }>(table: Readonly<Record<string, T>>): [string, T][] =>
  Object.entries(table).sort(([, a], [, b]) => inLabelOrder(a.label, b.label));

const orders = new Map<LabelledTable, { readonly job: Job; readonly ids: readonly string[] }>();

/** The ids of a table's records in the order of their labels; an edit that leaves the labels as they are costs next to nothing. */
export function idsByLabel(job: Job, table: LabelledTable): readonly string[] {
  const known = orders.get(table);
  const isAsBefore =
    known !== undefined &&
    changedIds(known.job, job, table).every((id) => known.job[table][id]?.label === job[table][id]?.label);
  const ids = isAsBefore ? known.ids : byLabel<{ readonly label: string }>(job[table]).map(([id]) => id);
  orders.set(table, { job, ids });
  return ids;
}
