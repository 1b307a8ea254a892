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

/**
 * What turns one job into another, record by record. Records and tables that are the same objects are passed over unread, so the cost
 * is that of walking the changed tables once.
 */
export function jobChanges(before: Job, after: Job): Edit {
  const changes: RecordChange[] = [];
  for (const table of TABLES) {
    if (before[table] === after[table]) continue;
    const [old, now] = [before[table] as Record<string, unknown>, after[table] as Record<string, unknown>];
    for (const [id, record] of Object.entries(now))
      if (old[id] !== record) changes.push({ table, id, before: old[id] ?? null, after: record });
    for (const [id, record] of Object.entries(old))
      if (!Object.hasOwn(now, id)) changes.push({ table, id, before: record, after: null });
  }
  return { name: "Changes", changes };
}
