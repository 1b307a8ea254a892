import { type CheckResult, isQuiet } from "../../check/finding.ts";
import type { Job } from "../../job/schema.ts";
import { marksOf } from "../marks-of.ts";
import { reportTitle } from "../words.ts";
import { advice } from "./advice-blocks.ts";
import { heading } from "./block.ts";
import { basis, cautions, legendBlock, quietTable, untold } from "./closing-blocks.ts";
import { findingBlocks } from "./finding-blocks.ts";
import { noteBlocks } from "./note-blocks.ts";
import { opening, summary } from "./opening-blocks.ts";
import type { ToldReasons } from "./reason-blocks.ts";
import type { ReportFacts } from "./report-facts.ts";
import { type ReportPages, setPages } from "./set-pages.ts";
import { sheetCutter } from "./sheet-cut.ts";

/** The whole report, set on pages. Pure: the same job, findings and facts give the same pages. */
export function reportPages(job: Job, result: CheckResult, facts: ReportFacts): ReportPages {
  const loud = result.findings.filter(({ verdict }) => !isQuiet(verdict));
  const quiet = result.findings.filter(({ verdict }) => isQuiet(verdict));
  const drawn = new Set<string>();
  const cut = sheetCutter(job, loud.length > 0 ? marksOf(job, result, facts.marks ?? {}) : []);
  const told: ToldReasons = new Map();
  return setPages(job.settings.job.system, reportTitle(job), facts.now, (width) => [
    ...opening(job, facts, width),
    ...summary(job, result, width),
    ...(loud.length > 0 ? [heading("Findings that need attention", width)] : []),
    ...loud.flatMap((finding) => {
      const first = !drawn.has(finding.elementId);
      drawn.add(finding.elementId);
      return findingBlocks(finding, first, { job, result, width, cut, told });
    }),
    ...noteBlocks(job, width),
    ...advice(result, width),
    ...untold(result, width),
    ...quietTable(job, quiet, width),
    ...basis(job, width),
    heading("Symbols", width),
    legendBlock(),
    ...cautions(width),
  ]);
}
