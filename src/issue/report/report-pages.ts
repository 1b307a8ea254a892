import { sheetsInOrder } from "../../check/check-job.ts";
import { type CheckResult, type Finding, isQuiet, VERDICTS } from "../../check/finding.ts";
import { checkMessages } from "../../check/messages.ts";
import { clearanceText } from "../../check/words.ts";
import type { Picture } from "../../geometry/picture.ts";
import type { Job } from "../../job/schema.ts";
import { findRuleSet } from "../../rules/rule-sets.ts";
import { formatLength } from "../../units/format-length.ts";
import { toInches } from "../../units/length.ts";
import { radians } from "../../units/quantity.ts";
import { FAINT_INK, HAIR_INK, INK, VERDICT_INK } from "../inks.ts";
import { legendPicture } from "../legend-picture.ts";
import { linePath } from "../paths.ts";
import { placePicture } from "../place-picture.ts";
import { ruleWords } from "../rule-words.ts";
import { showRequired } from "../show-length.ts";
import { symbolOf } from "../symbols.ts";
import {
  ASSUMPTIONS,
  CAUTIONS,
  PARAPHRASE,
  PROGRAM,
  reportTitle,
  SHORT_CAUTION,
  sheetTitle,
  VERDICT_WORDS,
} from "../words.ts";
import {
  type Block,
  BODY,
  type Cell,
  heading,
  LEADING,
  paragraph,
  pictureBlock,
  row,
  type Setting,
  TITLE,
  textItem,
} from "./block.ts";
import { findingBlocks } from "./finding-blocks.ts";
import { paginate } from "./paginate.ts";
import { fitText, wrapText } from "./wrap-text.ts";

/** What a report states beside the job and its findings. */
export interface ReportFacts {
  /** The moment of issue; the report shows its date, UTC. */
  readonly now: Date;
  /** Who issues; "" when not said. */
  readonly author: string;
}

/** The pages of a report as pictures, all of one size in points of paper. */
export interface ReportPages {
  readonly size: readonly [width: number, height: number];
  readonly pages: readonly Picture[];
}

const LABEL: Setting = { size: 9, face: "regular", ink: FAINT_INK };
const FOOT: Setting = { size: 6.8, face: "regular", ink: FAINT_INK };
const HEAD: Setting = { size: 8, face: "regular", ink: FAINT_INK };
const COLUMN: Setting = { size: 7.5, face: "regular", ink: FAINT_INK };
const CELL: Setting = { size: 8.5, face: "regular", ink: INK };
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

const isoDate = (date: Date): string => date.toISOString().slice(0, 10);

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

function pairs(rows: readonly (readonly [string, string])[], width: number): Block[] {
  return rows.flatMap(([label, value]) =>
    row(
      [
        { text: label, x: 0, width: 104, setting: LABEL },
        { text: value, x: 112, width: width - 112, setting: BODY },
      ],
      { before: 3 },
    ),
  );
}

function opening(job: Job, facts: ReportFacts, width: number): Block[] {
  const settings = job.settings.job;
  const set = findRuleSet(settings.edition);
  const columns: Cell[] = [
    { text: "Sheet", x: 0, width: 190, setting: COLUMN },
    { text: "Drawing", x: 198, width: 150, setting: COLUMN },
    { text: "Page", x: 350, width: 30, setting: COLUMN, align: "end" },
    { text: "SHA-256 of the drawing", x: 392, width: width - 392, setting: COLUMN },
  ];
  return [
    ...row([{ text: "Wiring under roof decks", x: 0, width, setting: TITLE }]),
    ...row(
      [{ text: settings.name || "Job without a name", x: 0, width, setting: { size: 13, face: "regular", ink: INK } }],
      {
        before: 2,
      },
    ),
    { height: 6, before: 0, keep: false, draw: () => [] },
    ...pairs(
      [
        ["Rule", set ? `${set.code}, ${set.edition} edition, ${set.section}: ${set.title}` : ruleWords(job)],
        [
          "Clearance",
          set
            ? `${showRequired(toInches(set.clearance[settings.system]), settings.system)}. ${set.measured}`
            : "not known",
        ],
        [
          "Applies by",
          settings.editionBy || "Not recorded: say by whose decision this edition, with its local amendments, applies.",
        ],
        ["Issued", `${isoDate(facts.now)}${facts.author ? `, ${facts.author}` : ""}, by the program ${PROGRAM}`],
      ],
      width,
    ),
    ...row(columns, { before: 14, keep: true }),
    ...sheetsInOrder(job).flatMap((id): Block[] => {
      const sheet = job.sheets[id]!;
      const texts = [sheetTitle(job, id), sheet.file.name, String(sheet.page), `${sheet.file.sha256.slice(0, 16)}…`];
      return row(
        columns.map((column, i) => ({ ...column, text: texts[i] as string, setting: CELL })),
        { before: 2 },
      );
    }),
  ];
}

