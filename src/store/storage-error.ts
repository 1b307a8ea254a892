import type { Problem } from "../units/problem.ts";

/** Why something could not be kept or fetched. */
export type StorageTrouble = "full" | "refused" | "changed-elsewhere" | "failed";

/** The surroundings failed. The job in hand is untouched; `problem` says what is safe and what to do (worded in `messages.ts`). */
export class StorageError extends Error {
  readonly problem: Problem;

  constructor(trouble: StorageTrouble, where: string, options?: { detail?: string; cause?: unknown }) {
    super(`storage.${trouble}${options?.detail ? `: ${options.detail}` : ""}`, { cause: options?.cause });
    this.name = "StorageError";
    this.problem = { code: `storage.${trouble}`, where, params: { detail: options?.detail ?? "" } };
  }

  /** What a storage call threw, as a `StorageError`. By the exception names of the IndexedDB standard (W3C, Indexed Database API 3.0). */
  static from(thrown: unknown, where: string): StorageError {
    if (thrown instanceof StorageError) return thrown;
    const { name, message } = thrown instanceof Error ? thrown : { name: "", message: String(thrown) };
    const trouble: StorageTrouble =
      name === "QuotaExceededError"
        ? "full"
        : name === "SecurityError" || name === "InvalidStateError" || name === "NotAllowedError"
          ? "refused"
          : "failed";
    return new StorageError(trouble, where, { detail: message, cause: thrown });
  }
}
