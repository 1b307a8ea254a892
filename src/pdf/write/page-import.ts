import type { Increment } from "./increment.ts";
import { addOutline, type OutlineEntry, readOutline, removeOutline } from "./outline.ts";
import { labelPages, unlabelPages } from "./page-labels.ts";
import { kidsOf, type PageLeaf, readPages, shapeOf } from "./page-tree.ts";
import { damaged } from "./pdf-failure.ts";
import type { PdfFile } from "./pdf-file.ts";
import {
  dict,
  isDict,
  name,
  nameOf,
  type PdfArray,
  type PdfDict,
  type PdfObject,
  PdfRef,
  PdfStream,
  type PdfString,
} from "./pdf-object.ts";
import { namedPlaces, type Places, withPlace } from "./sheet-links.ts";
import { dateString } from "./text-string.ts";

/** Under this name a page says that it was added here, so that issuing again can take it out (ISO 32000-2, 14.5). */
const MARK = "Underside";
/** What the labels of these pages begin with. */
const LABEL = "R-";

/** Entries of a page that only make sense in the document it comes from. */
const LEFT_BEHIND = new Set(["Parent", "Annots", "StructParents", "B", "PieceInfo", "Metadata"]);

/**
 * Copies all pages of another document, with everything they refer to under new numbers, behind the last page; its outline goes behind the drawing's.
 * Each copy states its own turning, boxes and resources, so that it inherits nothing from the drawing. Its links lead to places by name: of its own, or of
 * `around`, or they are left out. Answers its own places by their names. `count`: the pages before it.
 */
export const importPages = (
  increment: Increment,
  source: PdfFile,
  count: number,
  modified: Date | undefined,
  around: Places,
): Places => {
  const root = rootNode(increment);
  const node = increment.allocate();
  const pages = readPages(source.catalog(), source.resolve);
  const copier = new Copier(increment, source, pages);
  const places = new Map(
    [...namedPlaces(source.catalog(), source.resolve)].map(([key, place]) => [key, copier.copy(place) as PdfArray]),
  );
  const known = new Map([...around, ...places]);
  const kids = pages.map((page) => copier.page(page, node, modified && dateString(modified), known));
  increment.put(node, dict({ Type: name("Pages"), Parent: root, Kids: kids, Count: kids.length }));
  const tree = increment.edit(root, "the page tree");
  tree.set("Kids", [...kidsOf(tree, increment.resolve), node]);
  tree.set("Count", count + kids.length);
  const copied = ({ title, dest, entries }: OutlineEntry): OutlineEntry => ({
    title,
    dest: copier.copy(dest),
    entries: entries.map(copied),
  });
  addOutline(increment, readOutline(source.catalog(), source.resolve).map(copied));
  labelPages(increment, count, LABEL);
  return places;
};

/**
 * Takes out the pages that an earlier issue added, as long as they still stand together as they were put. Answers how
 * many. Their objects stay in the file's earlier part; only the page tree forgets them.
 */
export const removeImportedPages = (increment: Increment, leaves: readonly PageLeaf[]): number => {
  const { resolve } = increment;
  const isOurs = (page: PdfObject): boolean => {
    const found = resolve(page);
    const info = isDict(found) ? resolve(found.get("PieceInfo")) : null;
    return isDict(info) && isDict(resolve(info.get(MARK)));
  };
  if (!leaves.some((leaf) => isOurs(leaf.dict))) return 0;
  removeOutline(increment);
  const root = rootNode(increment);
  const tree = increment.edit(root, "the page tree");
  let removed = 0;
  const kept = kidsOf(tree, resolve).filter((kid) => {
    const node = resolve(kid);
    const kids = isDict(node) ? kidsOf(node, resolve) : [];
    const gone = kids.length > 0 && kids.every(isOurs);
    if (gone) {
      const first = leaves.findIndex(({ ref }) => kids[0] instanceof PdfRef && ref?.num === kids[0].num);
      if (first >= 0) unlabelPages(increment, first - removed, kids.length);
      removed += kids.length;
    }
    return !gone;
  });
  tree.set("Kids", kept);
  tree.set("Count", leaves.length - removed);
  return removed;
};

