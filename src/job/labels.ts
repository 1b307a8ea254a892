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

/** An automatic label taken apart: `R-14` is R and 14. Undefined for a label of another form. */
export function numbered(label: string): { readonly letter: string; readonly number: number } | undefined {
  const parts = /^([A-Z])-(\d{1,9})$/.exec(label);
  return parts ? { letter: parts[1]!, number: Number(parts[2]) } : undefined;
}

/**
 * The next automatic label of a kind: `R-15` after `R-14`. One more than the largest number in use or ever given, so that a label that a report
 * names never comes to mean another thing; labels of other forms are passed over.
 */
export function nextLabel(job: Job, kind: LabelledKind): string {
  const letter = LABEL_LETTERS[kind];
  return `${letter}-${Math.max(largestInUse(job, letter), job.settings.job.labelsGiven?.[letter] ?? 0) + 1}`;
}

/** The largest number that a label of a letter has in the job; 0 where there is none. */
export function largestInUse(job: Job, letter: string): number {
  const prefix = `${letter}-`;
  let largest = 0;
  for (const table of LABELLED_TABLES)
    for (const id in job[table]) {
      const { label } = job[table][id]!;
      if (label.startsWith(prefix)) largest = Math.max(largest, numbered(label)?.number ?? 0);
    }
  return largest;
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
