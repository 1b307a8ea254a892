import { distance2 } from "../../geometry/point.ts";
import type { Edit } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { Result } from "../../units/problem.ts";
import { changeRecord } from "../edits/change.ts";
import type { Suggestion } from "./suggestion.ts";

/** A text set aside is known again within so many heights of it: it may be read a little otherwise. */
const NEAR = 1;

/** Whether a person has said of this text that it is not to be offered. */
export function isSetAside(job: Job, sheet: Id, { text, at, run }: Suggestion): boolean {
  const list = job.sheets[sheet]?.setAside ?? [];
  return list.some((one) => one.text === text && distance2(one.at, at) <= NEAR * run.height);
}

/** Does not offer a text any more in this job. Problem: `edit.no-such-record`. */
export const setAside = (job: Job, sheet: Id, { text, at }: Suggestion): Result<Edit> =>
  changeRecord(
    job,
    "sheets",
    sheet,
    () => `Set aside ${text}`,
    ({ setAside = [] }) => ({ setAside: [...setAside, { text, at: [rounded(at[0]), rounded(at[1])] as const }] }),
  );

const rounded = (n: number): number => Number(n.toFixed(2));

/** Offers again what was set aside on a sheet. Problem: `edit.no-such-record`. */
export const bringBack = (job: Job, sheet: Id): Result<Edit> =>
  changeRecord(
    job,
    "sheets",
    sheet,
    ({ title }) => `Offer again what was set aside on ${title}`,
    () => ({ setAside: [] }),
  );
