import { expose } from "comlink";
import { type CheckProgress, createChecker } from "../check/check-job.ts";
import { bareResult } from "../check/explained-result.ts";
import type { CheckResult } from "../check/finding.ts";
import type { BareFinding } from "../check/found-finding.ts";
import { inPortions, type ListChange, listChange } from "../check/list-change.ts";
import { verdictChanges } from "../check/verdict-changes.ts";
import type { Mark } from "../issue/mark.ts";
import { marksInSteps } from "../issue/marks-of.ts";
import { sameMarks } from "../issue/same-marks.ts";
import { apply, type Edit } from "../job/edit.ts";
import { jobText } from "../job/parse-job.ts";
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
/** What was answered last, from which the next answer is said. */
let answered: CheckResult | undefined;
let drawn: { readonly sheet: string; readonly marks: readonly Mark[] } | undefined;
/** Portions that are still to be asked for. */
let findingsLeft: readonly ListChange<BareFinding>[] = [];
let marksLeft: readonly ListChange<Mark>[] = [];
/** Marks under way. */
let drawing = new AbortController();
/** So many findings or marks are taken in by the page without a halt. */
const FINDINGS_AT_ONCE = 400;
const MARKS_AT_ONCE = 120;

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
    drawing.abort();
    job = given;
    edit = undefined;
  },
  change(given) {
    drawing.abort();
    edit = last && last.job === job ? given : undefined;
    job = apply(present(), given);
  },
  async check() {
    const of = present();
    const result = await doing("check", checker.inSteps(of, edit));
    if (!result) return null;
    last = { job: of, result };
    const { findings, ...bare } = bareResult(result, answered);
    answered = result;
    const [first = [], ...left] = inPortions(findings, FINDINGS_AT_ONCE);
    findingsLeft = left;
    return { ...bare, findings: first, more: left.length };
  },
  moreFindings() {
    const [next = [], ...left] = findingsLeft;
    findingsLeft = left;
    return next;
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
  async marks(sheet, words, anew) {
    drawing.abort();
    drawing = new AbortController();
    const of = present();
    const before = !anew && drawn?.sheet === sheet ? drawn.marks : [];
    const steps = (function* () {
      const now = yield* marksInSteps(of, last?.result, { sheets: new Set([sheet]), words: { [sheet]: words } });
      return yield* sameMarks(before, now);
    })();
    const marks = await runInSlices(steps, drawing.signal, () => undefined);
    if (!marks) return null;
    drawn = { sheet, marks };
    const [first = [], ...left] = inPortions(listChange(before, marks), MARKS_AT_ONCE);
    marksLeft = left;
    return { marks: first, more: left.length };
  },
  moreMarks() {
    const [next = [], ...left] = marksLeft;
    marksLeft = left;
    return next;
  },
  stopMarks: () => drawing.abort(),
  text: () => jobText(present()),
  stop(work) {
    stops.get(work)?.abort();
  },
};

expose(worker);
