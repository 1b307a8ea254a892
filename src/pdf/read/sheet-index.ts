import type { OpenPlan } from "./open-plan.ts";
import { displaySize, type PageRotation } from "./page-geometry.ts";
import { readPage } from "./plan-reader.ts";
import { titleOfSheet } from "./title-block.ts";

/** One sheet of a set, as its index lists it. */
export interface SheetEntry {
  /** 1 for the first page. */
  readonly page: number;
  /** The number of the sheet in its title block, else what the file calls the page; null where neither is there. */
  readonly number: string | null;
  /** What the number was read from; null where there is none. */
  readonly numberFrom: "title-block" | "page-label" | null;
  readonly name: string | null;
  /** Width and height of the paper as displayed, inches. */
  readonly paperIn: readonly [number, number];
  readonly rotate: PageRotation;
  /** Marks already on the sheet, by what ISO 32000 calls them (FreeText, Square, Link), with how many of each. */
  readonly annotations: Readonly<Record<string, number>>;
  /** Why nothing more is said: the page cannot be read. */
  readonly unreadable: boolean;
}

/** The sheets of a set and what is odd about their numbers. */
export interface SheetIndex {
  readonly sheets: readonly SheetEntry[];
  /** Numbers that several pages carry. */
  readonly duplicates: readonly { readonly number: string; readonly pages: readonly number[] }[];
  /** Numbers missing between others of one series, at most `LARGEST_GAP` in a row; a set may leave them out on purpose. */
  readonly gaps: readonly string[];
}

/** How to read an index. */
export interface IndexOptions {
  readonly signal?: AbortSignal;
  /** Called with each sheet as it is read. */
  readonly onSheet?: (sheet: SheetEntry, done: number, of: number) => void;
}

/** Longer jumps in a series are its own way of counting, not missing sheets. */
export const LARGEST_GAP = 3;

/** Lists the sheets of a drawing one after the other, as they are asked for: nothing is read ahead, and each page is let go. */
export async function* listSheets(plan: OpenPlan, signal?: AbortSignal): AsyncGenerator<SheetEntry, void> {
  for (const { page } of plan.pages) {
    const entry = await readSheetEntry(plan, page, signal);
    if (!entry.unreadable) (await plan.document.getPage(page)).cleanup();
    yield entry;
  }
}

/**
 * What the index says of one page, 1 for the first; of a page that cannot be read, what is known without reading it. What the engine keeps of the page is
 * let go by the caller. Rejects with the signal's reason.
 */
export async function readSheetEntry(plan: OpenPlan, page: number, signal?: AbortSignal): Promise<SheetEntry> {
  signal?.throwIfAborted();
  const place = plan.pages.findIndex((known) => known.page === page);
  const geometry = plan.pages[place];
  if (!geometry) throw new Error(`no page ${page} in the drawing`);
  const { width, height } = displaySize(geometry);
  const known = { page, paperIn: [width / 72, height / 72] as const, rotate: geometry.rotate };
  const label = plan.labels[place] ?? null;
  const labelled = { number: label, numberFrom: label === null ? null : ("page-label" as const) };
  try {
    const { texts } = await readPage(plan, page, signal);
    const { number, name } = titleOfSheet(geometry, texts);
    const proxy = await plan.document.getPage(page);
    const annotations: Record<string, number> = {};
    for (const { subtype } of (await proxy.getAnnotations()) as { subtype?: string }[])
      annotations[subtype ?? "unknown"] = (annotations[subtype ?? "unknown"] ?? 0) + 1;
    signal?.throwIfAborted();
    const numbered = number ? { number: number.text, numberFrom: "title-block" as const } : labelled;
    return { ...known, ...numbered, name, annotations, unreadable: false };
  } catch {
    signal?.throwIfAborted();
    return { ...known, ...labelled, name: null, annotations: {}, unreadable: true };
  }
}

/** Whether a page label only counts ("7", "iv"): it is then no number of a sheet. */
export const isCounting = (label: string): boolean => /^(?:\d+|[ivxlc]+)$/i.test(label);

/** The whole index of a set. Rejects with the signal's reason. */
export async function readSheetIndex(plan: OpenPlan, { signal, onSheet }: IndexOptions = {}): Promise<SheetIndex> {
  const sheets: SheetEntry[] = [];
  for await (const sheet of listSheets(plan, signal)) {
    sheets.push(sheet);
    onSheet?.(sheet, sheets.length, plan.pages.length);
  }
  return { sheets, ...oddNumbers(sheets) };
}

/** Numbers that come twice, and small gaps in their series. */
export function oddNumbers(
  sheets: readonly Pick<SheetEntry, "page" | "number">[],
): Pick<SheetIndex, "duplicates" | "gaps"> {
  const pages = new Map<string, number[]>();
  for (const { number, page } of sheets) if (number !== null) pages.set(number, [...(pages.get(number) ?? []), page]);
  const series = new Map<string, { readonly value: number; readonly digits: number }[]>();
  for (const number of pages.keys()) {
    const parts = /^(.*?)(\d+)$/.exec(number);
    if (!parts) continue;
    const key = parts[1]!;
    series.set(key, [...(series.get(key) ?? []), { value: Number(parts[2]), digits: parts[2]!.length }]);
  }
  const gaps = [...series].flatMap(([key, list]) => {
    list.sort((a, b) => a.value - b.value);
    return list.slice(1).flatMap(({ value, digits }, i) => {
      const missing = value - list[i]!.value - 1;
      if (missing > LARGEST_GAP) return [];
      return Array.from({ length: missing }, (_, k) => `${key}${String(list[i]!.value + 1 + k).padStart(digits, "0")}`);
    });
  });
  return {
    duplicates: [...pages].flatMap(([number, own]) => (own.length > 1 ? [{ number, pages: own }] : [])),
    gaps,
  };
}
