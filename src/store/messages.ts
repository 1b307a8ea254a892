import type { Problem } from "../units/problem.ts";

type Words = (p: Problem["params"], where: string) => string;

/** The one place for the wording of what goes wrong in keeping jobs and in the job's own file. */
export const storeMessages: Readonly<Record<string, Words>> = {
  "storage.full": () =>
    "Not saved: this browser has no room left. The job is still open here. Save it as a file, then free some space.",
  "storage.refused": () =>
    "Not saved: this browser does not let the page keep anything (a private window, or a setting). The job is still open here. Save it as a file before you close the window.",
  "storage.changed-elsewhere": () =>
    "Not saved: this job was saved by another window meanwhile. Nothing was overwritten. Save this copy as a file, then open the other one.",
  "storage.failed": (p) =>
    `Not saved: the browser's storage failed (${p.detail}). The job is still open here. Save it as a file before you close the window.`,
  "job-file.not-a-zip": () =>
    "This is not a job file, or it is damaged: it is not a readable archive. Fetch it again, or open an earlier copy.",
  "job-file.no-manifest": () =>
    "This archive is not a job file: it has no manifest.json. Choose a file that this program saved.",
  "job-file.bad-manifest": (p) =>
    `The job file's manifest cannot be used (${p.detail}). The file was changed outside the program; open an earlier copy.`,
  "job-file.newer-version": (p) =>
    `This job file was written by a newer version of the program (file version ${p.version}; this program knows up to ${p.known}). Update the program; the file was left as it is.`,
  "job-file.no-job": () => "The job file holds no job.json. It was changed outside the program; open an earlier copy.",
  "job-file.unexpected-entry": (p) =>
    `The job file holds something that does not belong in one: "${p.name}". Nothing was opened.`,
  "job-file.twice": (p) => `The job file holds "${p.name}" twice. Nothing was opened.`,
  "job-file.too-large": (p) =>
    `The job file would unpack to more than ${p.limit} MB ("${p.name}"). Nothing was opened. Save the job without its drawings and add them by hand.`,
  "job-file.too-many": (p) => `The job file holds more than ${p.limit} entries. Nothing was opened.`,
  "job-file.wrong-sum": (p) =>
    `"${p.name}" in the job file is not what was saved (its checksum differs). The file is damaged; open an earlier copy.`,
  "job-file.absent": (p) =>
    `The job file's manifest names "${p.name}", which is not in it. The file is damaged; open an earlier copy.`,
  "job-file.unlisted": (p) => `The job file holds "${p.name}", which its manifest does not name. Nothing was opened.`,
};
