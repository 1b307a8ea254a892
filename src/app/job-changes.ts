import { changedIds } from "../job/changed-records.ts";
import type { Edit, RecordChange } from "../job/edit.ts";
import type { Job, TableName } from "../job/schema.ts";

const TABLES = [
  "settings",
  "sheets",
  "storeys",
  "viewports",
  "areas",
  "elements",
  "storeyOutlines",
  "notes",
] as const satisfies readonly TableName[];

/** What turns one job into another, record by record; where one was made of the other by edits, the records that these name are all that is looked at. */
export function jobChanges(before: Job, after: Job): Edit {
  const changes = TABLES.flatMap((table) => {
    const [old, now] = [before[table] as Record<string, unknown>, after[table] as Record<string, unknown>];
    return changedIds(before, after, table).map(
      (id): RecordChange => ({ table, id, before: old[id] ?? null, after: now[id] ?? null }),
    );
  });
  return { name: "Changes", changes };
}
