import {
  clip,
  endPath,
  type PDFDocument,
  PDFOperator,
  PDFOperatorNames,
  type PDFPage,
  popGraphicsState,
  pushGraphicsState,
  rectangle,
} from "@cantoo/pdf-lib";
import { drawPicture, type EmbeddedFonts } from "./draw-picture-pdf.ts";
import { pictureBounds } from "./place-picture.ts";
import type { Part } from "./report/part.ts";
import type { ReportPages } from "./report/set-pages.ts";

/** A piece of a part, as it lies on a page of a document under construction. */
export interface PlacedPiece {
  readonly part: Part;
  readonly page: PDFPage;
  /** Its number among the marked pieces of its page. */
  readonly mcid: number;
  /** Around all it paints, points of the page; absent where it paints nothing. */
  readonly box: readonly [number, number, number, number] | undefined;
}

/**
 * Draws pages into a document and answers the pieces of their parts in order. `marked`: each piece is marked as content of its part, and the
 * rest as what only adorns the page (ISO 32000-2, 14.6 and 14.8.2.2).
 */
export function drawPages(
  document: PDFDocument,
  { size, pages, stretches }: ReportPages,
  fonts: EmbeddedFonts,
  marked: boolean,
): PlacedPiece[] {
  return pages.flatMap((picture, i) => {
    const page = document.addPage([size[0], size[1]]);
    const placed: PlacedPiece[] = [];
    let at = 0;
    const adorn = (to: number) => {
      if (to <= at) return;
      if (marked) page.pushOperators(begin("Artifact"));
      drawPicture(page, picture.slice(at, to), fonts);
      if (marked) page.pushOperators(end());
    };
    for (const { part, clip: window, from, to } of stretches[i] ?? []) {
      if ((!part && !window) || from === to) continue;
      adorn(from);
      const items = picture.slice(from, to);
      if (marked) page.pushOperators(part ? begin(part.role, placed.length) : begin("Artifact"));
      if (window) {
        const [x0, y0, x1, y1] = window;
        page.pushOperators(pushGraphicsState(), rectangle(x0, y0, x1 - x0, y1 - y0), clip(), endPath());
      }
      drawPicture(page, items, fonts, marked);
      if (window) page.pushOperators(popGraphicsState());
      if (marked) page.pushOperators(end());
      if (part) placed.push({ part, page, mcid: placed.length, box: window ?? pictureBounds(items) });
      at = to;
    }
    adorn(picture.length);
    return placed;
  });
}

const begin = (role: string, mcid?: number): PDFOperator =>
  mcid === undefined
    ? PDFOperator.of(PDFOperatorNames.BeginMarkedContent, [`/${role}`])
    : PDFOperator.of(PDFOperatorNames.BeginMarkedContentSequence, [`/${role}`, `<</MCID ${mcid}>>`]);

const end = (): PDFOperator => PDFOperator.of(PDFOperatorNames.EndMarkedContent);
