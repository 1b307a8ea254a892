import type { CheckResult } from "../check/finding.ts";
import type { BriefLanguage } from "../issue/brief/brief-languages.ts";
import type { HandedOn } from "../issue/handed-on.ts";
import type { Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import type { FoundViewport } from "../pdf/read/read-viewports.ts";
import type { IssueChoice, Progress } from "../ui/host.ts";
import type { Problem } from "../units/problem.ts";

/** What to issue, with the bytes of every drawing it needs. */
export interface IssueRequest {
  readonly job: Job;
  readonly result: CheckResult;
  readonly choice: IssueChoice;
  readonly drawings: ReadonlyMap<string, Uint8Array>;
  /** The drawing's own words by sheet, so that labels keep off them. */
  readonly words: Readonly<Record<string, readonly TextRun[]>>;
  /** Passwords of protected drawings, by content hash. */
  readonly passwords: Readonly<Record<string, string>>;
  /** Milliseconds since 1970: the moment of issue. */
  readonly now: number;
}

/** A file that was made; the browser keeps what a `Blob` holds, so that a large drawing is not copied from thread to thread. */
export interface MadeFile {
  readonly name: string;
  readonly content: Blob;
}

/** What was made, or why nothing was. */
export type IssueAnswer =
  | { readonly files: readonly MadeFile[]; readonly notes: readonly Problem[] }
  | { readonly problems: readonly Problem[] };

/** What the issuing worker answers. */
export interface IssueWorker {
  /** Says from now on how far writing is: findings explained, of all of them. */
  listen(told: (progress: Progress) => void): void;
  issue(request: Omit<IssueRequest, "result">): Promise<IssueAnswer>;
  /** The crew's brief of a job, and the deck areas nothing can be told of. `now`: milliseconds since 1970. */
  brief(job: Job, author: string, language: BriefLanguage, now: number): Promise<IssueAnswer>;
  /** Review comments or schedules, as one file. `now`: milliseconds since 1970. */
  handOn(job: Job, wanted: HandedOn, author: string, now: number): Promise<IssueAnswer>;
  /** The viewports a PDF names; none where they cannot be read. */
  viewports(bytes: Uint8Array, password: string | undefined): Promise<readonly FoundViewport[]>;
  /** The job that an issued PDF carries with the drawing it was made from, as plain data; undefined where it carries none. */
  inside(
    bytes: Uint8Array,
  ): Promise<import("../units/problem.ts").Result<import("../issue/issue-sheets.ts").CarriedJob> | undefined>;
}
