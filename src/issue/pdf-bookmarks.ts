import { type PDFDict, type PDFDocument, PDFHexString, PDFName, PDFNumber, type PDFRef } from "@cantoo/pdf-lib";
import type { PlacedPiece } from "./draw-pages-pdf.ts";
import { placeOf } from "./pdf-links.ts";
import { lineage, type Part } from "./report/part.ts";

interface Entry {
  readonly level: number;
  readonly ref: PDFRef;
  readonly dict: PDFDict;
  readonly kids: Entry[];
}

/** Lists the parts that have bookmarks in the document's outline (ISO 32000-2, 12.3.3), each under the last one of a lesser level. The first level is shown opened. */
export function addBookmarks(document: PDFDocument, pieces: readonly PlacedPiece[]): void {
  const { context } = document;
  const entry = (level: number, entries: Record<string, unknown> = {}): Entry => {
    const dict = context.obj(entries as Record<string, never>);
    return { level, dict, ref: context.register(dict), kids: [] };
  };
  const root = entry(0, { Type: "Outlines" });
  const open = [root];
  const met = new Set<Part>();
  const marked = pieces.flatMap((piece) => lineage(piece.part).map((part) => ({ piece, part })));
  for (const { piece, part } of marked) {
    const { bookmark } = part;
    if (!bookmark || met.has(part)) continue;
    met.add(part);
    while (open.at(-1)!.level >= bookmark.level) open.pop();
    const made = entry(bookmark.level, {
      Title: PDFHexString.fromText(bookmark.text),
      Dest: placeOf(document, piece),
      Parent: open.at(-1)!.ref,
    });
    open.at(-1)!.kids.push(made);
    open.push(made);
  }
  if (root.kids.length === 0) return;
  link(root, true);
  document.catalog.set(PDFName.of("Outlines"), root.ref);
  document.catalog.set(PDFName.of("PageMode"), PDFName.of("UseOutlines"));
}

/** Ties an entry's kids to it and to each other; how many of them are listed while the entry is open. */
function link({ dict, kids }: Entry, open: boolean): number {
  kids.forEach((kid, i) => {
    if (i > 0) kid.dict.set(PDFName.of("Prev"), kids[i - 1]!.ref);
    if (i + 1 < kids.length) kid.dict.set(PDFName.of("Next"), kids[i + 1]!.ref);
  });
  if (kids.length === 0) return 0;
  const seen = kids.reduce((sum, kid) => sum + 1 + Math.max(0, link(kid, kid.level < 2)), 0);
  dict.set(PDFName.of("First"), kids[0]!.ref);
  dict.set(PDFName.of("Last"), kids.at(-1)!.ref);
  dict.set(PDFName.of("Count"), PDFNumber.of(open ? seen : -seen));
  return open ? seen : 0;
}
