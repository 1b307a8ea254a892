import type { CheckResult, Finding } from "../check/finding.ts";
import type { Job } from "../job/schema.ts";
import type { Cell } from "./tables/table.ts";
import { csvNumber, csvText } from "./tables/table-csv.ts";
import { sheetTitle } from "./words.ts";

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
    ({ stretches }) => stretches.map(({ fromIn, toIn }) => `${csvNumber(fromIn)} to ${csvNumber(toIn)}`).join("; "),
  ],
  ["sheet_x", ({ at }) => at[0]],
  ["sheet_y", ({ at }) => at[1]],
  ["why", ({ reasons }) => reasons.text],
  ["remedies", ({ remedies }) => remedies.map(({ text }) => text).join(" ")],
  ["penetration", ({ penetration }) => (penetration ? "yes" : null)],
];

/** The findings as comma-separated values, one line each under a line of headings. */
export const findingsCsv = (job: Job, { findings }: CheckResult): string =>
  csvText([
    COLUMNS.map(([heading]) => heading),
    ...findings.map((finding) => COLUMNS.map(([, cell]) => cell(finding, job))),
  ]);
