import type { Increment } from "./increment.ts";
import { dict, isDict, name, numberOf, type PdfObject } from "./pdf-object.ts";
import { textString } from "./text-string.ts";

type Range = readonly [firstPage: number, label: PdfObject];

/** Nodes of a tree of labels that are looked at: more are not believed. */
const MOST_NODES = 100_000;

/** Labels the pages from `from` on (counted from 0) and so on (ISO 32000-2, 12.4.2); those before keep theirs, or get their number. */
export const labelPages = (increment: Increment, from: number, prefix: string): void => {
  const kept = readLabels(increment).filter(([first]) => first < from);
  const plain: Range[] = kept.some(([first]) => first === 0) || from === 0 ? [] : [[0, dict({ S: name("D") })]];
  writeLabels(increment, [...plain, ...kept, [from, dict({ S: name("D"), P: textString(prefix) })]]);
};

/** Forgets the labels of so many pages from `from` on, which are taken out; those behind move up. */
export const unlabelPages = (increment: Increment, from: number, count: number): void => {
  const labels = readLabels(increment);
  if (count === 0 || labels.length === 0) return;
  writeLabels(
    increment,
    labels.flatMap(([first, label]): Range[] => {
      if (first >= from && first < from + count) return [];
      return [[first < from ? first : first - count, label]];
    }),
  );
};

const readLabels = (increment: Increment): Range[] => {
  const { resolve } = increment;
  const found: Range[] = [];
  let nodes = 0;
  const walk = (o: PdfObject | undefined): void => {
    const node = resolve(o);
    if (!isDict(node) || ++nodes > MOST_NODES) return;
    const numbers = resolve(node.get("Nums"));
    if (Array.isArray(numbers))
      for (let i = 0; i + 1 < numbers.length; i += 2) {
        const first = numberOf(resolve(numbers[i]));
        if (first !== undefined) found.push([first, numbers[i + 1] ?? null]);
      }
    const kids = resolve(node.get("Kids"));
    if (Array.isArray(kids)) for (const kid of kids) walk(kid);
  };
  walk(increment.editCatalog().get("PageLabels"));
  return found.sort(([a], [b]) => a - b);
};

const writeLabels = (increment: Increment, labels: readonly Range[]): void => {
  increment.editCatalog().set("PageLabels", increment.add(dict({ Nums: labels.flat() })));
};
