import { rulesMessages } from "../rules/messages.ts";
import type { Problem } from "../units/problem.ts";

type Words = (p: Problem["params"], where: string) => string;

/** Wording of what the check notices in the job's own data. */
export const checkMessages: Readonly<Record<string, Words>> = {
  ...rulesMessages,
  "area.outline": (p) =>
    `The outline of ${p.area} crosses itself or is collapsed. Nothing under it can be told until it is drawn again.`,
  "area.overlap": (p) =>
    `${p.a} and ${p.b} cover the same deck in part. Draw one of them smaller, so that each place has one deck.`,
  "area.overlap-elevations": (p) =>
    `${p.a} and ${p.b} overlap, and their decks are ${p.difference} in. apart there. Both are checked; if one is wrong, correct its outline or its elevation.`,
  "run.one-point": (p) => `${p.run} has one point only. Trace it again with at least two points, or delete it.`,
};
