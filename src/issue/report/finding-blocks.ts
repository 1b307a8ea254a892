import { decksAboveParted } from "../../check/decks-above.ts";
import type { CheckResult, Finding } from "../../check/finding.ts";
import { runProfile } from "../../check/run-profile.ts";
import { memberIn } from "../../check/subject.ts";
import { intervalText } from "../../check/words.ts";
import type { Job } from "../../job/schema.ts";
import { radians } from "../../units/quantity.ts";
import { decksAboveWords } from "../decks-above-words.ts";
import { editionWords, leastWords, stretchWords } from "../finding-sentence.ts";
import { gridOfFinding } from "../grid-words.ts";
import { FAINT_INK, HAIR_INK, INK } from "../inks.ts";
import { elementWords } from "../kinds/kinds.ts";
import { levelPath } from "../paths.ts";
import { placePicture } from "../place-picture.ts";
import { lanesHeight } from "../profile/lane-count.ts";
import { profilePicture } from "../profile/profile-picture.ts";
import { asInches, showDeckElevation, showRequired } from "../show-length.ts";
import { symbolOf } from "../symbols.ts";
import { textWidth } from "../text-width.ts";
import { CLASSIFICATION_WORDS, capital, findingName, sheetTitle } from "../words.ts";
import { type Block, BODY, pictureBlock, row, type Setting, space, textItem } from "./block.ts";
import { beside, stacked } from "./columns.ts";
import { entryName, markLink, type Part } from "./part.ts";
import { reasonBlocks, type ToldReasons } from "./reason-blocks.ts";
import { CUT } from "./sheet-cut.ts";
import { fitText } from "./wrap-text.ts";

const LABEL: Setting = { size: 8, face: "regular", ink: FAINT_INK };
const VALUE: Setting = { size: 8.5, face: "regular", ink: INK };
const SUBHEAD: Setting = { size: 8, face: "bold", ink: FAINT_INK };
/** Width of the column of labels. */
const LABELS = 86;
/** Room between facts and the picture cut from the sheet. */
const CUT_GAP = 14;
/** Facts and remedies that are taller than this stand above that picture. */
const MOST_BESIDE = 280;
/** Height of a profile in the report. */
const PROFILE = 136;
/** Height that the raceways of a rack may add to it. */
const MOST_LANES = 220;

/** What every entry of a report is made from. */
interface EntrySetting {
  readonly job: Job;
  readonly result: CheckResult;
  readonly width: number;
  /** What surrounds a finding on its sheet. */
  readonly cut: (finding: Finding) => Block | undefined;
  /** What earlier entries explained. */
  readonly told: ToldReasons;
}

/** All a report says of one finding that needs attention. `withProfile`: the run has not been drawn before it. */
export function findingBlocks(finding: Finding, withProfile: boolean, setting: EntrySetting): Block[] {
  const { job, result, width, cut, told } = setting;
  return [
    title(job, finding, width),
    ...besideCut(finding, cut(finding), setting),
    ...(withProfile ? profile(job, result, finding, width) : []),
    ...subhead("Why"),
    ...reasonBlocks(finding.reasons, width, told, finding.number ?? undefined),
    space(10),
  ];
}

/** Facts and remedies, with the picture cut from the sheet on their right where they are not too long for that. */
function besideCut(finding: Finding, cut: Block | undefined, { job, width }: EntrySetting): Block[] {
  const said = (across: number) => [...facts(job, finding, across), ...remedies(finding, across)];
  if (!cut) return said(width);
  const left = stacked(said(width - CUT.width - CUT_GAP), { before: 2 });
  return left.height <= MOST_BESIDE ? [beside(left, cut, width - CUT.width)] : [...said(width), cut];
}

const subhead = (text: string): Block[] =>
  row([{ text, x: 0, width: 300, setting: SUBHEAD }], { before: 7, keep: true, part: { role: "H4" } });

