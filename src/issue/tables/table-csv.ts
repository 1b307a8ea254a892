import type { Cell, Table } from "./table.ts";

/** A table as comma-separated values, its headings first. */
export const tableCsv = ({ columns, rows }: Table): string => csvText([columns.map(({ heading }) => heading), ...rows]);

/**
 * Lines of cells as comma-separated values (RFC 4180: CRLF, quotes doubled). Numbers to six decimals. Text that a spreadsheet
 * would take for a formula starts with an apostrophe.
 */
export const csvText = (lines: readonly (readonly Cell[])[]): string =>
  lines.map((cells) => `${cells.map(cellText).join(",")}\r\n`).join("");

function cellText(cell: Cell): string {
  if (cell === null) return "";
  if (typeof cell === "number") return Number.isFinite(cell) ? csvNumber(cell) : "";
  const safe = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** A number to six decimals, without trailing noughts and never minus nought. */
export const csvNumber = (n: number): string => String(Number(n.toFixed(6)) + 0);
