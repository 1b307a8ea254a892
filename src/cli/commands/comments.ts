import { checkJob } from "../../check/check-job.ts";
import type { CheckResult } from "../../check/finding.ts";
import { commentPages } from "../../issue/comments/comment-pages.ts";
import { commentsTitle } from "../../issue/comments/comment-words.ts";
import { commentsTable } from "../../issue/comments/comments-table.ts";
import { commentsText } from "../../issue/comments/comments-text.ts";
import { pagesPdf } from "../../issue/report/report-pdf.ts";
import { tableCsv } from "../../issue/tables/table-csv.ts";
import { tablesXlsx } from "../../issue/tables/table-xlsx.ts";
import type { Job } from "../../job/schema.ts";
import { loadFonts } from "../fonts.ts";
import { handOver, type Written } from "../hand-over.ts";
import { accept, loadJob } from "../load-job.ts";
import type { Outcome } from "../outcome.ts";
import { statusOf, underRules } from "./check.ts";

/** What `comments` may be told. */
export interface CommentsOptions extends Written {
  readonly format: "text" | "csv" | "xlsx" | "pdf";
  readonly rules?: string;
  readonly author: string;
  readonly password?: string;
  /** The date that is written into them. */
  readonly now: Date;
}

/** `comments JOB`: the review comments, as text, as a table or as a letter. Status 1 when there is one. */
export async function commentsCommand(path: string, options: CommentsOptions): Promise<Outcome> {
  const job = underRules((await loadJob(path, options.password)).job, options.rules);
  const result = checkJob(job);
  return handOver(await written(job, result, options), path, options, statusOf(result));
}

async function written(job: Job, result: CheckResult, { format, now, author }: CommentsOptions) {
  if (format === "csv") return tableCsv(commentsTable(job, result));
  if (format === "xlsx") return tablesXlsx([commentsTable(job, result)]);
  const facts = { now, author };
  if (format === "text") return commentsText(job, result, facts);
  const about = { title: commentsTitle(job), ...facts };
  return accept(await pagesPdf(commentPages(job, result, facts), loadFonts(), about));
}
