import { expose } from "comlink";
import { createChecker } from "../check/check-job.ts";
import { apply } from "../job/edit.ts";
import type { Job } from "../job/schema.ts";
import type { CheckWorker } from "./check-protocol.ts";

const check = createChecker();
let job: Job | undefined;

const worker: CheckWorker = {
  start(given) {
    job = given;
    return check(job);
  },
  change(edit) {
    if (!job) throw new Error("the checking worker was given no job yet");
    job = apply(job, edit);
    return check(job);
  },
};

expose(worker);
