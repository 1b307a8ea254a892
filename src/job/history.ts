import { apply, type Edit, invert } from "./edit.ts";
import type { Job } from "./schema.ts";

/** What was done to a job and what was taken back of it, without limit: edits are values, so the whole past is a list. */
export interface History {
  /** Oldest first; the last is taken back next. */
  readonly done: readonly Edit[];
  /** The last is done again next. */
  readonly undone: readonly Edit[];
}

/** A history in which nothing has happened. */
export const EMPTY_HISTORY: History = { done: [], undone: [] };

/** A job together with how it came about. */
export interface Past {
  readonly job: Job;
  readonly history: History;
}

/** Does an edit. What had been taken back before is gone. An edit without changes leaves everything as it is. */
export function doEdit({ job, history }: Past, edit: Edit): Past {
  if (edit.changes.length === 0) return { job, history };
  return { job: apply(job, edit), history: { done: [...history.done, edit], undone: [] } };
}

/** Takes back the last edit; undefined when there is none. The records are exactly what they were, untouched ones the same objects. */
export function undoEdit({ job, history }: Past): Past | undefined {
  const edit = history.done.at(-1);
  if (!edit) return undefined;
  return {
    job: apply(job, invert(edit)),
    history: { done: history.done.slice(0, -1), undone: [...history.undone, edit] },
  };
}

/** Does the edit taken back last once more; undefined when there is none. */
export function redoEdit({ job, history }: Past): Past | undefined {
  const edit = history.undone.at(-1);
  if (!edit) return undefined;
  return { job: apply(job, edit), history: { done: [...history.done, edit], undone: history.undone.slice(0, -1) } };
}
