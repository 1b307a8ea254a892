import type { Problem } from "../units/problem.ts";

/** The wording of what goes wrong in the application itself. */
export const hostMessages: Readonly<Record<string, (p: Problem["params"]) => string>> = {
  "file.unknown": (p) =>
    `${p.name} is neither a PDF drawing nor a job file. Choose a PDF, a job this program saved, or an issued PDF that carries one.`,
  "brief.area-not-told": (p) =>
    `${p.label}: the brief tells nothing of it, since it is not settled or something of its deck is not known. Nothing may be hung there on the word of this brief.`,
  "check.lost": (p) =>
    `The part of the program that checks would not stay up (${p.detail}). The job is untouched. Press Check again; if that does not help, save the job as a file and load the page again.`,
  "issue.stopped": () => "Stopped: nothing was written.",
  "issue.not-checked": () => "The job is still being checked. Issue it when the check is done.",
  "issue.report-apart": (p) =>
    `${p.name} is signed: pages behind a signature would break it, so the report is a file of its own.`,
  "sample.none": (p) => `The program carries no sample called "${p.name}". Open the start page and choose one there.`,
};
