import type { CheckResult } from "../../check/finding.ts";
import type { Job } from "../../job/schema.ts";
import { type Block, BODY, heading, LABEL, paragraph, row, TITLE } from "../report/block.ts";
import { cautions } from "../report/closing-blocks.ts";
import type { Part } from "../report/part.ts";
import { isoDate, type ReportFacts } from "../report/report-facts.ts";
import { type ReportPages, setPages } from "../report/set-pages.ts";
import { amendmentWords, ruleWords } from "../rule-words.ts";
import { PARAPHRASE, PROGRAM } from "../words.ts";
import { commentsTitle, introduction } from "./comment-words.ts";
import { type ReviewComment, reviewComments } from "./review-comments.ts";

/** Width of the column with the number of a comment, and of that with what a line says. */
const NUMBERS = 26;
const LABELS = 58;

/** The comments as a letter: what was reviewed under which rule, each comment by its number, what it is not. Pure. */
export function commentPages(job: Job, result: CheckResult, facts: ReportFacts): ReportPages {
  const comments = reviewComments(job, result);
  return setPages(job.settings.job.system, commentsTitle(job), facts.now, (width) => [
    ...opening(job, facts, width),
    ...paragraph(introduction(comments.length), width, BODY, { before: 14 }),
    ...(comments.length > 0 ? [heading("Comments", width, 12)] : []),
    ...comments.flatMap((comment) => commentBlocks(comment, width)),
    ...paragraph(PARAPHRASE, width, LABEL, { before: 16 }),
    ...cautions(width),
  ]);
}

const opening = (job: Job, { now, author }: ReportFacts, width: number): Block[] => [
  ...row([{ text: "Review comments", x: 0, width, setting: TITLE }], {
    part: { role: "H1", bookmark: { text: "Review comments", level: 1 } },
  }),
  ...paragraph(job.settings.job.name || "Job without a name", width, { ...BODY, size: 13 }, { before: 2 }),
  ...paragraph(`${isoDate(now)}${author && `, ${author}`}, by the program ${PROGRAM}`, width, BODY, { before: 8 }),
  ...paragraph(ruleWords(job), width, BODY, { before: 3 }),
  ...amendmentWords(job).flatMap((words) => paragraph(`Local amendment: ${words}`, width, BODY, { before: 3 })),
];

function commentBlocks({ number, citation, sheet, location, remark, action }: ReviewComment, width: number): Block[] {
  const lines = [
    ["Sheet", sheet],
    ["Where", location],
    ["Section", citation],
    ["Remark", remark],
    ["Asked", action],
  ].filter(([, text]) => text !== "") as [string, string][];
  const bookmark = { text: [number, citation, location].filter(Boolean).join("  "), level: 3 } as const;
  const table: Part = { role: "Table", bookmark };
  return lines.flatMap(([label, text], i) =>
    row(
      [
        { text: i === 0 ? String(number) : "", x: 0, width: NUMBERS - 8, setting: { ...BODY, face: "bold" } },
        { text: label, x: NUMBERS, width: LABELS - 6, setting: LABEL },
        { text, x: NUMBERS + LABELS, width: width - NUMBERS - LABELS, setting: BODY },
      ],
      { before: i === 0 ? 9 : 1.5, keep: i < lines.length - 1, table },
    ),
  );
}
