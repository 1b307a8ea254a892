import type { Edit } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import { type LabelledTable, labelled } from "../../job/labels.ts";
import type { Job } from "../../job/schema.ts";
import { fail, type Result } from "../../units/problem.ts";
import { changeRecord } from "./change.ts";

/** Gives an area, an element or an outline another label. Problems: `edit.empty-name`, `edit.label-taken` (labels are what reports refer to). */
export function rename(job: Job, table: LabelledTable, id: Id, label: string): Result<Edit> {
  const text = label.trim();
  const where = `${table}/${id}/label`;
  if (text === "") return fail("edit.empty-name", where);
  const holder = labelled(job, text);
  if (holder && !(holder.table === table && holder.id === id)) return fail("edit.label-taken", where, { label: text });
  return changeRecord(
    job,
    table,
    id,
    (record) => `Call ${record.label} ${text}`,
    () => ({ label: text }),
  );
}
