import type { Job } from "../job/schema.ts";
import { isCounting, type SheetEntry } from "../pdf/read/sheet-index.ts";
import type { Drawing } from "./host.ts";

/**
 * What sheets are called in the job: by the number of each, else by its file and page. A number that another sheet has already is told apart by its
 * page. In the order of the entries.
 */
export function sheetTitles(
  job: Job,
  { name, pages }: Pick<Extract<Drawing, { is: "open" }>, "name" | "pages">,
  entries: readonly Pick<SheetEntry, "page" | "number" | "numberFrom">[],
): readonly string[] {
  const stem = name.replace(/\.pdf$/i, "");
  const taken = new Set(Object.values(job.sheets).map(({ title }) => title));
  return entries.map((entry) => {
    const plain = sheetNumber(entry) ?? (pages.length === 1 ? stem : `${stem}, page ${entry.page}`);
    const title = taken.has(plain) ? `${plain}, page ${entry.page}` : plain;
    taken.add(title);
    return title;
  });
}

/** The number of a sheet; null where there is none, or only a label that counts the pages. */
export const sheetNumber = ({ number, numberFrom }: Pick<SheetEntry, "number" | "numberFrom">): string | null =>
  number !== null && !(numberFrom === "page-label" && isCounting(number)) ? number : null;
