import type { SheetEntry } from "../pdf/read/sheet-index.ts";

/** What a search among the sheets of a set looks at. */
export type SoughtSheet = Pick<SheetEntry, "page"> & Partial<Pick<SheetEntry, "number" | "name">>;

/**
 * A test of sheets against what was typed: commas part what is sought ("E-1, lighting, roof"), and a sheet is found by any of these whose words all stand
 * in its number, its name or its page. The signs inside a number do not count: E101 finds E-101.
 */
export function sheetsSought(typed: string): (sheet: SoughtSheet) => boolean {
  const sought = typed
    .split(",")
    .map((part) => plainWords(part))
    .filter((words) => words.length > 0);
  if (sought.length === 0) return () => true;
  return ({ page, number, name }) => {
    const text = `${number ?? ""} ${plain(number ?? "")} ${name ?? ""} page ${page}`.toLowerCase();
    return sought.some((words) => words.every((word) => text.includes(word) || numberBegins(number, word)));
  };
}

const plainWords = (text: string): readonly string[] => text.toLowerCase().split(/\s+/).filter(Boolean);
const plain = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, "");

const numberBegins = (number: string | null | undefined, word: string): boolean =>
  plain(word) !== "" && plain(number ?? "").startsWith(plain(word));
