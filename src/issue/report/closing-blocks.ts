import type { CheckResult, Finding } from "../../check/finding.ts";
import { checkMessages } from "../../check/messages.ts";
import { clearanceText } from "../../check/words.ts";
import type { Job } from "../../job/schema.ts";
import { formatLength } from "../../units/format-length.ts";
import { toInches } from "../../units/length.ts";
import { legendPicture } from "../legend-picture.ts";
import { ASSUMPTIONS, CAUTIONS, PARAPHRASE, sheetTitle, VERDICT_WORDS } from "../words.ts";
import {
  type Block,
  BODY,
  CELL,
  type Cell,
  COLUMN,
  heading,
  nameIn,
  paragraph,
  pictureBlock,
  row,
  type Setting,
} from "./block.ts";
import type { Part } from "./part.ts";

/** What could not be told and what is missing, in one list to work through. */
export function untold(result: CheckResult, width: number): Block[] {
  const open = result.findings.filter(({ verdict }) => verdict === "cannot-tell");
  if (open.length === 0 && result.notices.length === 0) return [];
  const table: Part = { role: "Table" };
  return [
    heading("What could not be told, and what is missing", width),
    ...open.flatMap((finding): Block[] => {
      const asked = finding.remedies.map(({ text }) => text);
      return [
        ...row(
          [
            {
              text: String(finding.number ?? ""),
              x: 0,
              width: 22,
              setting: { ...CELL, face: "bold" },
              align: "end",
              ...(finding.number === null ? {} : { goesTo: finding.number }),
            },
            { text: finding.element, x: 32, width: 74, setting: { ...CELL, face: "bold" } },
            {
              text: asked.length > 0 ? asked.join(" ") : finding.reasons.text,
              x: 112,
              width: width - 112,
              setting: CELL,
            },
          ],
          { before: 4, table },
        ),
      ];
    }),
    ...result.notices.flatMap((notice) => {
      const text = checkMessages[notice.code]?.(notice.params, notice.where) ?? `${notice.code} ${notice.where}`;
      return row(
        [
          { text: "", x: 0, width: 22, setting: CELL },
          { text: "Job", x: 32, width: 74, setting: { ...CELL, face: "bold" } },
          { text, x: 112, width: width - 112, setting: CELL },
        ],
        { before: 4, table },
      );
    }),
  ];
}

/** The findings that need nobody, one line each. */
export function quietTable(job: Job, quiet: readonly Finding[], width: number): Block[] {
  if (quiet.length === 0) return [];
  const { system } = job.settings.job;
  const columns: Cell[] = [
    { text: "Element", x: 0, width: 80, setting: COLUMN },
    { text: "Sheet", x: 86, width: 214, setting: COLUMN },
    { text: "Verdict", x: 308, width: 70, setting: COLUMN },
    { text: "Least distance", x: 380, width: width - 380, setting: COLUMN, align: "end" },
  ];
  const table: Part = { role: "Table" };
  return [
    heading("Clear, or not governed", width),
    ...row(columns, { before: 2, keep: true, table, head: "columns" }),
    ...quiet.flatMap((finding) => {
      const texts = [
        finding.element,
        nameIn(columns[1]!, sheetTitle(job, finding.sheet)),
        VERDICT_WORDS[finding.verdict].name,
        finding.leastIn === null ? "" : clearanceText(finding.leastIn, system),
      ];
      return row(
        columns.map((column, i) => ({
          ...column,
          text: texts[i] as string,
          setting: CELL,
        })),
        { before: 2.5, table },
      );
    }),
  ];
}

/** What the answers rest on. */
export function basis(job: Job, width: number): Block[] {
  const { system, tolerances } = job.settings.job;
  const length = (value: Parameters<typeof toInches>[0]) => formatLength(toInches(value), system);
  const list: Part = { role: "L" };
  return [
    heading("Assumptions and tolerances", width),
    ...ASSUMPTIONS.flatMap((text) => bullet(text, width, list)),
    ...bullet(
      `Tolerances, each way, where a tag, a deck or a drawing does not state its own: elevation tags ${length(tolerances.tags)}, deck elevations ${length(tolerances.decks)}, tracing in plan ${length(tolerances.plan)}.`,
      width,
      list,
    ),
    ...bullet(PARAPHRASE, width, list),
  ];
}

const bullet = (text: string, width: number, list: Part): Block[] => [
  ...row(
    [
      { text: "•", x: 2, width: 8, setting: BODY },
      { text, x: 14, width: width - 14, setting: BODY },
    ],
    { before: 2.5, part: { role: "LBody", within: { role: "LI", within: list } } },
  ),
];

/** Every symbol with its words. */
export function legendBlock(): Block {
  const legend = legendPicture();
  return pictureBlock(legend.picture, legend.height, {
    before: 4,
    alt: "The symbols of the verdicts, each with its words.",
  });
}

/** The cautions in full, in a frame of their own. */
export function cautions(width: number): Block[] {
  const setting: Setting = { ...BODY, size: 9.5 };
  return [
    heading("Before anybody acts on this", width),
    ...CAUTIONS.flatMap((text) => paragraph(text, width, setting, { before: 4, keep: text !== CAUTIONS.at(-1) })),
  ];
}
