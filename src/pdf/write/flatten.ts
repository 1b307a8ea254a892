import { balanceOf } from "./content-balance.ts";
import type { Increment } from "./increment.ts";
import type { PageLeaf } from "./page-tree.ts";
import { dict, dictOf, isDict, name, type PdfArray, type PdfDict, type PdfObject, PdfRef } from "./pdf-object.ts";
import { latin } from "./text-string.ts";

/** Key of our content streams; names that begin with XX are free for private use (ISO 32000-2, annex E). */
const OURS = "XXUnderside";

/** A picture to be drawn into the page: its form, and the layer it belongs to. */
export interface FlatMark {
  readonly form: PdfRef;
  readonly group: PdfRef | undefined;
}

/**
 * Draws forms behind everything the page draws (that is, on top of it), each inside its layer. The page's own content is
 * fenced with q and Q, so that whatever it leaves set does not reach the marks.
 */
export const drawIntoPage = (increment: Increment, page: PdfDict, leaf: PageLeaf, marks: readonly FlatMark[]): void => {
  const { resolve } = increment;
  const found = resolve(page.get("Resources") ?? leaf.inherited.get("Resources"));
  // The page's own copy: resources may be shared with pages that get no marks.
  const resources: PdfDict = new Map(isDict(found) ? found : []);
  const forms = ownCopy(increment, resources, "XObject");
  const layers = ownCopy(increment, resources, "Properties");
  const layerNames = new Map<number, string>();
  const lines = marks.map(({ form, group }) => {
    const draw = `/${putNew(forms, "Mark", form)} Do`;
    if (group === undefined) return draw;
    let layer = layerNames.get(group.num);
    if (layer === undefined) {
      layer = putNew(layers, "Layer", group);
      layerNames.set(group.num, layer);
    }
    return `/OC /${layer} BDC ${draw} EMC`;
  });
  page.set("Resources", resources);
  const own = contentsOf(increment, page);
  const ours = dict({ [OURS]: name("Marks") });
  const { missing, open } = balanceOf(increment, own);
  const before = increment.addStream(ours, latin(`${"q ".repeat(1 + missing)}\n`));
  const after = increment.addStream(new Map(ours), latin(`\n${"Q ".repeat(1 + open)}\nq\n${lines.join("\n")}\nQ\n`));
  page.set("Contents", [before, ...own, after]);
};

/**
 * Takes the marks that an earlier issue drew into a page out of its content again. The streams with fence and marks go
 * together, so what is left is the page as it was.
 */
export const removeDrawnMarks = (increment: Increment, ref: PdfRef, page: PdfDict): void => {
  const isOurs = (o: PdfObject): boolean => dictOf(increment.resolve(o))?.has(OURS) ?? false;
  const contents = contentsOf(increment, page);
  const left = contents.filter((o) => !isOurs(o));
  if (left.length < contents.length) increment.edit(ref, "a page").set("Contents", left);
};

/** The page's content streams as references. */
const contentsOf = (increment: Increment, page: PdfDict): PdfArray => {
  const held = page.get("Contents") ?? null;
  const found = increment.resolve(held);
  if (Array.isArray(found)) return found;
  return held instanceof PdfRef && found !== null ? [held] : [];
};

const ownCopy = (increment: Increment, holder: PdfDict, key: string): PdfDict => {
  const found = increment.resolve(holder.get(key));
  const copy: PdfDict = new Map(isDict(found) ? found : []);
  holder.set(key, copy);
  return copy;
};

/** Puts a value under a name that is not taken yet. */
const putNew = (into: PdfDict, stem: string, value: PdfObject): string => {
  let i = into.size;
  while (into.has(`${stem}${i}`)) i++;
  into.set(`${stem}${i}`, value);
  return name(`${stem}${i}`).value;
};
