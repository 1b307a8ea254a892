import { unitsMessage } from "../units/messages.ts";
import type { Problem } from "../units/problem.ts";

type Words = (p: Problem["params"], where: string) => string;

/** What went wrong in a job, where, and what to do: the one place for the wording of job and registration problems. */
export const jobMessages: Readonly<Record<string, Words>> = {
  "job.not-a-job": () =>
    'This is not a job of this program: its first key should be "format": "underside-job". Choose a job file, or an issued PDF that carries one.',
  "job.not-json": (p) =>
    `The job file is not readable JSON (${p.detail}). Open an earlier copy, or the issued PDF that carries the job.`,
  "job.bad-version": () =>
    "The job file has no whole-number version. It was not written by this program, or it was damaged.",
  "job.newer-version": (p) =>
    `This job was written by a newer version of the program (job version ${p.version}; this program knows up to ${p.known}). Update the program; the file was left as it is.`,
  "job.unknown-key": (p, where) =>
    `The job has a key that is not known here: "${p.key}" at ${where}. Nothing was opened, so that nothing is lost; remove the key or use the version that wrote it.`,
  "job.duplicate-key": (_, where) =>
    `The job has the key ${where} twice, and only one of the two can be meant. Nothing was opened; take one of them out.`,
  "job.bad-value": (p, where) => `The job has a value that cannot be used at ${where || "its top"}: ${p.detail}.`,
  "job.no-such-sheet": (p, where) => `${p.label} refers to a sheet that is not in the job ("${p.id}" at ${where}).`,
  "job.no-such-viewport": (p, where) =>
    `${p.label} refers to a viewport that is not in the job ("${p.id}" at ${where}).`,
  "job.no-such-storey": (p, where) =>
    `${p.label} has a tag on a storey that is not in the job ("${p.id}" at ${where}). Add the storey, or choose another datum for the tag.`,
  "job.no-such-storey-outline": (p, where) =>
    `${p.label} follows from an outline of the storey above that is not in the job ("${p.id}" at ${where}). Take the reference out, or say directly what the area is.`,
  "job.no-such-area": (p, where) => `${p.label} refers to a deck area that is not in the job ("${p.id}" at ${where}).`,
  "job.no-such-element": (p, where) =>
    `${p.label} names a run or box that is not in the job ("${p.id}" at ${where}). Choose another, or take the reference out.`,
  "fold.no-such-spot": (p) => `There is no spot ${p.spot}; this deck has ${p.count}.`,
  "fold.one-spot": (p) => `A line leads from one spot to another; both are spot ${p.spot}.`,
  "fold.twice": (p) => `There is a line between spots ${p.a} and ${p.b} already.`,
  "fold.crosses": (p) =>
    `It would cross the line between spots ${p.a} and ${p.b}. Put a spot where they meet, and draw each line up to it.`,
  "fold.through": (p) =>
    `It would pass through spot ${p.spot}. Draw it as two: from spot ${p.a} to ${p.spot}, and on to ${p.b}.`,
  "registration.no-viewport": (p) => `There is no viewport "${p.viewport}" any more.`,
  "registration.no-scale": (p) =>
    `${p.viewport} has no scale yet. Set it by two points and a distance, or by its scale note.`,
  "registration.circle": (p) =>
    `${p.viewport} is registered to a sheet that is registered back to it. Remove one of the two.`,
  "registration.too-few-pairs": (p) =>
    `${p.viewport} needs two shared points to be registered. Pick another grid intersection on both sheets.`,
  "registration.equal-points": (p) =>
    `The shared points of ${p.viewport} lie on one spot. Pick two that are far apart.`,
  "registration.mirrored": (p) =>
    `The shared points of ${p.viewport} fit a mirrored plan. Two of them are probably swapped.`,
};

/** A dictionary of messages by problem code. Each folder that makes problems has one. */
export type Messages = Readonly<Record<string, (p: Problem["params"], where: string) => string>>;

/** The words for a problem, from the dictionaries given and those of units and jobs. A code without words is a defect and is shown as it is. */
export function problemText(problem: Problem, ...more: readonly Messages[]): string {
  for (const messages of [...more, jobMessages]) {
    if (Object.hasOwn(messages, problem.code)) return messages[problem.code]!(problem.params, problem.where);
  }
  return unitsMessage(problem) ?? `${problem.code}${problem.where ? ` at ${problem.where}` : ""}`;
}