function summary(result: CheckResult, width: number): Block[] {
  const attention = result.findings.filter(({ verdict }) => !isQuiet(verdict)).length;
  const words =
    attention === 0
      ? "Nothing needs attention on the values given."
      : `${attention} ${attention === 1 ? "finding needs" : "findings need"} attention. Their numbers are those on the sheets.`;
  return [
    heading("Summary", width),
    ...paragraph(words, width, BODY, { before: 2, keep: true }),
    ...VERDICTS.flatMap((verdict) =>
      row(
        [
          { text: String(result.counts[verdict]), x: 0, width: 34, setting: { ...BODY, face: "bold" }, align: "end" },
          {
            text: VERDICT_WORDS[verdict].legend,
            x: 70,
            width: width - 70,
            setting: result.counts[verdict] > 0 ? BODY : LABEL,
          },
        ],
        {
          before: 6,
          keep: true,
          picture: placePicture(symbolOf(verdict), { scale: 11, angle: radians(0), dx: 52, dy: -5.5 }),
        },
      ),
    ),
    { height: 2, before: 0, keep: false, draw: () => [] },
  ];
}

/** What could not be told and what is missing, in one list to work through. */
function untold(result: CheckResult, width: number): Block[] {
  const open = result.findings.filter(({ verdict }) => verdict === "cannot-tell");
  if (open.length === 0 && result.notices.length === 0) return [];
  return [
    heading("What could not be told, and what is missing", width),
    ...open.flatMap((finding): Block[] => {
      const asked = finding.remedies.map(({ text }) => text);
      return [
        ...row(
          [
            { text: String(finding.number ?? ""), x: 0, width: 22, setting: { ...CELL, face: "bold" }, align: "end" },
            { text: finding.element, x: 32, width: 74, setting: { ...CELL, face: "bold" } },
            {
              text: asked.length > 0 ? asked.join(" ") : finding.reasons.text,
              x: 112,
              width: width - 112,
              setting: CELL,
            },
          ],
          { before: 4 },
        ),
      ];
    }),
    ...result.notices.flatMap((notice) => {
      const text = checkMessages[notice.code]?.(notice.params, notice.where) ?? `${notice.code} ${notice.where}`;
      return row(
        [
          { text: "Job", x: 32, width: 74, setting: { ...CELL, face: "bold" } },
          { text, x: 112, width: width - 112, setting: CELL },
        ],
        { before: 4 },
      );
    }),
  ];
}

function quietTable(job: Job, quiet: readonly Finding[], width: number): Block[] {
  if (quiet.length === 0) return [];
  const { system } = job.settings.job;
  const columns: Cell[] = [
    { text: "Element", x: 0, width: 90, setting: COLUMN },
    { text: "Sheet", x: 98, width: 176, setting: COLUMN },
    { text: "Verdict", x: 282, width: 76, setting: COLUMN },
    { text: "Least distance", x: 362, width: width - 362, setting: COLUMN, align: "end" },
  ];
  return [
    heading("Clear, or not governed", width),
    ...row(columns, { before: 2, keep: true }),
    ...quiet.flatMap((finding) => {
      const texts = [
        finding.element,
        sheetTitle(job, finding.sheet),
        VERDICT_WORDS[finding.verdict].name,
        finding.leastIn === null ? "" : clearanceText(finding.leastIn, system),
      ];
      return row(
        columns.map((column, i) => ({
          ...column,
          text: texts[i] as string,
          setting: i === 2 ? { ...CELL, ink: VERDICT_INK[finding.verdict] } : CELL,
        })),
        { before: 2.5 },
      );
    }),
  ];
}

function basis(job: Job, width: number): Block[] {
  const { system, tolerances } = job.settings.job;
  const length = (value: Parameters<typeof toInches>[0]) => formatLength(toInches(value), system);
  return [
    heading("Assumptions and tolerances", width),
    ...ASSUMPTIONS.flatMap((text) => bullet(text, width)),
    ...bullet(
      `Tolerances, each way, where a tag, a deck or a drawing does not state its own: elevation tags ${length(tolerances.tags)}, deck elevations ${length(tolerances.decks)}, tracing in plan ${length(tolerances.plan)}.`,
      width,
    ),
    ...bullet(PARAPHRASE, width),
  ];
}

const bullet = (text: string, width: number): Block[] => [
  ...row(
    [
      { text: "•", x: 2, width: 8, setting: BODY },
      { text, x: 14, width: width - 14, setting: BODY },
    ],
    { before: 2.5 },
  ),
];

function legendBlock(): Block {
  const legend = legendPicture();
  return pictureBlock(legend.picture, legend.height, { before: 4 });
}

/** The cautions in full, in a frame of their own. */
function cautions(width: number): Block[] {
  const setting: Setting = { ...BODY, size: 9.5 };
  return [
    heading("Before anybody acts on this", width),
    ...CAUTIONS.flatMap((text) => paragraph(text, width, setting, { before: 4, keep: text !== CAUTIONS.at(-1) })),
  ];
}