/** Symbol, number, element and verdict. */
function title(job: Job, finding: Finding, width: number): Block {
  const number = finding.number === null ? "" : String(finding.number);
  const name: Setting = { size: 12, face: "bold", ink: INK };
  const element = job.elements[finding.elementId];
  const words = element ? elementWords(element) : "";
  // The symbol has the colour: words in it would be pale in grey print.
  const verdict: Setting = { size: 10, face: "bold", ink: INK };
  const left = 26 + (number ? textWidth(number, 12, "bold") + 8 : 0);
  const said = capital(findingName(finding));
  const room = width - left - textWidth(said, verdict.size, verdict.face) - 12;
  const label = fitText(finding.element, room, name.size, name.face);
  const nameWidth = textWidth(label, name.size, name.face) + 7;
  const kind = room - nameWidth > 30 ? fitText(words, room - nameWidth, BODY.size, BODY.face) : "";
  const part: Part = {
    role: "H3",
    bookmark: { text: [number, `${finding.element}: ${said}`].filter(Boolean).join("  "), level: 3 },
    ...(finding.number === null ? {} : { name: entryName(finding.number) }),
  };
  const link: Part = finding.number === null ? part : markLink(finding.number, part);
  return {
    height: 26,
    before: 8,
    keep: true,
    draw: (x, top) => [
      {
        picture: [
          levelPath(x, x + width, top, { stroke: HAIR_INK, width: 0.6 }),
          ...placePicture(symbolOf(finding.verdict), { scale: 15, angle: radians(0), dx: x + 9, dy: top - 13 }),
        ],
      },
      ...(number ? [{ part: link, picture: [textItem(number, x + 26, top - 5.5, name)] }] : []),
      {
        part,
        picture: [
          textItem(label, x + left, top - 5.5, name),
          textItem(kind, x + left + nameWidth, top - 8, BODY),
          textItem(said, x + width, top - 7, verdict, "end"),
        ].filter((item) => item.type === "text" && item.text !== ""),
      },
    ],
  };
}

function facts(job: Job, finding: Finding, width: number): Block[] {
  const { system } = job.settings.job;
  const where = stretchWords(finding, system);
  const decks = finding.areas.flatMap((id) => {
    const area = job.areas[id];
    if (!area) return [];
    return [`${area.label} (${CLASSIFICATION_WORDS[area.classification.is]}, ${showDeckElevation(job, area)})`];
  });
  const between = intervalText(finding.intervalIn, system);
  const interval = between ? `, by the tolerances ${between}` : "";
  const rows: [string, string][] = [
    [
      "Where",
      [sheetTitle(job, finding.sheet), where && `${where} along the run`, gridOfFinding(job, finding)]
        .filter(Boolean)
        .join(", "),
    ],
    ["Rule", finding.section ? `${finding.section}, ${editionWords(finding.edition)}` : ""],
    ["Required", finding.requiredIn > 0 ? showRequired(asInches(finding.requiredIn), system) : ""],
    [
      "Least distance",
      finding.leastIn === null
        ? finding.requiredIn > 0
          ? "cannot be told"
          : ""
        : `${leastWords(finding.leastIn, system)}${interval}`,
    ],
    ["Straight up, by tape", finding.verticalIn === null ? "" : leastWords(finding.verticalIn, system)],
    ["Deck", decks.join("; ")],
    ["Above it", decksAboveWords(job, decksAboveParted(job, finding.elementId)).join("; ")],
  ];
  const table: Part = { role: "Table" };
  return rows
    .filter(([, value]) => value !== "")
    .flatMap(([label, value]) =>
      row(
        [
          { text: label, x: 0, width: LABELS - 6, setting: LABEL },
          { text: value, x: LABELS, width: width - LABELS, setting: VALUE },
        ],
        { before: 1.5, keep: true, table, head: "row" },
      ),
    );
}

function remedies(finding: Finding, width: number): Block[] {
  if (finding.remedies.length === 0) return [];
  const list: Part = { role: "L" };
  return [
    ...subhead("What would settle it"),
    ...finding.remedies.flatMap(({ text }) =>
      row(
        [
          { text: "•", x: 2, width: 8, setting: VALUE },
          { text, x: 12, width: width - 12, setting: VALUE },
        ],
        { before: 1, part: { role: "LBody", within: { role: "LI", within: list } } },
      ),
    ),
  ];
}

function profile(job: Job, result: CheckResult, finding: Finding, width: number): Block[] {
  const unrolled = runProfile(job, finding.elementId, result, memberIn(finding.about));
  if (!unrolled || unrolled.axis.length === 0) return [];
  const height = PROFILE + Math.min(lanesHeight(unrolled), MOST_LANES);
  const drawn = profilePicture(unrolled, { width, height });
  const alt = `Profile of ${finding.element}: the deck, the clearance below it and the wiring, unrolled along the run.`;
  return [pictureBlock(drawn.picture, height, { before: 8, alt })];
}
