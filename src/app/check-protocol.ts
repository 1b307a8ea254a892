import type { CheckResult } from "../check/finding.ts";
import type { Edit } from "../job/edit.ts";
import type { Job } from "../job/schema.ts";

/**
 * What the checking worker answers. It keeps the job it was given, so that after an edit only the touched records are sent and only what
 * they touch is checked again.
 */
export interface CheckWorker {
  /** Another job altogether. */
  start(job: Job): CheckResult;
  /** The job after these changes. */
  change(edit: Edit): CheckResult;
}
