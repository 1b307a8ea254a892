import type { Tag } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import { type Length, toInches } from "../../units/length.ts";
import { type Inches, inches } from "../../units/quantity.ts";

/** Lengths this near to one another are one reading: half of the finest fraction that is written, inches. */
const SAME = 1 / 128;

/** Whether two lengths are one reading. */
export const sameLength = (a: Length, b: Length): boolean => Math.abs(toInches(a) - toInches(b)) <= SAME;

/** An elevation above the project datum; null where it is counted from the deck, or from a storey that is gone. */
function aboveProject(job: Job, length: Length, datum: Tag["datum"]): Inches | null {
  if (datum.from === "below-deck") return null;
  const floor = datum.from === "storey" ? job.storeys[datum.storey]?.floor : { value: 0, unit: "in" as const };
  return floor ? inches(toInches(floor) + toInches(length)) : null;
}

/** Whether a length read, counted from where it says or from where it does not say, is the elevation recorded. */
export function sameElevation(
  job: Job,
  read: { readonly length: Length; readonly datum: Tag["datum"] | null },
  recorded: { readonly length: Length; readonly datum: Tag["datum"] },
): boolean {
  const there = aboveProject(job, recorded.length, recorded.datum);
  if (read.datum === null) {
    if (recorded.datum.from !== "below-deck" && sameLength(read.length, recorded.length)) return true;
    return there !== null && Math.abs(toInches(read.length) - there) <= SAME;
  }
  const here = aboveProject(job, read.length, read.datum);
  if (here === null || there === null)
    return read.datum.from === recorded.datum.from && sameLength(read.length, recorded.length);
  return Math.abs(here - there) <= SAME;
}
