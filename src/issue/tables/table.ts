import type { UnitSystem } from "../../units/length.ts";
import { MM_PER_INCH } from "../../units/quantity.ts";

/** What a cell holds: text, a number in the unit its heading names, or nothing. */
export type Cell = string | number | null;

/** A table as handed on: a name, a heading for each column, and rows of as many cells. */
export interface Table {
  readonly name: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly Cell[])[];
}

/** A column: its heading, with the unit of its numbers where they have one, and how wide it is shown, in digits. */
interface TableColumn {
  readonly heading: string;
  readonly width: number;
}

/** A column, and what stands in it for each of the things listed. */
export interface ColumnOf<Listed> extends TableColumn {
  readonly cell: (listed: Listed) => Cell;
}

/** A table with a row for each of the things listed. */
export const tableOf = <Listed>(
  name: string,
  columns: readonly ColumnOf<Listed>[],
  listed: readonly Listed[],
): Table => ({
  name,
  columns: columns.map(({ heading, width }) => ({ heading, width })),
  rows: listed.map((one) => columns.map(({ cell }) => cell(one))),
});

/** A column of lengths given in inches, in the unit of the system, which the heading names: `Required (in.)`, `Required (mm)`. */
export const lengthColumn = <Listed>(
  heading: string,
  system: UnitSystem,
  lengthIn: (listed: Listed) => number | null,
): ColumnOf<Listed> => ({
  heading: `${heading} (${system === "metric" ? "mm" : "in."})`,
  width: 12,
  cell(listed) {
    const length = lengthIn(listed);
    return length === null || system === "imperial" ? length : length * MM_PER_INCH;
  },
});
