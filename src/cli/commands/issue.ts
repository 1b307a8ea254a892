import { basename, dirname, join } from "node:path";
import { checkJob } from "../../check/check-job.ts";
import { isQuiet } from "../../check/finding.ts";
import { type IssueOptions, issueJob } from "../../issue/issue-sheets.ts";
import { sheetTitle } from "../../issue/words.ts";
import type { Job } from "../../job/schema.ts";
import type { Drawings } from "../../store/job-file.ts";
import { sha256 } from "../../store/sha256.ts";
import { drawingWords } from "../drawing-words.ts";
import { type FileContent, isSameFile, readBytes, writeFiles } from "../files.ts";
import { loadFonts } from "../fonts.ts";
import { accept, changeWords, drawingsOf, loadJob } from "../load-job.ts";
import { problemText } from "../messages.ts";
import type { Outcome } from "../outcome.ts";
import { refuse } from "../refusal.ts";
import { underRules } from "./check.ts";

/** What `issue` may be told. */
export interface IssueCommandOptions {
  /** Where the annotated sheet goes. */
  readonly output: string;
  readonly rules?: string;
  /** Titles or ids of the sheets to be marked; absent: all. */
  readonly sheet?: readonly string[];
  readonly flatten?: boolean;
  /** The copy to make of a drawing that is signed or damaged. */
  readonly copy?: IssueOptions["copy"];
  readonly report: IssueOptions["report"];
  readonly author: string;
  readonly password?: string;
  /** The moment of issue that is written into the files. */
  readonly now: Date;
}

/**
 * `issue JOB -o OUT.pdf`: writes the annotated sheets, and prints the path of each file written. Status as with `check`. Refused,
 * with nothing written, when a drawing is missing, does not allow it, or would be overwritten.
 */
export async function issueCommand(path: string, options: IssueCommandOptions): Promise<Outcome> {
  const { output, flatten, report, author, password, now } = options;
  const loaded = await loadJob(path, password);
  const job = underRules(loaded.job, options.rules);
  if (Object.keys(job.sheets).length === 0) refuse("cli.no-sheets", path);
  const only = options.sheet && sheetsCalled(job, options.sheet, path);
  const drawings = await drawingsOf(loaded);
  const result = checkJob(job);
  const issued = accept(
    await issueJob(job, result, drawings, {
      fonts: loadFonts(),
      now,
      author,
      report,
      marks: { words: await drawingWords(job, drawings, password) },
      ...(options.copy === undefined ? {} : { copy: options.copy }),
      ...(only === undefined ? {} : { only }),
      ...(flatten === undefined ? {} : { flatten }),
      ...(password === undefined ? {} : { password }),
    }),
  );
  const files = new Map<string, FileContent>();
  const paths = outputPaths(
    output,
    issued.files.map(({ name }) => name),
  );
  issued.files.forEach(({ parts }, i) => {
    files.set(paths[i]!, parts);
  });
  if (issued.report) files.set(beside(output, "report"), issued.report);
  for (const file of files.keys()) await refuseToOverwrite(file, path, drawings);
  await writeFiles(files);
  const messages = [...changeWords(loaded), ...result.notices.map(problemText)];
  if (issued.report && report === "with")
    messages.push(problemText({ code: "cli.report-apart", where: beside(output, "report"), params: {} }));
  issued.files.forEach(({ notes }, i) => {
    messages.push(...notes.map((note) => problemText({ ...note, where: paths[i]! })));
  });
  return {
    out: [...files.keys()].map((file) => `${file}\n`).join(""),
    messages,
    status: result.findings.every(({ verdict }) => isQuiet(verdict)) ? 0 : 1,
  };
}

/** The sheets of these titles or ids. Refused naming those that the job has not. */
function sheetsCalled(job: Job, wanted: readonly string[], path: string): ReadonlySet<string> {
  const found = wanted.map((word) => [word, sheetCalled(job, word)] as const);
  const unknown = found.filter(([, ids]) => ids.length === 0).map(([word]) => word);
  if (unknown.length > 0)
    refuse("cli.no-such-sheet", path, { wanted: unknown.join(", "), titles: titlesOf(job).join(", ") });
  return new Set(found.flatMap(([, ids]) => ids));
}

const sheetCalled = (job: Job, word: string): string[] =>
  Object.keys(job.sheets).filter((id) => id === word || sheetTitle(job, id) === word);

const titlesOf = (job: Job): string[] => Object.keys(job.sheets).map((id) => sheetTitle(job, id));

/** One drawing is written to the very path given, several to that path with each drawing's name after it. */
export function outputPaths(output: string, names: readonly string[]): string[] {
  if (names.length === 1) return [output];
  const taken = new Set<string>();
  return names.map((name) => {
    const stem = basename(name).replace(/\.pdf$/i, "");
    let path = beside(output, stem);
    for (let n = 2; taken.has(path); n++) path = beside(output, `${stem}-${n}`);
    taken.add(path);
    return path;
  });
}

/** OUT.pdf and "report" make OUT-report.pdf. */
const beside = (output: string, word: string): string =>
  join(dirname(output), `${basename(output).replace(/\.pdf$/i, "")}-${word}.pdf`);

async function refuseToOverwrite(file: string, jobPath: string, drawings: Drawings): Promise<void> {
  if (await isSameFile(file, jobPath)) refuse("cli.same-file", file);
  const there = await readBytes(file).catch(() => null);
  if (there && drawings.has(await sha256(there))) refuse("cli.same-file", file);
}
