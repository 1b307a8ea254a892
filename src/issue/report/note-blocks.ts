import { inLabelOrder } from "../../job/label-order.ts";
import type { Note } from "../../job/note.ts";
import type { Job } from "../../job/schema.ts";
import { noteAbout } from "../kinds/note.ts";
import { shownText } from "../shown-text.ts";
import { sheetTitle } from "../words.ts";
import { type Block, CELL, type Cell, COLUMN, heading, LABEL, nameIn, paragraph, row } from "./block.ts";
import type { Part } from "./part.ts";

/** The notes of a job by their labels, N-2 before N-10. */
const inOrder = (job: Job): Note[] =>
  Object.entries(job.notes)
    .toSorted(([x, a], [y, b]) => inLabelOrder(a.label, b.label) || (x < y ? -1 : 1))
    .map(([, note]) => note);

/** The reviewer's own notes, each with its sheet and what it is about; nothing where there are none. */
export function noteBlocks(job: Job, width: number): Block[] {
  const notes = inOrder(job);
  if (notes.length === 0) return [];
  const columns: Cell[] = [
    { text: "Note", x: 0, width: 40, setting: COLUMN },
    { text: "Sheet", x: 46, width: 200, setting: COLUMN },
    { text: "About", x: 252, width: 58, setting: COLUMN },
    { text: "Words", x: 316, width: width - 316, setting: COLUMN },
  ];
  const table: Part = { role: "Table" };
  return [
    heading("Notes of the reviewer", width),
    ...paragraph("Written by hand on the sheets. No finding rests on them.", width, LABEL, { before: 2, keep: true }),
    ...row(columns, { before: 4, keep: true, table, head: "columns" }),
    ...notes.flatMap((note) => {
      const texts = [
        note.label,
        nameIn(columns[1]!, sheetTitle(job, note.sheet)),
        noteAbout(job, note) || "–",
        note.text,
      ].map(shownText);
      return row(
        columns.map((column, i) => ({
          ...column,
          text: texts[i] as string,
          setting: i === 0 ? { ...CELL, face: "bold" as const } : CELL,
        })),
        { before: 3, table },
      );
    }),
  ];
}
