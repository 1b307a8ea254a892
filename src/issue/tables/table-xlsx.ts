import writeWorkbook, { type SheetData } from "write-excel-file/universal";
import type { Table } from "./table.ts";

/** Signs a workbook does not allow in the name of a sheet, and how long it may be (ECMA-376 part 1, 18.2.19). */
const NOT_IN_NAMES = /[\\/?*[\]:]/g;
const LONGEST_NAME = 31;
/** Numbers are shown to four decimals; the cells hold them whole. */
const SHOWN = "0.####";

/** Tables as an Office Open XML workbook, a sheet each: headings that stay in sight, numbers as numbers, text never as a formula. */
export async function tablesXlsx(tables: readonly Table[]): Promise<Uint8Array> {
  const sheets = tables.map(({ name, columns, rows }) => ({
    sheet: name.replace(NOT_IN_NAMES, " ").slice(0, LONGEST_NAME),
    data: [columns.map(headingCell), ...rows.map((row) => row.map(valueCell))] satisfies SheetData,
    columns: columns.map(({ width }) => ({ width })),
    stickyRowsCount: 1,
    orientation: "landscape" as const,
  }));
  const blob = await writeWorkbook(sheets).toBlob();
  return new Uint8Array(await blob.arrayBuffer());
}

const headingCell = ({ heading }: Table["columns"][number]) =>
  ({ value: heading, type: String, fontWeight: "bold", wrap: true, alignVertical: "top" }) as const;

function valueCell(cell: Table["rows"][number][number]) {
  if (cell === null || cell === "" || (typeof cell === "number" && !Number.isFinite(cell))) return null;
  return typeof cell === "number"
    ? ({ value: cell, type: Number, format: SHOWN, alignVertical: "top" } as const)
    : ({ value: cellText(cell), type: String, wrap: true, alignVertical: "top" } as const);
}

/**
 * Text as a cell holds it (ST_Xstring, ECMA-376 part 1, 22.9.2.19): what reads like an escaped sign is escaped itself. So is the first sign of
 * a word that every object has a property of, such as `valueOf`: the writer looks texts up in an object, and would find that property.
 */
function cellText(text: string): string {
  const escaped = text.replace(/_(?=x[\dA-F]{4}_)/gi, escapedSign);
  return escaped in {} ? escaped.replace(/^./, escapedSign) : escaped;
}

const escapedSign = (sign: string): string => `_x${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`;
