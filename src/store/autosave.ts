import type { Job } from "../job/schema.ts";
import type { Problem } from "../units/problem.ts";
import type { JobStore } from "./job-store.ts";
import { StorageError } from "./storage-error.ts";

/**
 * What may be said of the job in hand: `saved` only once a transaction that holds exactly this job has completed; `saving` from
 * the first change after that; `not-saved` when the last attempt failed, with the reason.
 */
export type SaveState =
  | { readonly is: "saved"; readonly at: string }
  | { readonly is: "saving" }
  | { readonly is: "not-saved"; readonly problem: Problem };

/** What autosave needs from outside: no clock and no timer are named here. */
export interface AutosaveOptions {
  readonly store: Pick<JobStore, "save">;
  readonly id: string;
  /** The revision that was loaded, 0 for a job never saved. */
  readonly revision: number;
  /** ISO 8601, UTC. */
  readonly now: () => string;
  /** Calls back once after the pause between the last change and the save; returns what takes the call back. */
  readonly pause: (then: () => void) => () => void;
  readonly onState: (state: SaveState) => void;
}

/** What the program tells autosave. */
export interface Autosave {
  /** The job is now this one: it will be saved after the pause. */
  changed(job: Job): void;
  /** Saves at once what is not saved yet (also after a failure); resolves when there is nothing left to save, or the attempt failed. */
  flush(): Promise<void>;
  /** Takes back what is pending; a save under way is completed. */
  stop(): void;
}

/** Saves a job a little after it changes: one save at a time, always the newest job, and never `saved` before it is. */
export function createAutosave(options: AutosaveOptions): Autosave {
  let revision = options.revision;
  let waiting: Job | null = null;
  let takeBack: (() => void) | null = null;
  let underWay: Promise<void> | null = null;

  const saveNow = (): Promise<void> => {
    takeBack?.();
    takeBack = null;
    underWay ??= work().finally(() => {
      underWay = null;
    });
    return underWay;
  };

  async function work(): Promise<void> {
    while (waiting) {
      const job = waiting;
      waiting = null;
      const at = options.now();
      options.onState({ is: "saving" });
      try {
        revision = await options.store.save(options.id, job, { at, after: revision });
      } catch (thrown) {
        options.onState({ is: "not-saved", problem: StorageError.from(thrown, options.id).problem });
        // A newer job that came meanwhile is tried at once; else this one waits for the next change or a flush.
        if (waiting) continue;
        waiting = job;
        return;
      }
      if (!waiting) options.onState({ is: "saved", at });
    }
  }

  return {
    changed(job) {
      waiting = job;
      options.onState({ is: "saving" });
      if (underWay) return;
      takeBack?.();
      takeBack = options.pause(() => void saveNow());
    },
    flush: saveNow,
    stop() {
      takeBack?.();
      takeBack = null;
      waiting = null;
    },
  };
}
