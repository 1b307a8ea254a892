import { type Finding, VERDICTS, type Verdict } from "../check/finding.ts";
import { foldWords } from "../check/spot-reasons.ts";
import { STANDING_WORDS } from "../check/words.ts";
import { capital, findingName, VERDICT_WORDS } from "../issue/words.ts";
import { FOLD_KINDS } from "../job/fold-lines.ts";
import type { FoldLine } from "../job/schema.ts";
import { type AreaClassification, type SettledAs, STANDING_THINGS, type StandingThing } from "../job/storey-outline.ts";
import type { Choice } from "./fields/ChoiceRow.tsx";

/** The five stages of the work, in order, as the job line names them. */
export const stageWords = {
  sheet: { name: "Sheet", what: "Drawings, scale, how sheets lie on each other" },
  roof: { name: "Roof", what: "Deck areas and their elevations" },
  wiring: { name: "Wiring", what: "Runs, boxes, fittings and their tags" },
  check: { name: "Check", what: "Findings, with reasons and remedies" },
  issue: { name: "Issue", what: "The annotated sheet and the report" },
} as const;

/** What each verdict is called where findings are listed. */
export const verdictWords = Object.fromEntries(
  VERDICTS.map((verdict) => [verdict, capital(VERDICT_WORDS[verdict].name)]),
) as Readonly<Record<Verdict, string>>;

/** What a finding is called where findings are listed: its verdict, and that it is a penetration where it is one. */
export const findingWords = (finding: Pick<Finding, "verdict" | "penetration">): string =>
  capital(findingName(finding));

/** Answers to a question of fact; the third is an answer of its own. */
export const factAnswers: readonly Choice<"yes" | "no" | "not-recorded">[] = [
  { id: "yes", label: "Yes" },
  { id: "no", label: "No" },
  { id: "not-recorded", label: "Not recorded" },
];

/** What kind of surface an element's tag names. */
export const tagBasisChoices: readonly Choice<"bottom" | "centre" | "top">[] = [
  { id: "bottom", label: "Bottom" },
  { id: "centre", label: "Centre" },
  { id: "top", label: "Top" },
];

/** Which surface a deck's stated elevation names. */
export const deckBasisChoices: readonly Choice<
  "bottom-of-deck" | "top-of-steel" | "top-of-deck" | "top-of-slab" | "top-of-roofing"
>[] = [
  { id: "bottom-of-deck", label: "Bottom of deck", note: "The lowest surface itself" },
  { id: "top-of-steel", label: "Top of steel", note: "Deck bearing: the lowest surface of a deck that bears on it" },
  { id: "top-of-deck", label: "Top of deck", note: "Less the deck depth" },
  { id: "top-of-slab", label: "Top of slab or topping", note: "Less the slab and the deck depth" },
  { id: "top-of-roofing", label: "Top of roofing", note: "Less the whole assembly: its thicknesses are needed" },
];

/** What a deck area is above the rooms below it. */
export const classificationChoices: readonly Choice<AreaClassification["is"]>[] = [
  { id: "roof", label: "Roof" },
  { id: "floor-above", label: "Floor above" },
  { id: "from-outline", label: "By the storeys above" },
  { id: "not-settled", label: "Not settled" },
];

/** What a part of a deck area is. */
export const partWords: Readonly<Record<SettledAs, string>> = {
  roof: "Roof",
  "floor-above": "floor above",
  "not-settled": "not settled",
};

/** What may stand on a deck. */
export type StandingChoice = "not-recorded" | "occupied-storey" | StandingThing;
export const standingChoices: readonly Choice<StandingChoice>[] = [
  { id: "not-recorded", label: "Not recorded" },
  { id: "occupied-storey", label: "Occupied storey", note: "The deck below it is a floor" },
  ...STANDING_THINGS.map((id) => ({ id, label: capital(STANDING_WORDS[id]), note: "A person settles it, and why" })),
];

/** What something that is no occupied storey makes of the deck below it. */
export const makesChoices: readonly Choice<SettledAs>[] = [
  { id: "floor-above", label: "A floor" },
  { id: "roof", label: "A roof" },
  { id: "not-settled", label: "Not settled" },
];

/** "1 area", "3 areas": a count with its noun. */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** What is known of concrete on a deck. */
export const concreteChoices: readonly Choice<"not-recorded" | "none" | "thickness">[] = [
  { id: "not-recorded", label: "Not recorded" },
  { id: "none", label: "None" },
  { id: "thickness", label: "Thickness" },
];

/** Which flange of a fluted deck a roof fastener goes through. */
export const flangeChoices: readonly Choice<"not-recorded" | "top" | "bottom">[] = [
  { id: "not-recorded", label: "Not recorded" },
  { id: "top", label: "Top flange" },
  { id: "bottom", label: "Bottom flange" },
];

/** How a deck lies. */
export const shapeChoices: readonly Choice<"level" | "slope" | "spots">[] = [
  { id: "level", label: "Level" },
  { id: "slope", label: "Sloped" },
  { id: "spots", label: "Through spots" },
];

/** What a line between two spots of a deck is called. */
export const foldChoices: readonly Choice<FoldLine["kind"]>[] = FOLD_KINDS.map((id) => ({
  id,
  label: capital(foldWords[id]),
}));

/** The text with a capital at its start. */
export const capitalised = capital;

/** The two ways a job writes lengths. */
export const systemChoices: readonly Choice<"imperial" | "metric">[] = [
  { id: "imperial", label: "Feet and inches" },
  { id: "metric", label: "Millimetres" },
];

/** What each tolerance of the job is about. */
export const toleranceWords: Readonly<Record<"tags" | "decks" | "plan", string>> = {
  tags: "Tags",
  decks: "Decks",
  plan: "In plan",
};

/** Where the report goes. */
export const reportChoices: readonly Choice<"with" | "separate" | "none">[] = [
  { id: "with", label: "With the sheet" },
  { id: "separate", label: "Separate file" },
  { id: "none", label: "None" },
];

/** How marks are written into the sheet. */
export const formChoices: readonly Choice<"annotations" | "flattened">[] = [
  { id: "annotations", label: "Annotations" },
  { id: "flattened", label: "Flattened" },
];

/** What is issued of a drawing that is signed or damaged. */
export const copyChoices: readonly Choice<"none" | "unsigned" | "repaired">[] = [
  { id: "none", label: "The drawing itself, or nothing" },
  { id: "unsigned", label: "If signed, an unsigned copy" },
  { id: "repaired", label: "If damaged, a repaired copy" },
];
