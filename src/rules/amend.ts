import { formatLength } from "../units/format-length.ts";
import { type Length, toInches, type UnitSystem } from "../units/length.ts";
import type { Problem } from "../units/problem.ts";
import type { FactTest, Lifted, RuleException, RuleSet, StatedLength } from "./rule-set.ts";

/**
 * A local amendment to a rule set: a larger clearance, stated for each unit system by itself, a struck exception (by its id), or an
 * exception added to those of the edition, with the section or ordinance it is written in.
 * Why it applies (the ordinance, the letter) and by whose decision are shown wherever it bears on an answer.
 */
export type Amendment = { readonly reason: string; readonly authority: string } & (
  | { readonly kind: "larger-clearance"; readonly clearance: StatedLength }
  | { readonly kind: "struck-exception"; readonly exception: string }
  | {
      readonly kind: "added-exception";
      readonly label: string;
      readonly section: string;
      readonly lifts: readonly Lifted[];
      readonly needs: readonly FactTest[];
    }
);

/** An exception that no edition has. Its source is the amendment. */
export interface AddedException {
  readonly by: Extract<Amendment, { kind: "added-exception" }>;
  /** What it needs before it can apply, besides its facts; empty where both are recorded. */
  readonly lacks: readonly Ground[];
}
/** What a local amendment has to say of itself. */
export type Ground = "reason" | "authority";

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
  /** The exceptions put in, also those that lack a reason or an authority and so can only keep an answer open. */
  readonly added: readonly AddedException[];
  /** Of each amendment, by its index: was it applied? */
  readonly applied: readonly boolean[];
  /** What is wrong with amendments, each at the amendment's index. One that asks for less or strikes nothing is left out. */
  readonly problems: readonly Problem[];
}

/**
 * The rule set with local amendments, in order. One that cannot apply is left out and named: `amendment.smaller-clearance`,
 * `amendment.no-such-exception`. A larger clearance and a struck exception make the rule stricter: without a reason or an authority
 * they apply all the same, and are named: `amendment.no-reason`, `amendment.no-authority`. An added exception makes it milder: without
 * both it does not apply, and is named: `amendment.added-no-reason`, `amendment.added-no-authority`.
 */
export function amendRuleSet(set: RuleSet, amendments: readonly Amendment[]): AmendedRules {
  const problems: Problem[] = [];
  const struck: AmendedRules["struck"][number][] = [];
  const added: AddedException[] = [];
  const applied = amendments.map(() => false);
  let rules = set;
  let clearanceBy: Amendment | undefined;
  amendments.forEach((amendment, index) => {
    const complain = (code: string, params: Problem["params"] = {}) =>
      problems.push({ code, where: `${index}`, params });
    const lacks = (["reason", "authority"] as const).filter((ground) => amendment[ground].trim() === "");
    if (amendment.kind === "added-exception") {
      for (const ground of lacks) complain(`amendment.added-no-${ground}`, { label: amendment.label });
      added.push({ by: amendment, lacks });
      applied[index] = lacks.length === 0;
      return;
    }
    for (const ground of lacks) complain(`amendment.no-${ground}`);
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
  return { rules, unamended: set, clearanceBy, struck, added, applied, problems };
}

function inWords(length: Length, system: UnitSystem): string {
  const distance = toInches(length);
  return Number.isFinite(distance) ? formatLength(distance, system) : "nothing";
}
