import { apply, type Edit, editOf, type RecordChange } from "../../job/edit.ts";
import type { Job, RecordOf, TableName } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";

/** The record with some of its fields replaced. */
type Patch<R> = { readonly [K in keyof R]?: R[K] };

/**
 * An edit of one record: `change` is given the record and answers what it is to become. Where that is what it was, the edit has no
 * changes. Problem: `edit.no-such-record`.
 */
export function changeRecord<T extends TableName>(
  job: Job,
  table: T,
  id: string,
  name: (record: RecordOf<T>) => string,
  change: (record: RecordOf<T>) => Patch<RecordOf<T>>,
): Result<Edit> {
  const record = (job[table] as Readonly<Record<string, RecordOf<T>>>)[id];
  if (!record) return fail("edit.no-such-record", `${table}/${id}`, { id });
  return ok(withoutIdle(editOf(job, name(record), [{ table, id, after: { ...record, ...change(record) } }])));
}

/** The edit without the changes that change nothing. */
export function withoutIdle(edit: Edit): Edit {
  return { ...edit, changes: edit.changes.filter(({ before, after }) => !sameData(before, after)) };
}

/** Whether two plain values are written the same, whatever the order of their keys. */
export function sameData(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return false;
  return keys.every(
    (key) =>
      Object.hasOwn(b, key) && sameData((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  );
}

/** Several edits as one undo step; the first refused one refuses them all. Each is built on the job the ones before lead to. */
export function inOne(job: Job, name: string, builders: readonly ((job: Job) => Result<Edit>)[]): Result<Edit> {
  let present = job;
  const touched = new Map<string, { table: TableName; id: string }>();
  for (const build of builders) {
    const edit = build(present);
    if (!edit.ok) return edit;
    for (const { table, id } of edit.value.changes) touched.set(`${table}/${id}`, { table, id });
    present = apply(present, edit.value);
  }
  const changes = [...touched.values()].map(({ table, id }) => ({
    table,
    id,
    after: (present[table] as Record<string, unknown>)[id] ?? null,
  }));
  return ok(withoutIdle(editOf(job, name, changes)));
}

/** Edits of the same job that touch different records, as one undo step; the first refused one refuses them all. */
export function eachByItself(job: Job, name: string, edits: readonly Result<Edit>[]): Result<Edit> {
  const changes: RecordChange[] = [];
  for (const edit of edits) {
    if (!edit.ok) return edit;
    changes.push(...edit.value.changes);
  }
  return ok(withoutIdle(editOf(job, name, changes)));
}
