import type { DrawnScale } from "../editor/said/drawn-words.ts";
import type { WitnessComparison } from "../pdf/read/compare-witnesses.ts";
import { roundedScale } from "./cards/rounded-scale.ts";
import { counted } from "./words.ts";

/** A witness of the scale as a row of a list names it. */
export function witnessName({ kind, text, of }: DrawnScale): string {
  switch (kind) {
    case "note":
      return "Note at a view";
    case "sheet-note":
      return "Note in the title block";
    case "viewport":
      return text === "" ? "A view the file names" : `${text}, as the file has it`;
    case "bar":
      return "Scale bar";
    case "dimensions":
      return dimensionWords(of);
  }
}

/** How many dimensions agree, and within how much of their length. */
function dimensionWords(of: DrawnScale["of"]): string {
  if (!of) return "Dimensions";
  const { agreeing, all, spread } = of;
  const which = agreeing === all ? counted(all, "dimension") : `${agreeing} of ${counted(all, "dimension")}`;
  // Half of them lie nearer to the middle one than this.
  return spread < 0.0005 ? which : `${which}, half within ${(spread * 100).toFixed(spread < 0.01 ? 1 : 0)}%`;
}

/** The same inside a sentence, with its verb: `the note says 1/4" = 1'-0"`. */
function says({ kind, text, ratio }: DrawnScale): string {
  if (kind === "note" || kind === "sheet-note") return `the note says ${text}`;
  if (kind === "viewport") return `the file says ${roundedScale(ratio)}`;
  return kind === "bar"
    ? `the scale bar is drawn at ${roundedScale(ratio)}`
    : `the dimensions say ${roundedScale(ratio)}`;
}

const measures = ({ kind, ratio }: DrawnScale): string =>
  `${kind === "bar" ? "the scale bar measures" : "the dimensions measure"} ${roundedScale(ratio)}`;

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? (parts[0] ?? "") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;

/** A sentence on how witnesses compare, and whether they agree. */
export interface ComparisonWords {
  readonly words: string;
  readonly agrees: boolean;
}

/** What comparing the witnesses of a part comes to: those that contradict each other one by one first, then what agrees with what. */
export function comparisonWords(comparisons: readonly WitnessComparison[]): readonly ComparisonWords[] {
  const contradict = comparisons
    .filter(({ agrees }) => !agrees)
    .map((one) => ({ words: contradictionWords(one), agrees: false }));
  const agreeing = new Map<string, string[]>();
  for (const { claim, against, agrees } of comparisons) {
    // A bar that agrees with a note and with the dimensions is told at the note.
    if (!agrees || claim.measured) continue;
    const list = agreeing.get(says(claim)) ?? [];
    agreeing.set(says(claim), [...list, against.kind === "bar" ? "the scale bar" : thing(against)]);
  }
  const agree = [...agreeing].map(([claim, others]) => {
    const names = [...new Set(others)];
    return {
      words: `${capital(claim)}, and ${listed(names)} ${names.length > 1 ? "agree" : "agrees"} with it.`,
      agrees: true,
    };
  });
  return [...contradict, ...agree];
}

const thing = ({ kind, of, text }: DrawnScale): string =>
  kind === "dimensions" && of
    ? `the measure of ${counted(of.agreeing, "dimension")}`
    : kind === "viewport"
      ? "the file"
      : `the note ${text}`;

/** Fewer dimensions than this are little to go by. */
const FEW = 3;

/** By how much two witnesses differ, and what that may mean. */
function contradictionWords({ claim, against, factor }: WitnessComparison): string {
  const differ = `${capital(says(claim))}, but ${against.measured ? measures(against) : says(against)}`;
  if (claim.measured || !against.measured)
    return `${differ}: ${Number(Math.max(factor, 1 / factor).toPrecision(3))} times as much. One of them is of another drawing.`;
  const claimed = claim.kind === "viewport" ? "what the file says" : "the note";
  const printed = factor < 1 ? "reduced" : "enlarged";
  const few =
    against.of && against.of.all <= FEW
      ? ` Only ${counted(against.of.all, "dimension")} could be read: measure a long one yourself.`
      : "";
  return `${differ}: the drawing has ${Number(factor.toPrecision(3))} of the size it has by ${claimed}. The sheet was printed ${printed}, or ${claimed} is of another drawing.${few}`;
}
