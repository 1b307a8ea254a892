import { sheetsInOrder } from "../../check/check-job.ts";
import { type CheckResult, isQuiet, VERDICTS } from "../../check/finding.ts";
import { verdictsAskedFor } from "../../check/kinds/kinds.ts";
import { rulesOfJob } from "../../check/rules-of-job.ts";
import type { Job } from "../../job/schema.ts";
import type { RuleSet } from "../../rules/rule-set.ts";
import { requiredClearance } from "../../rules/scope.ts";
import { conductorSizeWords } from "../../trade/conductors.ts";
import { radians } from "../../units/quantity.ts";
import { INK } from "../inks.ts";
import { placePicture } from "../place-picture.ts";
import { amendmentWords, ruleWords } from "../rule-words.ts";
import { showRequired } from "../show-length.ts";
import { symbolOf } from "../symbols.ts";
import { PROGRAM, sheetTitle, VERDICT_WORDS } from "../words.ts";
import {
  type Block,
  BODY,
  CELL,
  type Cell,
  COLUMN,
  heading,
  LABEL,
  nameIn,
  paragraph,
  row,
  type Setting,
  space,
  TITLE,
} from "./block.ts";
import { beside, stacked } from "./columns.ts";
import { numberLines } from "./number-lines.ts";
import type { Part } from "./part.ts";
import { isoDate, type ReportFacts } from "./report-facts.ts";

const COUNT: Setting = { ...BODY, face: "bold" };

function pairs(rows: readonly (readonly [string, string])[], width: number): Block[] {
  const table: Part = { role: "Table" };
  return rows.flatMap(([label, value]) =>
    row(
      [
        { text: label, x: 0, width: 104, setting: LABEL },
        { text: value, x: 112, width: width - 112, setting: BODY },
      ],
      { before: 3, table, head: "row" },
    ),
  );
}

/** Title, rule and by whose decision, and the drawings. */
export function opening(job: Job, facts: ReportFacts, width: number): Block[] {
  const settings = job.settings.job;
  const set = rulesOfJob(job)?.rules;
  const columns: Cell[] = [
    { text: "Sheet", x: 0, width: 214, setting: COLUMN },
    { text: "Drawing", x: 222, width: 134, setting: COLUMN },
    { text: "Page", x: 358, width: 30, setting: COLUMN, align: "end" },
    { text: "SHA-256 of the drawing", x: 400, width: width - 400, setting: COLUMN },
  ];
  const table: Part = { role: "Table" };
  const part: Part = { role: "H1", bookmark: { text: "Report", level: 1 } };
  return [
    ...row([{ text: "Wiring under roof decks", x: 0, width, setting: TITLE }], { part }),
    ...row(
      [{ text: settings.name || "Job without a name", x: 0, width, setting: { size: 13, face: "regular", ink: INK } }],
      {
        before: 2,
      },
    ),
    space(6),
    ...pairs(
      [
        ["Rule", set ? `${set.code}, ${set.edition} edition, ${set.section}: ${set.title}` : ruleWords(job)],
        [
          "Clearance",
          set
            ? `${showRequired(requiredClearance(set, settings.system), settings.system)}. ${set.measured}`
            : "not known",
        ],
        [
          "Applies by",
          settings.editionBy || "Not recorded: say by whose decision this edition, with its local amendments, applies.",
        ],
        ...entryPairs(job, set),
        ...amendmentWords(job).map((words, i) => [`Local amendment ${i + 1}`, words] as const),
        ["Issued", `${isoDate(facts.now)}${facts.author ? `, ${facts.author}` : ""}, by the program ${PROGRAM}`],
      ],
      width,
    ),
    ...row(columns, { before: 14, keep: true, table, head: "columns" }),
    ...sheetsInOrder(job).flatMap((id): Block[] => {
      const sheet = job.sheets[id]!;
      const texts = [sheetTitle(job, id), sheet.file.name, String(sheet.page), `${sheet.file.sha256.slice(0, 16)}…`];
      return row(
        columns.map((column, i) => ({
          ...column,
          text: i === 0 ? nameIn(column, texts[i]!) : texts[i]!,
          setting: CELL,
        })),
        { before: 2, table },
      );
    }),
  ];
}

/** The sibling rule, where the job has entries that it is asked of. */
function entryPairs(job: Job, set: RuleSet | undefined): (readonly [string, string])[] {
  if (!set || !verdictsAskedFor(job).includes("entry-unprotected")) return [];
  const { entry } = set;
  const words = entry
    ? `${entry.section}: conductors of ${conductorSizeWords(entry.smallestConductor)} and larger where their raceway enters an enclosure`
    : `the rule of the ${set.edition} edition is not written down in this program`;
  return [["Entries", words]];
}

/** How many findings of each verdict and which; nought only of those that were asked for. */
export function summary(job: Job, result: CheckResult, width: number): Block[] {
  const asked = verdictsAskedFor(job);
  const shown = VERDICTS.filter((verdict) => result.counts[verdict] > 0 || asked.includes(verdict));
  const attention = result.findings.filter(({ verdict }) => !isQuiet(verdict)).length;
  const words =
    attention === 0
      ? "Nothing needs attention on the values given."
      : `${attention} ${attention === 1 ? "finding needs" : "findings need"} attention. Their numbers are those on the sheets.`;
  const table: Part = { role: "Table" };
  return [
    heading("Summary", width),
    ...paragraph(words, width, BODY, { before: 2, keep: true }),
    ...shown.flatMap((verdict) => {
      const line: Part = { role: "TR", within: table };
      const cell = (role: "TH" | "TD"): Part => ({ role, within: line, scope: "Row" });
      const numbers = result.findings.flatMap((one) =>
        one.verdict === verdict && one.number !== null && !isQuiet(verdict) ? [one.number] : [],
      );
      const count = { text: String(result.counts[verdict]), x: 0, width: 34, setting: COUNT, align: "end" as const };
      const setting = result.counts[verdict] > 0 ? BODY : LABEL;
      const picture = placePicture(symbolOf(verdict), { scale: 11, angle: radians(0), dx: 52, dy: -5.5 });
      const said = row([{ text: VERDICT_WORDS[verdict].legend, x: 70, width: width - 70, setting }], {
        part: cell("TH"),
        picture,
      });
      return [
        stacked([beside(stacked(row([count], { part: cell("TD") })), stacked(said), 0)], { before: 6, keep: true }),
        ...numberLines(numbers, { x: 70, width: width - 70, part: cell("TD") }),
      ];
    }),
    space(2),
  ];
}
