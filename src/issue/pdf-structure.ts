import {
  PDFArray,
  PDFBool,
  type PDFDict,
  type PDFDocument,
  PDFHexString,
  PDFName,
  PDFNumber,
  type PDFPage,
  type PDFRef,
} from "@cantoo/pdf-lib";
import type { PlacedPiece } from "./draw-pages-pdf.ts";
import type { Links } from "./pdf-links.ts";
import type { Part } from "./report/part.ts";

interface Element {
  readonly ref: PDFRef;
  readonly dict: PDFDict;
  readonly kids: PDFArray;
}

/**
 * Gives a document the tree of its parts (ISO 32000-2, 14.7 and 14.8), so that a screen reader reads them in order, as headings, tables, lists,
 * figures and links. `links` are the annotations of pieces that lead somewhere.
 */
export function addStructure(document: PDFDocument, pieces: readonly PlacedPiece[], links: Links): void {
  const { context, catalog } = document;
  const root = context.obj({ Type: "StructTreeRoot" });
  const rootRef = context.register(root);
  const whole = element(document, { S: "Document", P: rootRef });
  root.set(PDFName.of("K"), whole.ref);

  const leading = new Set([...links.keys()].map(({ part }) => part));
  const elements = new Map<Part, Element>();
  const elementOf = (part: Part): Element => {
    const known = elements.get(part);
    if (known) return known;
    const above = part.within ? elementOf(part.within) : whole;
    const made = element(document, { S: roleOf(part), P: above.ref, ...attributesOf(part) });
    above.kids.push(made.ref);
    elements.set(part, made);
    return made;
  };

  // A link whose other end is in another file is words like others.
  const roleOf = (part: Part): string => (part.role === "Link" && !leading.has(part) ? "Span" : part.role);

  // By page, and then by link: the element each marked piece belongs to.
  const parents: (PDFRef | PDFArray)[] = [];
  const rowOf = new Map<PDFPage, PDFArray>();
  for (const piece of pieces) {
    const { part, page, mcid } = piece;
    const { kids, ref } = elementOf(part);
    let row = rowOf.get(page);
    if (!row) {
      row = PDFArray.withContext(context);
      page.node.set(PDFName.of("StructParents"), PDFNumber.of(parents.length));
      page.node.set(PDFName.of("Tabs"), PDFName.of("S"));
      parents.push(row);
      rowOf.set(page, row);
    }
    row.push(ref);
    kids.push(context.obj({ Type: "MCR", Pg: page.ref, MCID: mcid }));
    const link = links.get(piece);
    if (!link) continue;
    (context.lookup(link) as PDFDict).set(PDFName.of("StructParent"), PDFNumber.of(parents.length));
    parents.push(ref);
    kids.push(context.obj({ Type: "OBJR", Pg: page.ref, Obj: link }));
  }
  root.set(PDFName.of("ParentTree"), context.register(context.obj({ Nums: parents.flatMap((held, i) => [i, held]) })));
  root.set(PDFName.of("ParentTreeNextKey"), PDFNumber.of(parents.length));
  catalog.set(PDFName.of("StructTreeRoot"), rootRef);
  catalog.set(PDFName.of("MarkInfo"), context.obj({ Marked: PDFBool.True }));
}

function element(document: PDFDocument, entries: Record<string, unknown>): Element {
  const { context } = document;
  const kids = PDFArray.withContext(context);
  const dict = context.obj({ ...entries, Type: "StructElem" } as Record<string, string>);
  dict.set(PDFName.of("K"), kids);
  return { dict, kids, ref: context.register(dict) };
}

function attributesOf({ role, alt, scope }: Part): Record<string, unknown> {
  return {
    ...(alt === undefined || role !== "Figure" ? {} : { Alt: PDFHexString.fromText(alt) }),
    ...(role === "TH" ? { A: { O: "Table", Scope: scope ?? "Column" } } : {}),
  };
}
