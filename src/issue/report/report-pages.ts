import { type CheckResult, isQuiet } from "../../check/finding.ts";
import type { Picture } from "../../geometry/picture.ts";
import type { Job } from "../../job/schema.ts";
import { FAINT_INK, HAIR_INK } from "../inks.ts";
import { linePath } from "../paths.ts";
import { reportTitle, SHORT_CAUTION } from "../words.ts";
import { type Block, heading, LEADING, type Setting, textItem } from "./block.ts";
import { basis, cautions, legendBlock, quietTable, untold } from "./closing-blocks.ts";
import { findingBlocks } from "./finding-blocks.ts";
import { opening, summary } from "./opening-blocks.ts";
import { paginate } from "./paginate.ts";
import { isoDate, type ReportFacts } from "./report-facts.ts";
import { fitText, wrapText } from "./wrap-text.ts";

/** The pages of a report as pictures, all of one size in points of paper. */
export interface ReportPages {
  readonly size: readonly [width: number, height: number];
  readonly pages: readonly Picture[];
}

const FOOT: Setting = { size: 6.8, face: "regular", ink: FAINT_INK };
const HEAD: Setting = { size: 8, face: "regular", ink: FAINT_INK };
const MARGIN = { left: 58, right: 50, top: 62, bottom: 62 } as const;
/** US letter and ISO A4, points. */
const PAPER_SIZE = { imperial: [612, 792], metric: [595.28, 841.89] } as const;

/** The whole report, set on pages. Pure: the same job, findings and facts give the same pages. */
export function reportPages(job: Job, result: CheckResult, facts: ReportFacts): ReportPages {
  const size = PAPER_SIZE[job.settings.job.system];
  const width = size[0] - MARGIN.left - MARGIN.right;
  const loud = result.findings.filter(({ verdict }) => !isQuiet(verdict));
  const quiet = result.findings.filter(({ verdict }) => isQuiet(verdict));
  const drawn = new Set<string>();
  const blocks: Block[] = [
    ...opening(job, facts, width),
    ...summary(result, width),
    ...(loud.length > 0 ? [heading("Findings that need attention", width)] : []),
    ...loud.flatMap((finding) => {
      const first = !drawn.has(finding.elementId);
      drawn.add(finding.elementId);
      return findingBlocks(job, result, finding, width, first);
    }),
    ...untold(result, width),
    ...quietTable(job, quiet, width),
    ...basis(job, width),
    heading("Symbols", width),
    legendBlock(),
    ...cautions(width),
  ];
  const pages = paginate(blocks, { left: MARGIN.left, top: size[1] - MARGIN.top, bottom: MARGIN.bottom });
  return { size, pages: pages.map((page, i) => [...page, ...frame(job, facts, size, i, pages.length)]) };
}

/** Head and foot of a page. */
function frame(job: Job, facts: ReportFacts, size: readonly [number, number], index: number, count: number): Picture {
  const [left, right] = [MARGIN.left, size[0] - MARGIN.right];
  const line = (y: number) =>
    linePath(
      [
        [left, y],
        [right, y],
      ],
      { stroke: HAIR_INK, width: 0.5 },
    );
  const number = `Page ${index + 1} of ${count}`;
  const foot = wrapText(SHORT_CAUTION, right - left - 76, FOOT.size, FOOT.face);
  return [
    ...(index > 0
      ? [
          textItem(fitText(reportTitle(job), right - left - 90, HEAD.size, HEAD.face), left, size[1] - 32, HEAD),
          textItem(isoDate(facts.now), right, size[1] - 32, HEAD, "end"),
          line(size[1] - 46),
        ]
      : []),
    line(MARGIN.bottom - 12),
    ...foot.map((text, i) => textItem(text, left, MARGIN.bottom - 17 - i * FOOT.size * LEADING, FOOT)),
    textItem(number, right, MARGIN.bottom - 17, HEAD, "end"),
  ];
}
