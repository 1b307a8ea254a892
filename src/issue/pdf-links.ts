import { type PDFArray, type PDFDocument, PDFHexString, PDFName, type PDFRef } from "@cantoo/pdf-lib";
import type { PlacedPiece } from "./draw-pages-pdf.ts";
import { lineage } from "./report/part.ts";

/** A link's area around its words, points. */
const AROUND = 1.5;
/** Room above a place that a link leads to, points. */
const ABOVE = 12;

/** Where a piece begins, as a destination: its page, from a little above it, at the zoom the reader has (ISO 32000-2, 12.3.2). */
export function placeOf(document: PDFDocument, { page, box }: PlacedPiece): PDFArray {
  const top = Math.min((box?.[3] ?? page.getHeight()) + ABOVE, page.getHeight());
  return document.context.obj([page.ref, "XYZ", null, Number(top.toFixed(2)), null]);
}

/** Lists the parts that have names among the document's destinations, and answers the names. */
export function nameParts(document: PDFDocument, pieces: readonly PlacedPiece[]): ReadonlySet<string> {
  const places = new Map<string, PDFArray>();
  for (const piece of pieces) {
    for (const { name } of lineage(piece.part))
      if (name !== undefined && !places.has(name)) places.set(name, placeOf(document, piece));
  }
  if (places.size > 0) document.catalog.set(PDFName.of("Dests"), document.context.obj(Object.fromEntries(places)));
  return new Set(places.keys());
}

/** A link as an annotation of its page. */
export type Links = ReadonlyMap<PlacedPiece, PDFRef>;

/** Makes a link annotation (12.5.6.5) of every piece that leads to a known name. */
export function addLinks(
  document: PDFDocument,
  pieces: readonly PlacedPiece[],
  isKnown: (name: string) => boolean,
): Links {
  const { context } = document;
  const links = new Map<PlacedPiece, PDFRef>();
  for (const piece of pieces) {
    const { part, page, box } = piece;
    if (part.goesTo === undefined || !box || !isKnown(part.goesTo)) continue;
    const [x0, y0, x1, y1] = box.map((v, i) => Number((i < 2 ? v - AROUND : v + AROUND).toFixed(2)));
    const ref = context.register(
      context.obj({
        Type: "Annot",
        Subtype: "Link",
        Rect: [x0!, y0!, x1!, y1!],
        Border: [0, 0, 0],
        F: 4,
        P: page.ref,
        Dest: PDFName.of(part.goesTo),
        Contents: PDFHexString.fromText(part.alt ?? part.goesTo),
      }),
    );
    page.node.addAnnot(ref);
    links.set(piece, ref);
  }
  return links;
}
