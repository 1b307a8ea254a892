/**
 * A problem in the user's file or input, as data: a code, a place and the values that belong in the message.
 * The words are chosen elsewhere (`src/job/messages.ts` and its like), so that one place holds all wording.
 */
export interface Problem {
  /** Stable, dotted, lower case: `length.inches-over-twelve`, `job.unknown-key`. */
  readonly code: string;
  /** Where it is: a path such as `elements/r14/vertices/0/tag`, a file name, or "" when the input is one value. */
  readonly where: string;
  /** Values the message shows. Numbers are already in the unit the message names. */
  readonly params: Readonly<Record<string, string | number>>;
}

/** The outcome of a `parseX`: a value, or every problem found. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Wraps a value as a successful result. */
export const ok = <T>(value: T): Result<T> => ({ ok: true, value });

/** A failed result with one problem. */
export const fail = (code: string, where = "", params: Problem["params"] = {}): { ok: false; problems: Problem[] } => ({
  ok: false,
  problems: [{ code, where, params }],
});
