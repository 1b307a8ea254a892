import { type CheckResult, type Finding, isQuiet, type Verdict } from "../../check/finding.ts";
import type { Job } from "../../job/schema.ts";
import { distanceWords, editionWords, stretchWords } from "../finding-sentence.ts";
import { gridOfFinding } from "../grid-words.ts";
import { elementWords } from "../kinds/kinds.ts";
import { asInches, showRequired } from "../show-length.ts";
import { capital, findingName, sheetTitle } from "../words.ts";

/** One comment of a review: what is cited, where, what is remarked and what is asked. */
export interface ReviewComment {
  /** The number of the finding, as on the sheet and in the report. */
  readonly number: number;
  /** `300.4(E), 2023 edition`; "" where the rule set is not known here. */
  readonly citation: string;
  readonly sheet: string;
  /** `R-2 (1 EMT), between 27'-8" and 30'-0"; under Hall roof; grid B–C / 3–4`. */
  readonly location: string;
  readonly remark: string;
  readonly action: string;
}

/** A comment for each finding that needs attention, in the order of their numbers. */
export function reviewComments(job: Job, { findings }: CheckResult): ReviewComment[] {
  return findings
    .filter(({ verdict }) => !isQuiet(verdict))
    .map((finding) => ({
      number: finding.number ?? 0,
      citation: [finding.section, finding.section && editionWords(finding.edition)].filter(Boolean).join(", "),
      sheet: sheetTitle(job, finding.sheet),
      location: locationOf(job, finding),
      remark: remarkOf(job, finding),
      action: actionOf(job, finding),
    }))
    .sort((a, b) => a.number - b.number);
}

function locationOf(job: Job, finding: Finding): string {
  const element = job.elements[finding.elementId];
  const what = element ? ` (${elementWords(element)})` : "";
  const where = stretchWords(finding, job.settings.job.system);
  const decks = finding.areas.map((id) => job.areas[id]?.label ?? id).join(", ");
  const grid = gridOfFinding(job, finding);
  return `${finding.element}${what}${where && `, ${where}`}${decks && `; under ${decks}`}${grid && `; ${grid}`}`;
}

function remarkOf(job: Job, finding: Finding): string {
  const distance = distanceWords(finding, job.settings.job.system);
  return `${capital(findingName(finding))}.${distance && ` ${capital(distance)}.`}`;
}

/**
 * What is asked for. Where a distance or a protection is at fault the designer is free in how to mend it: the first remedy is named
 * as one way. Where something cannot be told, or wiring passes through the deck, what would settle it is what is asked.
 */
function actionOf(job: Job, finding: Finding): string {
  const [first] = finding.remedies;
  const ask = finding.penetration
    ? undefined
    : ASKED[finding.verdict]?.(showRequired(asInches(finding.requiredIn), job.settings.job.system));
  if (ask !== undefined) return first === undefined ? ask : `${ask} One way: ${first.text}`;
  return finding.remedies.map(({ text }) => text).join(" ") || "State on the drawings what is missing for an answer.";
}

/** What is asked by verdict, the required distance in words. */
const ASKED: Readonly<Partial<Record<Verdict, (required: string) => string>>> = {
  concealed: (required) =>
    `Take it out of the corrugations of the deck and keep ${required} below its lowest surface, or state the exception that applies.`,
  "too-close": (required) =>
    `Keep ${required} below the lowest surface of the deck, or state the exception that applies.`,
  borderline: (required) =>
    `Show by elevations that are certain enough that ${required} is kept below the lowest surface of the deck, or lower it.`,
  "entry-unprotected": () => "Show how the conductors are protected where they enter.",
};
