import type { PDFDocumentProxy, PDFPageProxy } from "pdfjs-dist";
import { fail, ok, type Problem, type Result } from "../../units/problem.ts";
import { displaySize, type PageGeometry, pageRotation } from "./page-geometry.ts";
import type { PlanLayer } from "./plan-contents.ts";

/** The part of pdf.js that opens a document; the browser's worker and Node pass in different builds of it. */
export interface PdfEngine {
  getDocument(source: Record<string, unknown>): {
    readonly promise: Promise<PDFDocumentProxy>;
    destroy(): Promise<void>;
  };
}

/** An opened drawing and what is known of it without reading a page's content. */
export interface OpenPlan {
  readonly document: PDFDocumentProxy;
  readonly pages: readonly PageGeometry[];
  /** What the file calls its pages ("A-103"), where it says; the same order as `pages`. */
  readonly labels: readonly (string | null)[];
  readonly layers: readonly PlanLayer[];
  /** What is odd and can be worked with: pages that cannot be read or have no usable size are named here and left out. */
  readonly warnings: readonly Problem[];
  /** Lets go of the document and what it holds. */
  close(): Promise<void>;
}

/** What to open a drawing with. */
export interface OpenOptions {
  /** The file's name, for `where` in problems. */
  readonly name?: string;
  readonly password?: string;
  /** Further settings for pdf.js: where its fonts, character maps and decoders lie, its factories. */
  readonly engineSettings?: Record<string, unknown>;
}

/** A page longer than this on paper is read and shown, with a warning: 200 in. is the limit ISO 32000-1 (Annex C) gave a page. */
const HUGE_PAGE_IN = 200;

/**
 * Opens a drawing. Problems: `pdf.empty`, `pdf.not-a-pdf`, `pdf.truncated`, `pdf.damaged`, `pdf.password-needed`,
 * `pdf.password-wrong`, `pdf.encryption-unknown`, `pdf.no-pages`. The bytes are handed over to the engine and must not be used after.
 */
export async function openPlan(
  engine: PdfEngine,
  bytes: Uint8Array,
  options: OpenOptions = {},
): Promise<Result<OpenPlan>> {
  const where = options.name ?? "";
  if (bytes.length === 0) return fail("pdf.empty", where);
  if (!startsAsPdf(bytes)) return fail("pdf.not-a-pdf", where);
  const ended = endsAsPdf(bytes);
  const task = engine.getDocument({
    verbosity: 0,
    isEvalSupported: false,
    // The same picture on every machine: the program's own fonts, never those of the system.
    useSystemFonts: false,
    ...options.engineSettings,
    data: bytes,
    ...(options.password === undefined ? {} : { password: options.password }),
  });
  try {
    const document = await task.promise;
    const { pages, warnings } = await pagesOf(document, where);
    if (pages.length === 0) {
      await task.destroy();
      return warnings.length > 0 ? { ok: false, problems: warnings } : fail("pdf.no-pages", where);
    }
    const [labels, layers] = await Promise.all([labelsOf(document), layersOf(document)]);
    const all = ended ? warnings : [{ code: "pdf.end-missing", where, params: {} }, ...warnings];
    return ok({
      document,
      pages,
      labels: pages.map((page) => labels?.[page.page - 1] ?? null),
      layers,
      warnings: all,
      close: () => task.destroy(),
    });
  } catch (error) {
    await task.destroy().catch(() => undefined);
    return fail(openProblemCode(error, ended, options.password !== undefined), where);
  }
}

/** What a page says about its place on paper. */
export const geometryOf = (page: PDFPageProxy): PageGeometry => {
  const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = page.view;
  const userUnit = page.userUnit > 0 && Number.isFinite(page.userUnit) ? page.userUnit : 1;
  return { page: page.pageNumber, view: [x0, y0, x1, y1], rotate: pageRotation(page.rotate), userUnit };
};

async function pagesOf(
  document: PDFDocumentProxy,
  where: string,
): Promise<{ pages: PageGeometry[]; warnings: Problem[] }> {
  const pages: PageGeometry[] = [];
  const warnings: Problem[] = [];
  for (let page = 1; page <= document.numPages; page++) {
    try {
      const geometry = geometryOf(await document.getPage(page));
      const { width, height } = displaySize(geometry);
      const long = Math.max(width, height) / 72;
      if (!(width >= 1 && height >= 1)) warnings.push({ code: "pdf.page-without-size", where, params: { page } });
      else {
        pages.push(geometry);
        if (long > HUGE_PAGE_IN)
          warnings.push({ code: "pdf.page-huge", where, params: { page, inches: Math.round(long) } });
      }
    } catch {
      warnings.push({ code: "pdf.page-unreadable", where, params: { page } });
    }
  }
  return { pages, warnings };
}

const labelsOf = async (document: PDFDocumentProxy): Promise<string[] | null> => {
  try {
    return await document.getPageLabels();
  } catch {
    return null;
  }
};

async function layersOf(document: PDFDocumentProxy): Promise<PlanLayer[]> {
  try {
    const config = await document.getOptionalContentConfig({ intent: "display" });
    const layers: PlanLayer[] = [];
    for (const [id, group] of config as unknown as Iterable<[string, { name: string | null; visible: boolean }]>) {
      layers.push({ id, name: group.name ?? id, shown: group.visible });
    }
    return layers;
  } catch {
    return [];
  }
}

const openProblemCode = (error: unknown, ended: boolean, withPassword: boolean): string => {
  const { name, message } = error instanceof Error ? error : new Error(String(error));
  if (name === "PasswordException") return withPassword ? "pdf.password-wrong" : "pdf.password-needed";
  if (/encrypt/i.test(message)) return "pdf.encryption-unknown";
  return ended ? "pdf.damaged" : "pdf.truncated";
};

/** A reader may accept the header anywhere in the first 1,024 bytes (ISO 32000-1, Annex H, note 13). */
const startsAsPdf = (bytes: Uint8Array): boolean => latin(bytes.subarray(0, 1024)).includes("%PDF-");

/** The end marker is looked for in the last 1,024 bytes (ISO 32000-1, Annex H, note 18). */
const endsAsPdf = (bytes: Uint8Array): boolean => latin(bytes.subarray(-1024)).includes("%%EOF");

const latin = (bytes: Uint8Array): string => {
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return text;
};
