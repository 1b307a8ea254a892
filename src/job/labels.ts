import type { ElementKind } from "./elements/element.ts";
import type { Job } from "./schema.ts";

/** The letter of the automatic label of every kind of thing that has one on the sheet. */
export const LABEL_LETTERS = {
  run: "R",
  rack: "K",
  box: "B",
  fitting: "F",
  entry: "E",
  area: "A",
  storeyOutline: "S",
  note: "N",
} as const satisfies Record<ElementKind | "area" | "storeyOutline" | "note", string>;
export type LabelledKind = keyof typeof LABEL_LETTERS;

/**
 * The next automatic label of a kind: `R-15` after `R-14`. One more than the largest number in use, so that a label keeps
 * its meaning while the thing it names exists; labels of other forms are passed over.
 */
export function nextLabel(job: Job, kind: LabelledKind): string {
  const prefix = `${LABEL_LETTERS[kind]}-`;
  let largest = 0;
  for (const table of [job.elements, job.areas, job.storeyOutlines, job.notes])
    for (const id in table) {
      const { label } = table[id]!;
      if (!label.startsWith(prefix)) continue;
      const digits = label.slice(prefix.length);
      if (/^\d{1,9}$/.test(digits)) largest = Math.max(largest, Number(digits));
    }
  return `${prefix}${largest + 1}`;
}

/** The tables whose records carry labels on the sheet. */
export const LABELLED_TABLES = ["elements", "areas", "storeyOutlines", "notes"] as const;
export type LabelledTable = (typeof LABELLED_TABLES)[number];

/** The record that already carries a label, among those of `LABELLED_TABLES`, or undefined. */
export function labelled(job: Job, label: string): { readonly table: LabelledTable; readonly id: string } | undefined {
  for (const table of LABELLED_TABLES)
    for (const [id, record] of Object.entries(job[table])) if (record.label === label) return { table, id };
  return undefined;
}
