import { rememberEdit } from "./changed-records.ts";
import type { Job, TableName } from "./schema.ts";

/** One record before and after an edit; null where it does not exist. Both are whole records, so a change can be inverted. */
export interface RecordChange {
  readonly table: TableName;
  readonly id: string;
  readonly before: unknown | null;
  readonly after: unknown | null;
}

/** An edit is a value: it names every record it touches, can be inverted, and can be written as JSON. */
export interface Edit {
  /** What it does, in the words of the undo command: "Move a vertex of R-14". */
  readonly name: string;
  readonly changes: readonly RecordChange[];
}

/** The edit that takes back `edit`. */
export function invert(edit: Edit): Edit {
  return {
    name: edit.name,
    changes: edit.changes
      .map(({ table, id, before, after }) => ({ table, id, before: after, after: before }))
      .reverse(),
  };
}

/** The job after `edit`. Untouched tables and records are the same objects as before, so what depends on them need not be redone. */
export function apply(job: Job, edit: Edit): Job {
  const next = { ...job } as Record<TableName, Record<string, unknown>> & Job;
  const copied = new Set<TableName>();
  for (const { table, id, after } of edit.changes) {
    if (!copied.has(table)) {
      next[table] = { ...next[table] } as never;
      copied.add(table);
    }
    const records = next[table] as Record<string, unknown>;
    if (after === null) delete records[id];
    else records[id] = after;
  }
  rememberEdit(job, edit.changes, next);
  return next;
}

/** Builds an edit from the records of `job` and what each is to become (null deletes it). */
export function editOf(
  job: Job,
  name: string,
  changes: readonly { table: TableName; id: string; after: unknown | null }[],
): Edit {
  return {
    name,
    changes: changes.map(({ table, id, after }) => ({
      table,
      id,
      before: (job[table] as Record<string, unknown>)[id] ?? null,
      after,
    })),
  };
}
