import type { CheckProgress } from "../check/check-job.ts";
import type { BareResult } from "../check/explained-result.ts";
import type { BareFinding } from "../check/found-finding.ts";
import type { ListChange } from "../check/list-change.ts";
import type { Mark } from "../issue/mark.ts";
import type { Edit } from "../job/edit.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import type { EditionChanges, FindingsForm, Work } from "../ui/host.ts";

/** An answer too large to be taken in at once: the first portion of its list, and how many more are to be asked for. */
type Portioned<T> = T & { readonly more: number };
interface BareMarks {
  readonly marks: ListChange<Mark>;
}

/** The long work it does. */
export type CheckWork = Exclude<Work, "linework" | "index" | "issue">;

/**
 * What the checking worker answers. It keeps the job it was given, so that after an edit only the touched records are sent and only what
 * they touch is checked again. Results go without reasons and remedies, which are worked out where they are read. What takes long answers
 * null when it was stopped.
 */
export interface CheckWorker {
  /** Names who is told how far long work is. Before anything else. */
  listen(told: (work: CheckWork, progress: CheckProgress) => void): void;
  /** Another job altogether. */
  start(job: Job): void;
  /** The job after these changes. */
  change(edit: Edit): void;
  /** Checks the job it has: what is new in the result since the one answered before. */
  check(): Promise<Portioned<BareResult> | null>;
  /** The next portion of the findings of the result answered last. */
  moreFindings(): ListChange<BareFinding>;
  /** The findings of the job it has in the form the command line prints them. */
  findings(form: FindingsForm): Promise<string | null>;
  /** What another edition would change for the job it has. */
  compare(edition: string): Promise<EditionChanges | null>;
  /**
   * The marks of one sheet of the job it has, with what the last check said, by what changed since those answered before where these were of that sheet
   * (`anew`: they are not to count); labels keep off `words`, the drawing's own. Null when they were left.
   */
  marks(sheet: Id, words: readonly TextRun[], anew: boolean): Promise<Portioned<BareMarks> | null>;
  /** The next portion of the marks answered last. */
  moreMarks(): ListChange<Mark>;
  /** Leaves the marks under way. */
  stopMarks(): void;
  /** The text of the job it has, as it is kept. */
  text(): string;
  stop(work: CheckWork): void;
}
