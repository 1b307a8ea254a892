import type { Increment } from "./increment.ts";
import { dict, isDict, name, numberOf, type PdfDict, type PdfObject, PdfRef, PdfString } from "./pdf-object.ts";

type Lookup = (o: PdfObject | undefined) => PdfObject;

/** An entry of a document's outline: its words, where it leads, and the entries under it. */
export interface OutlineEntry {
  readonly title: PdfString;
  readonly dest: PdfObject;
  readonly entries: readonly OutlineEntry[];
}

/** Marks an entry as ours, so that issuing again can take it out; names that begin with XX are free for private use (ISO 32000-2, annex E). */
const MARK = "XXUnderside";
/** More entries than this are not believed. */
const MOST = 100_000;

/** The outline of a document (ISO 32000-2, 12.3.3) as a tree; empty where it has none. */
export const readOutline = (catalog: PdfDict, resolve: Lookup): OutlineEntry[] => {
  const seen = new Set<number>();
  const under = (node: PdfObject): OutlineEntry[] => {
    const found: OutlineEntry[] = [];
    for (const { item } of itemsUnder(node, resolve, seen)) {
      const title = resolve(item.get("Title"));
      if (title instanceof PdfString) found.push({ title, dest: item.get("Dest") ?? null, entries: under(item) });
    }
    return found;
  };
  return under(resolve(catalog.get("Outlines")));
};

/** Puts entries behind those the document's outline has, closed. The entries of others stay as they are. */
export const addOutline = (increment: Increment, entries: readonly OutlineEntry[]): void => {
  if (entries.length === 0) return;
  const ref = outlineRef(increment) ?? increment.add(dict({ Type: name("Outlines") }));
  increment.editCatalog().set("Outlines", ref);
  const root = increment.edit(ref, "the outline");
  const before = itemsUnder(root, increment.resolve, new Set()).at(-1);
  const added = addUnder(increment, ref, entries, before?.ref);
  for (const one of added) increment.edit(one, "a bookmark").set(MARK, true);
  if (before) increment.edit(before.ref, "a bookmark").set("Next", added[0] as PdfRef);
  else root.set("First", added[0] as PdfRef);
  root.set("Last", added.at(-1) as PdfRef);
  root.set("Count", Math.max(0, numberOf(increment.resolve(root.get("Count"))) ?? 0) + added.length);
};

/** Takes out the entries that an earlier issue added. */
export const removeOutline = (increment: Increment): void => {
  const { resolve } = increment;
  const ref = outlineRef(increment);
  const items = itemsUnder(resolve(ref), resolve, new Set());
  const kept = items.filter(({ item }) => resolve(item.get(MARK)) !== true);
  if (ref === undefined || kept.length === items.length) return;
  if (kept.length === 0) {
    increment.editCatalog().delete("Outlines");
    return;
  }
  const root = increment.edit(ref, "the outline");
  const shown = items
    .filter((one) => !kept.includes(one))
    .reduce((sum, { item }) => sum + 1 + Math.max(0, numberOf(resolve(item.get("Count"))) ?? 0), 0);
  root.set("Count", Math.max(0, (numberOf(resolve(root.get("Count"))) ?? 0) - shown));
  root.set("First", (kept[0] as Item).ref);
  root.set("Last", (kept.at(-1) as Item).ref);
  kept.forEach((one, i) => {
    tie(increment, one, "Prev", kept[i - 1]);
    tie(increment, one, "Next", kept[i + 1]);
  });
};

/** Says in an entry which one stands beside it, unless it says so already. */
const tie = (increment: Increment, { ref, item }: Item, key: "Prev" | "Next", other: Item | undefined): void => {
  const held = item.get(key);
  if ((held instanceof PdfRef ? held.num : undefined) === other?.ref.num) return;
  const edited = increment.edit(ref, "a bookmark");
  if (other) edited.set(key, other.ref);
  else edited.delete(key);
};

const outlineRef = (increment: Increment): PdfRef | undefined => {
  const held = increment.editCatalog().get("Outlines");
  if (!isDict(increment.resolve(held))) return undefined;
  return held instanceof PdfRef ? held : increment.add(new Map(held as PdfDict));
};

const addUnder = (
  increment: Increment,
  parent: PdfRef,
  entries: readonly OutlineEntry[],
  before: PdfRef | undefined,
): PdfRef[] => {
  const refs = entries.map(() => increment.allocate());
  entries.forEach((entry, i) => {
    const ref = refs[i] as PdfRef;
    const under = addUnder(increment, ref, entry.entries, undefined);
    increment.put(
      ref,
      dict({
        Title: entry.title,
        Parent: parent,
        Dest: entry.dest,
        Prev: i > 0 ? refs[i - 1] : before,
        Next: refs[i + 1],
        First: under[0],
        Last: under.at(-1),
        Count: under.length > 0 ? -under.length : undefined,
      }),
    );
  });
  return refs;
};

interface Item {
  readonly ref: PdfRef;
  readonly item: PdfDict;
}

/** The entries right under a node, in order; ends where they lead in a circle. */
const itemsUnder = (node: PdfObject, resolve: Lookup, seen: Set<number>): Item[] => {
  const items: Item[] = [];
  let at = isDict(node) ? node.get("First") : undefined;
  while (at instanceof PdfRef && !seen.has(at.num) && seen.size < MOST) {
    seen.add(at.num);
    const item = resolve(at);
    if (!isDict(item)) break;
    items.push({ ref: at, item });
    at = item.get("Next");
  }
  return items;
};
