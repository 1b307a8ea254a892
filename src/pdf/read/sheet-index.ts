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
  for (const [i, geometry] of plan.pages.entries()) {
    signal?.throwIfAborted();
    const { width, height } = displaySize(geometry);
    const known = {
      page: geometry.page,
      paperIn: [width / 72, height / 72] as const,
      rotate: geometry.rotate,
    };
    try {
      const { texts } = await readPage(plan, geometry.page, signal);
      const { number, name } = titleOfSheet(geometry, texts);
      const page = await plan.document.getPage(geometry.page);
      const annotations: Record<string, number> = {};
      for (const { subtype } of (await page.getAnnotations()) as { subtype?: string }[])
        annotations[subtype ?? "unknown"] = (annotations[subtype ?? "unknown"] ?? 0) + 1;
      page.cleanup();
      yield { ...known, number: number?.text ?? plan.labels[i] ?? null, name, annotations, unreadable: false };
    } catch {
      signal?.throwIfAborted();
      yield { ...known, number: plan.labels[i] ?? null, name: null, annotations: {}, unreadable: true };
    }
  }
}

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
