import { findSource, sources } from "../trade/sources.ts";
import { type CheckValue, checkValues, OWN_CHOICE } from "./check-values.ts";

/** The document that lists every value a check may read, with its source and how far it was compared with anything. Markdown. */
export function valuesDocument(): string {
  const values = checkValues();
  const tables = [...new Set(values.map(({ table }) => table))];
  const kinds = [...new Set(values.map(howFar))];
  return [
    "# Every value a check reads",
    "",
    "Written by `npm run values` from the data itself; a test fails when it is out of date. The same, and every source in full, on the command line: `tables`.",
    "",
    "| how far it can be trusted | values |",
    "| --- | --- |",
    ...kinds.map((kind) => line([kind, `${values.filter((value) => howFar(value) === kind).length}`])),
    line(["all", `${values.length}`]),
    "",
    "## Sources",
    "",
    "| source | kind | what it is | cross-checked |",
    "| --- | --- | --- | --- |",
    ...sources.map(({ id, kind, title, checked }) => line([`\`${id}\``, kind, title, checked])),
    line([
      `\`${OWN_CHOICE}\``,
      "a choice of this program",
      "No source outside the program",
      "Nothing to check against.",
    ]),
    "",
    ...tables.flatMap((table) => [
      `## ${table[0]!.toUpperCase()}${table.slice(1)}`,
      "",
      "| row | value | unit | source | how far |",
      "| --- | --- | --- | --- | --- |",
      ...values.filter((value) => value.table === table).map(valueLine),
      "",
    ]),
  ]
    .join("\n")
    .replace(/\n+$/, "\n");
}

const valueLine = (value: CheckValue): string =>
  line([
    value.row,
    value.value === undefined ? "given for each job" : `${value.value}`,
    value.unit,
    value.value === undefined ? "" : `\`${value.source}\`${value.note === undefined ? "" : `: ${value.note}`}`,
    howFar(value),
  ]);

/** How far a value was compared with anything, in a few words; the list of sources says it in full. */
function howFar({ value, source }: CheckValue): string {
  if (value === undefined) return "no default";
  return source === OWN_CHOICE ? "a choice of this program" : (findSource(source)?.kind ?? source);
}

const line = (cells: readonly string[]): string =>
  `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
