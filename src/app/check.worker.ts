import { expose } from "comlink";
import { createChecker } from "../check/check-job.ts";
import { bareResult } from "../check/explained-result.ts";
import type { CheckResult } from "../check/finding.ts";
import { marksOf } from "../issue/marks-of.ts";
import { apply } from "../job/edit.ts";
import type { Job } from "../job/schema.ts";
import type { CheckWorker } from "./check-protocol.ts";

const check = createChecker();
let job: Job | undefined;
let result: CheckResult | undefined;

const worker: CheckWorker = {
  start(given) {
    job = given;
    result = check(job);
    return bareResult(result);
  },
  change(edit) {
    if (!job) throw new Error("the checking worker was given no job yet");
    job = apply(job, edit);
    result = check(job, edit);
    return bareResult(result);
  },
  marks(sheet, words) {
    return job ? marksOf(job, result, { sheets: new Set([sheet]), words: { [sheet]: words } }) : [];
  },
};

expose(worker);
