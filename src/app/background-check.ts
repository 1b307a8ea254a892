import { type Remote, wrap } from "comlink";
import type { CheckResult } from "../check/finding.ts";
import type { Job } from "../job/schema.ts";
import type { CheckWorker } from "./check-protocol.ts";
import { jobChanges } from "./job-changes.ts";

/**
 * Checks jobs in a worker. While one check runs, only the newest job waits: those in between are never checked, and their promises
 * resolve with the newest result.
 */
export function backgroundCheck(): (job: Job) => Promise<CheckResult> {
  const worker: Remote<CheckWorker> = wrap(
    new Worker(new URL("./check.worker.ts", import.meta.url), { type: "module", name: "check" }),
  );
  let sent: Job | undefined;
  let running: Promise<CheckResult> | undefined;
  let waiting: { job: Job; answer: Promise<CheckResult> } | undefined;

  const ask = (job: Job): Promise<CheckResult> => {
    const before = sent;
    sent = job;
    const answer = before ? worker.change(jobChanges(before, job)) : worker.start(job);
    running = answer.catch((error: unknown) => {
      // What the worker has now is not known: the next check sends the whole job.
      sent = undefined;
      throw error;
    });
    const done = () => {
      if (running === settled) running = undefined;
    };
    const settled = running;
    settled.then(done, done);
    return settled;
  };

  return (job) => {
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
}
