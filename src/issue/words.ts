import type { Finding, Verdict } from "../check/finding.ts";
import type { Area, Job } from "../job/schema.ts";
import type { CopyKind } from "../pdf/write/append-update.ts";
import type { MarkLayer } from "./mark.ts";

/** The program's name, as outputs state it. */
export const PROGRAM = "Underside";

/** What a verdict is called, what its symbol says in the legend, and how it is counted. */
export interface VerdictWords {
  readonly name: string;
  readonly legend: string;
}

/** The words of every verdict. */
export const VERDICT_WORDS: Readonly<Record<Verdict, VerdictWords>> = {
  concealed: { name: "concealed in the flutes", legend: "Concealed in the corrugations of the deck" },
  "entry-unprotected": { name: "entry unprotected", legend: "Conductors enter without the protection asked for" },
  "too-close": { name: "too close", legend: "Too close to the roof deck" },
  "cannot-tell": { name: "cannot tell", legend: "Cannot tell: something is not known, not settled or not recorded" },
  borderline: { name: "borderline", legend: "Borderline: the tolerances reach across the limit" },
  clear: { name: "clear", legend: "Clear, on the values given" },
  "not-governed": { name: "not governed", legend: "Not governed: a floor above, or outside the rule" },
};

/** What a finding is called: its verdict, and that it is a penetration where it is one. */
export const findingName = ({ verdict, penetration }: Pick<Finding, "verdict" | "penetration">): string =>
  penetration ? `penetration: ${VERDICT_WORDS[verdict].name}` : VERDICT_WORDS[verdict].name;

/** What a note is, in the legend. */
export const NOTE_LEGEND = "A note of the reviewer's own, and the spot it is about";

/** Names of our layers in an issued sheet. */
export const LAYER_NAMES: Readonly<Record<MarkLayer, string>> = {
  findings: "Underside: findings",
  notes: "Underside: notes",
  wiring: "Underside: wiring",
  areas: "Underside: deck areas",
};

/** What stands on a sheet that is not the drawing as its author gave it. */
export const COPY_WORDS: Readonly<Record<CopyKind, string>> = {
  unsigned: "Copy without the signatures of the drawing. The signed drawing governs.",
  repaired: "Repaired copy: the PDF was damaged and has been given a new index. Compare it with the drawing.",
};

/** What an area is taken to be. */
export const CLASSIFICATION_WORDS: Readonly<Record<Area["classification"]["is"], string>> = {
  roof: "roof deck",
  "floor-above": "floor above",
  "not-settled": "roof or floor not settled",
  "from-outline": "roof or floor by the storey above",
};

/** The cautions that go with every output, in full. */
export const CAUTIONS: readonly string[] = [
  "Advice from a drawing is not an inspection. Verify every dimension on site.",
  "Verify against the adopted code with its local amendments; the authority having jurisdiction decides.",
  "Design and installation belong to licensed people.",
  "De-energise, lock out and verify before work near existing wiring.",
  "Nobody drills a roof on the word of a drawing alone.",
];

/** The cautions in one line, for the foot of every page and the edge of the screen. */
export const SHORT_CAUTION =
  "Not an inspection. Verify on site and against the adopted code; the authority having jurisdiction decides. Never drill a roof on the word of a drawing alone.";

/** What the check rests on and how far it goes, for the report. */
export const ASSUMPTIONS: readonly string[] = [
  "Distances run from the lowest surface of the deck to the nearest surface of the wiring, square to the deck; the vertical gap beside them is what a tape reads.",
  "Wiring is straight between its vertices, in plan and in elevation. Outside diameters, not trade sizes, set its top.",
  "Couplings, connectors and bends are counted where they are recorded for a run; straps and supports only where they are placed as elements.",
  "Wiring that passes through a deck is a penetration: no distance settles it, and it is named apart from what runs too close.",
  "Conductors are checked where they enter a box or enclosure only where an entry is placed as an element.",
  "Deck areas are plane, or planes between the elevations given; camber, deflection and sag are not known to a drawing.",
  "Each reading has an interval from the tolerances below. A result whose interval reaches across the limit is borderline: neither clear nor too close.",
  'A fact that is not recorded never counts as a pass: the answer is then "cannot tell".',
];

/** The sources of the rule's text, stated with every report. */
export const PARAPHRASE = "Rules are paraphrased and named by section; the adopted code's own text governs.";

/** "No. 3", or nothing for a quiet finding. */
export const numberWords = (finding: Finding): string => (finding.number === null ? "" : `No. ${finding.number}`);

/** Title of a sheet as lists show it. */
export const sheetTitle = (job: Job, sheetId: string): string => {
  const sheet = job.sheets[sheetId];
  return sheet ? sheet.title || `${sheet.file.name}, page ${sheet.page}` : sheetId;
};

/** An element and what the check says of it, in one sentence for lists of annotations. */
export function elementSentence(label: string, words: string, findings: readonly Finding[]): string {
  const said = findings.map((finding) => {
    const number = numberWords(finding);
    return `${findingName(finding)}${number ? ` (${number})` : ""}`;
  });
  return `${label}: ${words}.${said.length > 0 ? ` ${capital(said.join("; "))}.` : " Not checked."}`;
}

/** The text with a capital at its start. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Title of a report, for the file's own description. */
export const reportTitle = (job: Job): string =>
  `${job.settings.job.name || "Job without a name"}: wiring under roof decks`;

/** What the embedded job says of itself in a list of attachments. */
export const attachmentWords = (length: number, sha256: string): string =>
  `The job of this drawing, for the program ${PROGRAM}. The drawing as it was before issue is the first ${length} bytes of this file, SHA-256 ${sha256}.`;
