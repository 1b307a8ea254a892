import { expose } from "comlink";
import { type CheckProgress, createChecker } from "../check/check-job.ts";
import { bareResult } from "../check/explained-result.ts";
import type { CheckResult } from "../check/finding.ts";
import { verdictChanges } from "../check/verdict-changes.ts";
import { marksOf } from "../issue/marks-of.ts";
import { apply, type Edit } from "../job/edit.ts";
import type { Job } from "../job/schema.ts";
import type { CheckWork, CheckWorker } from "./check-protocol.ts";
import { explainInSteps, findingsText } from "./findings-text.ts";
import { runInSlices } from "./run-in-slices.ts";

const checker = createChecker();
let told: (work: CheckWork, progress: CheckProgress) => void = () => undefined;
let job: Job | undefined;
/** What made the job of the one checked last, where it was a single edit. */
let edit: Edit | undefined;
let last: { readonly job: Job; readonly result: CheckResult } | undefined;
const stops = new Map<CheckWork, AbortController>();

/** Does work in slices; it is the only one of its kind, and can be stopped. */
function doing<T>(work: CheckWork, steps: Generator<CheckProgress, T, void>): Promise<T | null> {
  const stop = new AbortController();
  stops.set(work, stop);
  return runInSlices(steps, stop.signal, (progress) => told(work, progress));
}

function present(): Job {
  if (!job) throw new Error("the checking worker was given no job yet");
  return job;
}

/** The result of the job, from the last check or another. */
function* resultOf(of: Job): Generator<CheckProgress, CheckResult, void> {
  return last?.job === of ? last.result : yield* createChecker().inSteps(of);
}

const worker: CheckWorker = {
  listen(listener) {
    told = listener;
  },
  start(given) {
    job = given;
    edit = undefined;
  },
  change(given) {
    edit = last && last.job === job ? given : undefined;
    job = apply(present(), given);
  },
  async check() {
    const of = present();
    const result = await doing("check", checker.inSteps(of, edit));
    if (!result) return null;
    last = { job: of, result };
    return bareResult(result);
  },
  findings(form) {
    const of = present();
    return doing(
      "findings",
      (function* () {
        const result = yield* resultOf(of);
        yield* explainInSteps(result);
        return findingsText(of, result, form);
      })(),
    );
  },
  compare(edition) {
    const of = present();
    return doing(
      "edition",
      (function* () {
        const here = yield* resultOf(of);
        const there = yield* createChecker().inSteps({
          ...of,
          settings: { job: { ...of.settings.job, edition } },
        });
        return { changes: verdictChanges(here, there), notices: there.notices };
      })(),
    );
  },
  marks(sheet, words) {
    return job ? marksOf(job, last?.result, { sheets: new Set([sheet]), words: { [sheet]: words } }) : [];
  },
  stop(work) {
    stops.get(work)?.abort();
  },
};

expose(worker);
