import { rulesMessages } from "../rules/messages.ts";
import type { Problem } from "../units/problem.ts";

type Words = (p: Problem["params"], where: string) => string;

/** Wording of what the check notices in the job's own data. */
export const checkMessages: Readonly<Record<string, Words>> = {
  ...rulesMessages,
  "area.outline": (p) =>
    `The outline of ${p.area} crosses itself or is collapsed. Nothing under it can be told until it is drawn again.`,
  "area.overlap": (p) =>
    `${p.a} and ${p.b} cover the same deck in part, ${p.across} by ${p.up} near corner ${p.corner} of ${p.a}. Draw one of them smaller, so that each place has one deck.`,
  "area.overlap-elevations": (p) =>
    `${p.a} and ${p.b} overlap, ${p.across} by ${p.up} near corner ${p.corner} of ${p.a}, and their decks are ${p.difference} in. apart there. Both are checked; if one is wrong, correct its outline or its elevation.`,
  "area.stacked": (p) =>
    `${p.upper} lies ${p.apart} above ${p.lower}, over ${p.across} by ${p.up} of it near corner ${p.corner} of ${p.a}: two levels of the building. Wiring between them is judged under ${p.upper}, and under ${p.lower} what hangs below that; say which of the two is a roof, and record what lies on ${p.lower}.`,
  "area.hole-outside": (p) =>
    `A hole of ${p.area} reaches beyond its outline. Nothing under it can be told until one of them is traced again.`,
  "area.gap": (p) =>
    `${p.a} and ${p.b} do not meet: a strip about ${p.width} wide and ${p.length} long near corner ${p.corner} of ${p.a} lies under neither, and wiring there cannot be told. Trace both to one edge, or outline what lies between them.`,
  "area.fold-kind": (p) =>
    `${p.area}: the line between spots ${p.a} and ${p.b} is recorded as a ${p.kind}, but by the elevations of the spots the deck ${p.is} over it. Check the spots beside it.`,
  "area.folds-chosen": (p) =>
    `${p.area}: nobody recorded along which lines it folds everywhere. ${p.count === 1 ? "One fold is" : `${p.count} folds are`} taken from the plan of its spots alone; folded the other way than between spots ${p.a} and ${p.b}, the deck would lie up to ${p.off} ${p.way} there. Draw its ridges and valleys.`,
  "area.steep": (p) =>
    `${p.area} stands at ${p.degrees}° between ${p.spots}. If no deck does, put the spot that is out of line where the deck ends.`,
  "sheet.to-look-at": (p) =>
    `The new issue of ${p.sheet} shows something else at ${p.count === 1 ? "a mark" : `${p.count} marks`} (${p.names}) that nobody has looked at. What is found of ${p.count === 1 ? "it" : "them"} is of what was traced, which may not be what is drawn now. Compare the two issues.`,
  "storey.outline": (p) =>
    `The outline of the storey above ${p.storey} crosses itself or is collapsed. What it speaks for is not settled until it is drawn again.`,
  "storey.not-over": (p) =>
    `${p.storey} speaks for ${p.area}, but lies nowhere over it: as far as it goes, all of ${p.area} is roof. Check on which deck it stands, and how the two sheets lie on one another.`,
  "run.one-point": (p) => `${p.run} has one point only. Trace it again with at least two points, or delete it.`,
};
