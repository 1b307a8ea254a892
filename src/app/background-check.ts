import { type Remote, wrap } from "comlink";
import { createExplainer } from "../check/explained-result.ts";
import type { CheckResult } from "../check/finding.ts";
import type { Mark } from "../issue/mark.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import type { CheckWorker } from "./check-protocol.ts";
import { jobChanges } from "./job-changes.ts";

/** A worker that checks jobs, and draws the marks of large ones. */
export interface BackgroundCheck {
  check(job: Job): Promise<CheckResult>;
  /** The marks of a sheet of the job checked last. */
  marks(sheet: Id, words: readonly TextRun[]): Promise<readonly Mark[]>;
}

/**
 * Checks jobs in a worker. While one check runs, only the newest job waits: those in between are never checked, and their promises
 * resolve with the newest result.
 */
export function backgroundCheck(): BackgroundCheck {
  const worker: Remote<CheckWorker> = wrap(
    new Worker(new URL("./check.worker.ts", import.meta.url), { type: "module", name: "check" }),
  );
  const explained = createExplainer();
  let sent: Job | undefined;
  let running: Promise<CheckResult> | undefined;
  let waiting: { job: Job; answer: Promise<CheckResult> } | undefined;

  const ask = (job: Job): Promise<CheckResult> => {
    const before = sent;
    sent = job;
    const answer = before ? worker.change(jobChanges(before, job)) : worker.start(job);
    running = answer.then(
      (bare) => explained(job, bare),
      (error: unknown) => {
        // What the worker has now is not known: the next check sends the whole job.
        sent = undefined;
        throw error;
      },
    );
    const done = () => {
      if (running === settled) running = undefined;
    };
    const settled = running;
    settled.then(done, done);
    return settled;
  };

  const check = (job: Job): Promise<CheckResult> => {
    if (!running) return ask(job);
    if (waiting) {
      waiting.job = job;
      return waiting.answer;
    }
    const entry = { job } as { job: Job; answer: Promise<CheckResult> };
    const next = () => {
      waiting = undefined;
      return ask(entry.job);
    };
    entry.answer = running.then(next, next);
    waiting = entry;
    return entry.answer;
  };
  return { check, marks: (sheet, words) => worker.marks(sheet, words) };
}
