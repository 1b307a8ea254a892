import { checkMessages } from "../check/messages.ts";
import { issueMessages } from "../issue/messages.ts";
import { jobMessages } from "../job/messages.ts";
import { pdfMessages } from "../pdf/messages.ts";
import { rulesMessages } from "../rules/messages.ts";
import { storeMessages } from "../store/messages.ts";
import { unitsMessages } from "../units/messages.ts";
import type { Problem } from "../units/problem.ts";

type Words = (p: Problem["params"], where: string) => string;

/** The one place for the wording of what only the command line can meet. */
export const cliMessages: Readonly<Record<string, Words>> = {
  "cli.no-such-file": (_, where) => `There is no file ${where}. Check the path.`,
  "cli.unreadable": (p, where) => `${where} cannot be read (${p.detail}).`,
  "cli.unwritable": (p, where) => `${where} cannot be written (${p.detail}). Nothing was left half written.`,
  "cli.not-a-job": (_, where) =>
    `${where} is not a job. Give a job as JSON, a saved job file (.underside), or an issued PDF that carries its job.`,
  "cli.carries-no-job": (_, where) => `${where} is a PDF that carries no job. Give the issued PDF, or the job file.`,
  "cli.not-a-pdf": (_, where) => `${where} is not a PDF. Give the drawing as a PDF.`,
  "cli.no-such-rules": (p) => `There is no rule set "${p.id}". Known: ${p.known}.`,
  "cli.compare-as-csv": () =>
    "What differs between two rule sets is written as text or json. Choose one of them after --format.",
  "cli.needs-output": () => "A workbook or a PDF goes into a file. Name it after -o.",
  "cli.no-such-table": (p) => `There is no table "${p.name}". Known: ${p.known}.`,
  "cli.drawing-missing": (p, where) =>
    `The drawing "${p.name}" (SHA-256 ${p.sha256}) is not beside ${where}. Put the very file that was traced there; its name does not matter.`,
  "cli.report-apart": (_, where) =>
    `The drawing is signed, and pages added to it would break the signature: the report is a file of its own, ${where}.`,
  "cli.bad-date": (p) => `"${p.text}" is not a date. Write it as 2026-01-31 or 2026-01-31T14:00:00Z.`,
  "cli.no-such-page": (p, where) => `${where} has no page ${p.page}. Give another with --page or --old-page.`,
  "cli.same-file": (_, where) => `${where} would be overwritten by what is made from it. Choose another name after -o.`,
  "cli.no-such-sheet": (p, where) => `${where} has no sheet "${p.wanted}". Its sheets: ${p.titles}.`,
  "cli.no-sheets": (_, where) => `${where} has no sheets, so there is nothing to issue.`,
};

const wordsByCode: Readonly<Record<string, Words>> = {
  ...cliMessages,
  ...checkMessages,
  ...issueMessages,
  ...jobMessages,
  ...pdfMessages,
  ...rulesMessages,
  ...storeMessages,
  ...unitsMessages,
};

/** The words for a problem of any folder. A code that nobody worded is shown with all it says, so that nothing is lost. */
export function problemText(problem: Problem): string {
  const found = wordsByCode[problem.code]?.(problem.params, problem.where);
  if (found !== undefined) return found;
  const params = Object.entries(problem.params).map(([name, value]) => `${name}: ${value}`);
  return [problem.code, problem.where && `at ${problem.where}`, params.length > 0 && `(${params.join(", ")})`]
    .filter(Boolean)
    .join(" ");
}
