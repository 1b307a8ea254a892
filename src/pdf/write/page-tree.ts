import { damaged, failure } from "./pdf-failure.ts";
import { isDict, nameOf, numberOf, type PdfArray, type PdfDict, type PdfObject, PdfRef } from "./pdf-object.ts";

/** More pages than this are not believed; it bounds the walk through a tree that points into itself. */
const MAX_NODES = 500_000;
const MAX_DEPTH = 200;

type Lookup = (o: PdfObject | undefined) => PdfObject;

/** A page as the tree holds it. */
export interface PageLeaf {
  /** The page's own object; undefined when the page stands directly inside its parent, against the rules. */
  readonly ref: PdfRef | undefined;
  readonly dict: PdfDict;
  /** What the page says or inherits: Resources, MediaBox, CropBox, Rotate. */
  readonly inherited: ReadonlyMap<string, PdfObject>;
}

/** Entries a page takes from the nodes above when it lacks them (ISO 32000-2, table 31). */
const INHERITABLE = ["Resources", "MediaBox", "CropBox", "Rotate"];

/**
 * The pages of a document in order. Stops with `pdf.damaged` at circles and unbelievable size, and with `pdf.no-pages` when
 * there is none.
 */
export const readPages = (catalog: PdfDict, resolve: Lookup): PageLeaf[] => {
  const pages: PageLeaf[] = [];
  const above = new Set<number>();
  let nodes = 0;
  const walk = (o: PdfObject, inherited: ReadonlyMap<string, PdfObject>, depth: number): void => {
    if (++nodes > MAX_NODES || depth > MAX_DEPTH) throw damaged("page tree", "it is too large or too deep");
    const node = resolve(o);
    if (!isDict(node)) return; // a missing page: viewers leave it out
    const own = new Map(inherited);
    for (const key of INHERITABLE) {
      const value = node.get(key);
      if (value !== undefined && value !== null) own.set(key, value);
    }
    const kids = resolve(node.get("Kids"));
    const ref = o instanceof PdfRef ? o : undefined;
    if (!Array.isArray(kids) || nameOf(resolve(node.get("Type"))) === "Page") {
      pages.push({ ref, dict: node, inherited: own });
      return;
    }
    if (ref && above.has(ref.num)) throw damaged(`object ${ref.num}`, "the page tree leads in a circle");
    if (ref) above.add(ref.num);
    for (const kid of kids) walk(kid, own, depth + 1);
    if (ref) above.delete(ref.num);
  };
  walk(catalog.get("Pages") ?? null, new Map(), 0);
  if (pages.length === 0) throw failure("pdf.no-pages");
  return pages;
};

/** Size and turning of a page, as viewers take it. */
export interface PageShape {
  /** Sheet space: least x, least y, greatest x, greatest y. */
  readonly mediaBox: readonly [number, number, number, number];
  /** What is shown: the crop box as far as it lies within the media box. */
  readonly cropBox: readonly [number, number, number, number];
  /** Clockwise turn for showing, degrees: 0, 90, 180 or 270. */
  readonly rotate: number;
  /** Size of a unit of sheet space, in 1/72 in. */
  readonly userUnit: number;
}

/** Letter size, which viewers assume when a page states nothing usable. */
const FALLBACK: PageShape["mediaBox"] = [0, 0, 612, 792];

/** The shape of a page. Values that make no sense count as absent. */
export const shapeOf = (page: PageLeaf, resolve: Lookup): PageShape => {
  const box = (key: string): PageShape["mediaBox"] | undefined => {
    const given = resolve(page.inherited.get(key));
    if (!Array.isArray(given)) return undefined;
    const [a, b, c, d] = given.map((v) => numberOf(resolve(v)));
    if (a === undefined || b === undefined || c === undefined || d === undefined) return undefined;
    if (a === c || b === d) return undefined;
    return [Math.min(a, c), Math.min(b, d), Math.max(a, c), Math.max(b, d)];
  };
  const mediaBox = box("MediaBox") ?? FALLBACK;
  const crop = box("CropBox") ?? mediaBox;
  const cut: PageShape["mediaBox"] = [
    Math.max(crop[0], mediaBox[0]),
    Math.max(crop[1], mediaBox[1]),
    Math.min(crop[2], mediaBox[2]),
    Math.min(crop[3], mediaBox[3]),
  ];
  const turn = numberOf(resolve(page.inherited.get("Rotate"))) ?? 0;
  const unit = numberOf(resolve(page.dict.get("UserUnit"))) ?? 1;
  return {
    mediaBox,
    cropBox: cut[0] < cut[2] && cut[1] < cut[3] ? cut : mediaBox,
    rotate: turn % 90 === 0 ? ((turn % 360) + 360) % 360 : 0,
    userUnit: unit > 0 ? unit : 1,
  };
};

/** The kids of a node as an array of its own, safe to change. */
export const kidsOf = (node: PdfDict, resolve: Lookup): PdfArray => {
  const kids = resolve(node.get("Kids"));
  return Array.isArray(kids) ? [...kids] : [];
};
