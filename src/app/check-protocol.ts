import type { BareResult } from "../check/explained-result.ts";
import type { Mark } from "../issue/mark.ts";
import type { Edit } from "../job/edit.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";

/**
 * What the checking worker answers. It keeps the job it was given, so that after an edit only the touched records are sent and only what
 * they touch is checked again. Results go without reasons and remedies, which are worked out where they are read.
 */
export interface CheckWorker {
  /** Another job altogether. */
  start(job: Job): BareResult;
  /** The job after these changes. */
  change(edit: Edit): BareResult;
  /** The marks of one sheet of the job it has, with what the last check said; labels keep off `words`, the drawing's own. */
  marks(sheet: Id, words: readonly TextRun[]): readonly Mark[];
}
