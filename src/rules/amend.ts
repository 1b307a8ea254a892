import { formatLength } from "../units/format-length.ts";
import { type Length, toInches, type UnitSystem } from "../units/length.ts";
import type { Problem } from "../units/problem.ts";
import type { RuleException, RuleSet, StatedLength } from "./rule-set.ts";

/**
 * A local amendment to a rule set: a larger clearance, stated for each unit system by itself, or a struck exception (by its id).
 * Why it applies (the ordinance, the letter) and by whose decision are shown wherever it bears on an answer.
 */
export type Amendment = { readonly reason: string; readonly authority: string } & (
  | { readonly kind: "larger-clearance"; readonly clearance: StatedLength }
  | { readonly kind: "struck-exception"; readonly exception: string }
);

/** A rule set as it applies where it was adopted with amendments. */
export interface AmendedRules {
  /** The rule set with every amendment that could be applied. */
  readonly rules: RuleSet;
  /** The edition itself, as it was before. */
  readonly unamended: RuleSet;
  /** The amendment the clearance comes from; undefined where it is the edition's own. */
  readonly clearanceBy: Amendment | undefined;
  /** The exceptions taken out, each with the amendment that struck it. */
  readonly struck: readonly { readonly exception: RuleException; readonly by: Amendment }[];
  /** Of each amendment, by its index: was it applied? */
  readonly applied: readonly boolean[];
  /** What is wrong with amendments, each at the amendment's index. One that asks for less or strikes nothing is left out. */
  readonly problems: readonly Problem[];
}

/**
 * The rule set with local amendments, in order. An amendment only ever makes the rule stricter; one that cannot apply is left out and
 * named: `amendment.smaller-clearance`, `amendment.no-such-exception`. One without a reason or an authority applies all the same,
 * since it is stricter, and is named too: `amendment.no-reason`, `amendment.no-authority`.
 */
export function amendRuleSet(set: RuleSet, amendments: readonly Amendment[]): AmendedRules {
  const problems: Problem[] = [];
  const struck: AmendedRules["struck"][number][] = [];
  const applied = amendments.map(() => false);
  let rules = set;
  let clearanceBy: Amendment | undefined;
  amendments.forEach((amendment, index) => {
    const complain = (code: string, params: Problem["params"] = {}) =>
      problems.push({ code, where: `${index}`, params });
    if (amendment.reason.trim() === "") complain("amendment.no-reason");
    if (amendment.authority.trim() === "") complain("amendment.no-authority");
    if (amendment.kind === "larger-clearance") {
      const short = (["imperial", "metric"] as const).find(
        (system) => !(toInches(amendment.clearance[system]) >= toInches(rules.clearance[system])),
      );
      if (short) {
        const [stated, asked] = [rules, amendment].map(({ clearance }) => inWords(clearance[short], short));
        complain("amendment.smaller-clearance", { stated: stated!, asked: asked! });
        return;
      }
      rules = { ...rules, clearance: amendment.clearance };
      clearanceBy = amendment;
      applied[index] = true;
      return;
    }
    const exception = rules.exceptions.find(({ id }) => id === amendment.exception);
    if (!exception) {
      complain("amendment.no-such-exception", { set: set.id, id: amendment.exception });
      return;
    }
    rules = { ...rules, exceptions: rules.exceptions.filter((each) => each !== exception) };
    struck.push({ exception, by: amendment });
    applied[index] = true;
  });
  return { rules, unamended: set, clearanceBy, struck, applied, problems };
}

function inWords(length: Length, system: UnitSystem): string {
  const distance = toInches(length);
  return Number.isFinite(distance) ? formatLength(distance, system) : "nothing";
}
