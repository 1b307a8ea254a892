import { expect } from "vitest";
import { apply, type Edit, invert } from "../../src/job/edit.ts";
import { jobText, parseJobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import type { Result } from "../../src/units/problem.ts";

/**
 * Applies an edit and holds it to everything an edit promises: its `before` is what the job holds, taking it back gives the same
 * bytes, doing it again gives the same bytes, it survives being written as JSON, and the job it leads to can be read back.
 */
export function applyChecked(job: Job, edit: Edit | Result<Edit>): Job {
  const one = editIn(edit);
  expect(one.name).not.toBe("");
  for (const { table, id, before, after } of one.changes) {
    expect((job[table] as Record<string, unknown>)[id] ?? null, `${one.name}: before of ${table}/${id}`).toEqual(
      before,
    );
    expect(after, `${one.name}: ${table}/${id} changes nothing`).not.toEqual(before);
  }
  const text = jobText(job);
  const next = apply(job, one);
  expect(jobText(job), `${one.name} changed the job it was given`).toBe(text);
  const back = apply(next, invert(one));
  expect(jobText(back), `taking back: ${one.name}`).toBe(text);
  expect(jobText(apply(back, one)), `doing again: ${one.name}`).toBe(jobText(next));
  const written = JSON.parse(JSON.stringify(one)) as Edit;
  expect(jobText(apply(job, written)), `written and read: ${one.name}`).toBe(jobText(next));
  expect(jobText(apply(next, invert(written))), `written, read and taken back: ${one.name}`).toBe(text);
  const read = parseJobText(jobText(next));
  expect(read.ok ? [] : read.problems, `the job after: ${one.name}`).toEqual([]);
  return next;
}

/** The edit that was built; fails the test with the problems where it was refused. */
export function editIn(edit: Edit | Result<Edit>): Edit {
  if (!("ok" in edit)) return edit;
  if (!edit.ok) throw new Error(`refused: ${JSON.stringify(edit.problems)}`);
  return edit.value;
}

/** The codes of the problems an edit was refused with; empty when it was not. */
export const refusals = (edit: Result<Edit>): string[] => (edit.ok ? [] : edit.problems.map(({ code }) => code));