/** The root of the page tree. */
const rootNode = (increment: Increment): PdfRef => {
  const root = increment.file.catalog().get("Pages");
  if (!(root instanceof PdfRef) || !Array.isArray(increment.resolve(kidsEntry(increment, root))))
    throw damaged("page tree", "its root is missing");
  return root;
};

const kidsEntry = (increment: Increment, ref: PdfRef): PdfObject => {
  const node = increment.resolve(ref);
  return (isDict(node) ? node.get("Kids") : null) ?? null;
};

/** Copies object graphs from one file into an update, each object once. */
class Copier {
  private readonly copies = new Map<number, PdfRef>();
  private readonly pages = new Set<number>();

  constructor(
    private readonly increment: Increment,
    private readonly source: PdfFile,
    pages: readonly PageLeaf[],
  ) {
    for (const { ref } of pages)
      if (ref !== undefined) {
        this.copies.set(ref.num, increment.allocate());
        this.pages.add(ref.num);
      }
  }

  page(page: PageLeaf, parent: PdfRef, changed: PdfString | undefined, places: Places): PdfRef {
    const { source } = this;
    const shape = shapeOf(page, source.resolve);
    const made: PdfDict = new Map();
    for (const [key, value] of page.dict) if (!LEFT_BEHIND.has(key)) made.set(key, this.copy(value));
    const annotations = source.resolve(page.dict.get("Annots"));
    if (Array.isArray(annotations)) made.set("Annots", this.annotations(annotations, places));
    made.set("Parent", parent);
    made.set("Resources", this.copy(page.inherited.get("Resources") ?? new Map()));
    made.set("MediaBox", [...shape.mediaBox]);
    made.set("CropBox", [...shape.cropBox]);
    made.set("Rotate", shape.rotate);
    if (changed !== undefined) {
      made.set("LastModified", changed);
      made.set("PieceInfo", dict({ [MARK]: dict({ LastModified: changed, Private: name("Report") }) }));
    }
    const ref = page.ref === undefined ? undefined : this.copies.get(page.ref.num);
    return this.increment.put(ref ?? this.increment.allocate(), made);
  }

  private annotations(annotations: PdfArray, places: Places): PdfArray {
    return annotations.flatMap((o) => {
      const found = this.source.resolve(o);
      const placed = isDict(found) ? withPlace(found, places) : undefined;
      if (!placed) return [];
      const { increment } = this;
      const own = [...placed].map(([key, value]): [string, PdfObject] => [
        key,
        key === "Dest" ? value : this.copy(value),
      ]);
      return [increment.add(new Map(own))];
    });
  }

  copy(o: PdfObject): PdfObject {
    if (o instanceof PdfRef) return this.copyRef(o);
    if (Array.isArray(o)) return o.map((item) => this.copy(item));
    if (isDict(o)) return this.copyDict(o);
    if (o instanceof PdfStream) return new PdfStream(this.copyDict(o.dict), this.source.plain(o));
    return o;
  }

  private copyDict(d: PdfDict): PdfDict {
    return new Map([...d].map(([key, value]) => [key, this.copy(value)]));
  }

  private copyRef(ref: PdfRef): PdfObject {
    const known = this.copies.get(ref.num);
    if (known) return known;
    const found = this.source.resolve(ref);
    if (found === null) return null;
    // The page tree and the root of the other document stay behind.
    const type = isDict(found) ? nameOf(found.get("Type")) : undefined;
    if (type === "Pages" || type === "Catalog" || type === "Page") return null;
    const copy = this.increment.allocate();
    this.copies.set(ref.num, copy);
    return this.increment.put(copy, this.copy(found));
  }
}
