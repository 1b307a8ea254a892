import type { Problem } from "../../units/problem.ts";
import { elevationIn, scaleNoteIn, sheetNumberIn, slopeIn } from "./find-notes.ts";
import { joinText, runOf } from "./join-text.ts";
import { geometryOf, type OpenPlan } from "./open-plan.ts";
import type { PageGeometry } from "./page-geometry.ts";
import type { PageContents, PlanContents, TextRun } from "./plan-contents.ts";

/** How to read a whole drawing. */
export interface ReadOptions {
  /** Reading stops with the signal's reason. */
  readonly signal?: AbortSignal;
  /** Called after each page. */
  readonly onProgress?: (done: number, of: number) => void;
  /** Page numbers to read; all when left out. */
  readonly pages?: readonly number[];
}

/** Reads the pages of a drawing one after the other. A page that cannot be read is a warning `pdf.page-unreadable`. */
export async function readPlan(plan: OpenPlan, { signal, onProgress, pages }: ReadOptions = {}): Promise<PlanContents> {
  const wanted = plan.pages.map((page) => page.page).filter((page) => !pages || pages.includes(page));
  const read: PageContents[] = [];
  const warnings: Problem[] = [...plan.warnings];
  for (const [i, page] of wanted.entries()) {
    try {
      read.push(await readPage(plan, page, signal));
    } catch {
      signal?.throwIfAborted();
      warnings.push({ code: "pdf.page-unreadable", where: "", params: { page } });
    }
    onProgress?.(i + 1, wanted.length);
  }
  return { pages: read, layers: plan.layers, warnings };
}

/** Reads one page. Rejects with the signal's reason when that is aborted. */
export async function readPage(plan: OpenPlan, page: number, signal?: AbortSignal): Promise<PageContents> {
  signal?.throwIfAborted();
  const proxy = await plan.document.getPage(page);
  const pieces: TextRun[] = [];
  const reader = proxy.streamTextContent().getReader();
  try {
    for (;;) {
      signal?.throwIfAborted();
      const { done, value } = await reader.read();
      if (done) break;
      for (const item of value.items) if ("str" in item) pieces.push(runOf(item));
    }
  } finally {
    if (signal?.aborted) await reader.cancel(signal.reason).catch(() => undefined);
  }
  return contentsOf(plan, geometryOf(proxy), pieces);
}

/** What the text of a page offers, from the pieces it was written in. */
export function contentsOf(plan: OpenPlan, geometry: PageGeometry, pieces: readonly TextRun[]): PageContents {
  const texts = joinText(pieces.filter(({ mirrored }) => !mirrored));
  const mirrored = joinText(pieces.filter((piece) => piece.mirrored));
  const found = <T>(find: (run: TextRun) => T | undefined): T[] => texts.flatMap((run) => find(run) ?? []);
  const labelled = plan.labels[plan.pages.findIndex(({ page }) => page === geometry.page)];
  return {
    geometry,
    label: labelled ?? sheetNumberIn(texts),
    texts,
    ...(mirrored.length > 0 ? { mirrored } : {}),
    scaleNotes: found(scaleNoteIn),
    elevations: found((run) => elevationIn(run, texts)),
    slopes: found(slopeIn),
  };
}
