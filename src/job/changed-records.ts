import type { Job, TableName } from "./schema.ts";

/** The records an edit touched. */
type Touched = readonly { readonly table: TableName; readonly id: string }[];

/** What a job was made from, and what the edit touched that made it: forgotten with either of the two jobs. */
const made = new WeakMap<Job, { readonly from: WeakRef<Job>; readonly touched: Touched }>();
/** So many edits are followed back before whole tables are compared instead. */
const FOLLOWED = 64;

/** Remembers which records an edit touched that made a job of another, so that what they differ in need not be looked for. */
export function rememberEdit(from: Job, touched: Touched, job: Job): void {
  made.set(job, { from: new WeakRef(from), touched });
}

/**
 * Ids of the records of a table that are not the same objects in two jobs, each once, in no order. Where one was made of the other by few
 * edits, these say which they can be, and the size of the table does not count.
 */
export function changedIds(before: Job, after: Job, table: TableName): readonly string[] {
  const [old, now] = [before[table] as Record<string, unknown>, after[table] as Record<string, unknown>];
  if (old === now) return [];
  const candidates = namedBetween(before, after, table) ?? new Set([...Object.keys(old), ...Object.keys(now)]);
  return [...candidates].filter((id) => old[id] !== now[id]);
}

/** Ids that the edits between two jobs name; undefined where it is not known how one came of the other. */
function namedBetween(before: Job, after: Job, table: TableName): Set<string> | undefined {
  const ids = new Set<string>();
  let job: Job | undefined = after;
  for (let step = 0; step < FOLLOWED; step++) {
    if (job === before) return ids;
    const how: { readonly from: WeakRef<Job>; readonly touched: Touched } | undefined = job && made.get(job);
    if (!how) return undefined;
    for (const one of how.touched) if (one.table === table) ids.add(one.id);
    job = how.from.deref();
  }
  return undefined;
}
