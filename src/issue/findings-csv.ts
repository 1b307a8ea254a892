import type { CheckResult, Finding } from "../check/finding.ts";
import type { Job } from "../job/schema.ts";
import { sheetTitle } from "./words.ts";

/** A cell of the table: text, a number, or nothing. */
type Cell = string | number | null;

/** The columns, in order: heading and content. */
const COLUMNS: readonly (readonly [heading: string, cell: (finding: Finding, job: Job) => Cell])[] = [
  ["number", ({ number }) => number],
  ["sheet", ({ sheet }, job) => sheetTitle(job, sheet)],
  ["element", ({ element }) => element],
  ["kind", ({ kind }) => kind],
  ["verdict", ({ verdict }) => verdict],
  ["section", ({ section }) => section],
  ["edition", ({ edition }) => edition],
  ["required_in", ({ requiredIn }) => (requiredIn > 0 ? requiredIn : null)],
  ["least_in", ({ leastIn }) => leastIn],
  ["least_low_in", ({ intervalIn }) => intervalIn?.[0] ?? null],
  ["least_high_in", ({ intervalIn }) => intervalIn?.[1] ?? null],
  ["vertical_in", ({ verticalIn }) => verticalIn],
  ["deck_areas", ({ areas }, job) => areas.map((id) => job.areas[id]?.label ?? id).join("; ")],
  [
    "stretches_in",
    ({ stretches }) => stretches.map(({ fromIn, toIn }) => `${written(fromIn)} to ${written(toIn)}`).join("; "),
  ],
  ["sheet_x", ({ at }) => at[0]],
  ["sheet_y", ({ at }) => at[1]],
  ["why", ({ reasons }) => reasons.text],
  ["remedies", ({ remedies }) => remedies.map(({ text }) => text).join(" ")],
  ["penetration", ({ penetration }) => (penetration ? "yes" : null)],
];

/**
 * The findings as comma-separated values (RFC 4180: CRLF, quotes doubled), one line each under a line of headings. Text
 * that a spreadsheet would take for a formula starts with an apostrophe.
 */
export function findingsCsv(job: Job, result: CheckResult): string {
  const lines = [
    COLUMNS.map(([heading]) => heading),
    ...result.findings.map((finding) => COLUMNS.map(([, cell]) => cellText(cell(finding, job)))),
  ];
  return lines.map((cells) => `${cells.join(",")}\r\n`).join("");
}

function cellText(cell: Cell): string {
  if (cell === null) return "";
  if (typeof cell === "number") return Number.isFinite(cell) ? written(cell) : "";
  const safe = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

const written = (n: number): string => String(Number(n.toFixed(6)) + 0);
