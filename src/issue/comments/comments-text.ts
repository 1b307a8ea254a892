import type { CheckResult } from "../../check/finding.ts";
import type { Job } from "../../job/schema.ts";
import { isoDate, type ReportFacts } from "../report/report-facts.ts";
import { amendmentWords, ruleWords } from "../rule-words.ts";
import { CAUTIONS } from "../words.ts";
import { commentsTitle, introduction } from "./comment-words.ts";
import { type ReviewComment, reviewComments } from "./review-comments.ts";

/** The comments as plain text to paste into a letter or a mail. */
export function commentsText(job: Job, result: CheckResult, { now, author }: ReportFacts): string {
  const comments = reviewComments(job, result);
  const lines = [
    commentsTitle(job),
    `${isoDate(now)}${author && `, ${author}`}`,
    ruleWords(job),
    ...amendmentWords(job).map((words) => `Amended: ${words}`),
    "",
    introduction(comments.length),
    "",
    ...comments.flatMap(commentLines),
    ...CAUTIONS,
  ];
  return `${lines.join("\n")}\n`;
}

const commentLines = ({ number, citation, sheet, location, remark, action }: ReviewComment): string[] => [
  `${number}. ${sheet}`,
  `   ${location}`,
  ...(citation ? [`   ${citation}`] : []),
  `   ${remark}`,
  `   Asked: ${action}`,
  "",
];
