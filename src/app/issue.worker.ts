import { expose } from "comlink";
import boldUrl from "roboto-fontface/fonts/roboto/Roboto-Bold.woff?url";
import regularUrl from "roboto-fontface/fonts/roboto/Roboto-Regular.woff?url";
import condensedUrl from "roboto-fontface/fonts/roboto-condensed/Roboto-Condensed-Regular.woff?url";
import { checkJob } from "../check/check-job.ts";
import type { CheckResult } from "../check/finding.ts";
import { hangingRoom } from "../check/hanging-room.ts";
import { BRIEF_LANGUAGES, type BriefLanguage } from "../issue/brief/brief-languages.ts";
import { briefPdf } from "../issue/brief/brief-pdf.ts";
import { type HandedOn, handedOn } from "../issue/handed-on.ts";
import { type IssueOptions, issueFile, jobFromIssued } from "../issue/issue-sheets.ts";
import type { Job } from "../job/schema.ts";
import { readViewports } from "../pdf/read/read-viewports.ts";
import type { Progress } from "../ui/host.ts";
import type { Problem } from "../units/problem.ts";
import { explainInSteps } from "./findings-text.ts";
import type { IssueAnswer, IssueWorker, MadeFile } from "./issue-protocol.ts";
import { runInSlices } from "./run-in-slices.ts";

const bytesAt = async (address: string): Promise<Uint8Array> =>
  new Uint8Array(await (await fetch(address)).arrayBuffer());

let fonts: Promise<IssueOptions["fonts"]> | undefined;
/** The faces, fetched once from beside the program. */
const loadFonts = () => {
  fonts ??= Promise.all([bytesAt(regularUrl), bytesAt(boldUrl), bytesAt(condensedUrl)]).then(
    ([regular, bold, condensed]) => ({ regular, bold, condensed }),
  );
  return fonts;
};

type Request = Parameters<IssueWorker["issue"]>[0];

let told: (progress: Progress) => void = () => undefined;

/** The findings of a job with their reasons and remedies, which are most of the work of writing them. */
async function explained(job: Job): Promise<CheckResult> {
  const result = checkJob(job);
  await runInSlices(explainInSteps(result), new AbortController().signal, told);
  return result;
}

async function issue({ job, choice, drawings, words, passwords, now }: Request): Promise<IssueAnswer> {
  const result = choice.report === "none" ? checkJob(job) : await explained(job);
  const chosen = choice.sheets.flatMap((id) => (job.sheets[id] ? [job.sheets[id].file] : []));
  const wanted = new Map(chosen.map((file) => [file.sha256, file.name]));
  const files: MadeFile[] = [];
  const notes: Problem[] = [];
  let report = choice.report;
  for (const [sha256, name] of [...wanted].sort(([, a], [, b]) => (a < b ? -1 : a > b ? 1 : 0))) {
    const bytes = drawings.get(sha256);
    if (!bytes) return { problems: [{ code: "issue.drawing-missing", where: name, params: { name, sha256 } }] };
    const password = passwords[sha256];
    const issued = await issueFile(
      job,
      result,
      { sha256, bytes },
      {
        fonts: await loadFonts(),
        now: new Date(now),
        author: choice.author,
        report,
        ...(choice.copy === "none" ? {} : { copy: choice.copy }),
        flatten: choice.form === "flattened",
        only: new Set(choice.sheets),
        marks: { words },
        ...(password === undefined ? {} : { password }),
      },
    );
    if (!issued.ok)
      return { problems: issued.problems.map((problem) => ({ ...problem, where: problem.where || name })) };
    const stem = name.replace(/\.pdf$/i, "");
    const { parts, copy } = issued.value;
    files.push(madeFile(`${stem}, checked${copy ? `, ${copy} copy` : ""}.pdf`, ...parts));
    notes.push(...issued.value.notes.map((note) => ({ ...note, where: name })));
    if (issued.value.report) {
      files.push(madeFile(`${stem}, report.pdf`, issued.value.report));
      if (report === "with") notes.push({ code: "issue.report-apart", where: name, params: { name } });
    }
    // The report covers the whole job: it goes with the first drawing only.
    report = "none";
  }
  return { files, notes };
}

/** A file of several parts, one behind the other. */
const madeFile = (name: string, ...parts: readonly (string | Uint8Array)[]): MadeFile => ({
  name,
  content: new Blob(parts as BlobPart[]),
});

async function brief(job: Job, author: string, language: BriefLanguage, now: number): Promise<IssueAnswer> {
  const written = await briefPdf(job, await loadFonts(), { author, now: new Date(now) }, language);
  if (!written.ok) return { problems: written.problems };
  const untold = hangingRoom(job).filter(({ is }) => is === "not-known" || is === "not-settled");
  const notes = untold.map(
    ({ id, label }): Problem => ({ code: "brief.area-not-told", where: `areas/${id}`, params: { label } }),
  );
  const spoken = language === "en" ? "" : ` in ${BRIEF_LANGUAGES[language]}`;
  const name = `${job.settings.job.name.trim() || "Job"}, crew's brief${spoken}.pdf`;
  return { files: [madeFile(name, written.value)], notes };
}

/** What each of the things handed on is called as a file. */
const FILE_WORDS = {
  comments: "review comments",
  wiring: "wiring schedule",
  decks: "deck schedule",
  xlsx: "schedules",
};

async function handOn(job: Job, wanted: HandedOn, author: string, now: number): Promise<IssueAnswer> {
  const written = await handedOn(job, await explained(job), wanted, { author, now: new Date(now) }, loadFonts);
  if (!written.ok) return { problems: written.problems };
  const what = wanted.is === "comments" ? "comments" : wanted.form === "xlsx" ? "xlsx" : wanted.of;
  const name = `${job.settings.job.name.trim() || "Job"}, ${FILE_WORDS[what]}.${wanted.form === "text" ? "txt" : wanted.form}`;
  return { files: [madeFile(name, written.value)], notes: [] };
}

const worker: IssueWorker = {
  listen(listener) {
    told = listener;
  },
  issue,
  brief,
  handOn,
  async viewports(bytes, password) {
    const found = readViewports(bytes, password);
    return found.ok ? found.value : [];
  },
  async inside(bytes) {
    const carried = jobFromIssued(bytes);
    return carried.ok && carried.value === undefined ? undefined : (carried as never);
  },
};

expose(worker);
