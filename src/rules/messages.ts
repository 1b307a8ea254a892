import type { Problem } from "../units/problem.ts";

type Params = Problem["params"];

/** The words for every problem of `src/rules`. */
export const rulesMessages = {
  "rules.unknown-key": (p: Params) => `A rule set has no field "${p.key}". Check its spelling, or take it out.`,
  "rules.missing": () => "This field is missing. Every value of a rule set is needed, with its source.",
  "rules.not-allowed": (p: Params) => `This value does not fit here: ${p.says}.`,
  "amendment.no-reason": () =>
    "A local amendment needs a reason: the ordinance or the letter it rests on. It is applied all the same, since it is stricter.",
  "amendment.no-authority": () =>
    "A local amendment needs an authority: by whose decision it applies. It is applied all the same, since it is stricter.",
  "amendment.added-no-reason": (p: Params) =>
    `The exception added locally, "${p.label}", needs a reason: the ordinance or the letter it rests on. It is not applied without one, since it is milder.`,
  "amendment.added-no-authority": (p: Params) =>
    `The exception added locally, "${p.label}", needs an authority: by whose decision it applies. It is not applied without one, since it is milder.`,
  "amendment.smaller-clearance": (p: Params) =>
    `A local amendment may ask for more than ${p.stated}, not for ${p.asked}; it is not applied. Take a smaller distance up with the authority having jurisdiction.`,
  "amendment.no-such-exception": (p: Params) =>
    `Rule set ${p.set} has no exception "${p.id}" to strike; this local amendment changes nothing.`,
} as const satisfies Record<string, (params: Params) => string>;

/** The words for a problem of `src/rules`, or undefined when its code belongs to another folder. */
export function rulesMessage(problem: Problem): string | undefined {
  return Object.hasOwn(rulesMessages, problem.code)
    ? rulesMessages[problem.code as keyof typeof rulesMessages](problem.params)
    : undefined;
}
