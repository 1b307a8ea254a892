import { type Doomed, deleteRecords } from "../editor/edits/delete-records.ts";
import { editOf } from "../job/edit.ts";
import type { Id } from "../job/fields.ts";
import type { RecordOf, TableName } from "../job/schema.ts";
import { useDesk } from "./desk-context.ts";

/** Changes some keys of one record as one undo step named `name`. A record that is gone is left alone. */
export function useChange<T extends TableName>(
  table: T,
  id: Id,
): (name: string, change: Partial<RecordOf<T>> | ((record: RecordOf<T>) => RecordOf<T>)) => void {
  const { session } = useDesk();
  return (name, change) => {
    const { job } = session.getState();
    const record = (job[table] as Record<string, RecordOf<T>>)[id];
    if (record === undefined) return;
    const after = typeof change === "function" ? change(record) : { ...record, ...change };
    session.commit(editOf(job, name, [{ table, id, after }]));
  };
}

/** Deletes one record as one undo step, with what cannot be without it, and selects nothing. */
export function useDelete(table: Doomed["table"], id: Id): () => void {
  const { session } = useDesk();
  return () => {
    session.select(null);
    session.attempt(deleteRecords(session.getState().job, [{ table, id }]));
  };
}
