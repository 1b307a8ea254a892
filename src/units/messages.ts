import type { Problem } from "./problem.ts";

type Params = Problem["params"];
const quoted = (params: Params): string => `"${params.text ?? ""}"`;

/** The words for every problem of `src/units`. What happened, and what to do. */
export const unitsMessages = {
  "length.empty": () => `No length given. Write one, such as 12'-6 1/2" or 3810 mm.`,
  "length.not-a-length": (p: Params) =>
    `${quoted(p)} is not a length. Write one such as 12'-6 1/2", 7/8", 3810 mm or 3.81 m.`,
  "length.no-unit": (p: Params) => `${quoted(p)} has no unit. Write feet and inches ('  "), mm or m after it.`,
  "length.inches-over-twelve": (p: Params) =>
    `${quoted(p)} has ${p.inches} inches after the feet; at most 11 and a fraction fit. Check the number, or carry the foot.`,
  "length.fraction-not-proper": (p: Params) =>
    `${quoted(p)} has the fraction ${p.fraction}, which is a whole inch or more beside whole inches. Check the number.`,
  "length.zero-denominator": (p: Params) => `${quoted(p)} has a fraction over zero. Check the number.`,
  "length.too-large": (p: Params) => `${quoted(p)} is larger than any building. Check the number and its unit.`,
  "scale.empty": () => `No scale given. Write one, such as 1/8" = 1'-0" or 1:100.`,
  "scale.not-a-scale": (p: Params) => `${quoted(p)} is not a scale. Write one such as 1/8" = 1'-0", 1" = 20' or 1:100.`,
  "scale.as-noted": (p: Params) =>
    `${quoted(p)}: the sheet has more than one scale. Use the note under the plan itself, or two points and a distance.`,
  "scale.not-to-scale": (p: Params) =>
    `${quoted(p)}: this drawing is not to scale. Set the scale by two points and a written dimension, and check a second one.`,
  "scale.zero": (p: Params) => `${quoted(p)}: a scale needs two lengths larger than zero.`,
  "slope.empty": () => `No slope given. Write one, such as 1/4" per foot, 2% or 1:48; 0% for a level deck.`,
  "slope.not-a-slope": (p: Params) =>
    `${quoted(p)} is not a slope. Write one such as 1/4":12", 1/4" per foot, 2%, 1:48 or 1.2°.`,
  "slope.negative": (p: Params) =>
    `${quoted(p)} is negative. Give the slope as a positive number and its direction as the way down.`,
  "slope.zero-run": (p: Params) => `${quoted(p)} has no horizontal distance. Check the second number.`,
  "slope.too-steep": (p: Params) => `${quoted(p)} is a wall, not a deck. A slope must be less than 90°.`,
} as const satisfies Record<string, (params: Params) => string>;

/** The words for a problem of `src/units`, or undefined when its code belongs to another folder. */
export function unitsMessage(problem: Problem): string | undefined {
  return Object.hasOwn(unitsMessages, problem.code)
    ? unitsMessages[problem.code as keyof typeof unitsMessages](problem.params)
    : undefined;
}
