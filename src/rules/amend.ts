import { formatLength } from "../units/format-length.ts";
import { type Length, toInches } from "../units/length.ts";
import type { Problem, Result } from "../units/problem.ts";
import type { RuleSet } from "./rule-set.ts";

/** A local amendment to a rule set: a larger clearance, a struck exception. The reason is shown with every finding. */
export type Amendment =
  | { readonly kind: "larger-clearance"; readonly clearance: Length; readonly reason: string }
  | { readonly kind: "struck-exception"; readonly exception: string; readonly reason: string };

/**
 * The rule set with local amendments, in order. An amendment only ever makes the rule stricter. Problems, all at once, each at the
 * amendment's index: `amendment.no-reason`, `amendment.smaller-clearance`, `amendment.no-such-exception`.
 */
export function amendRuleSet(set: RuleSet, amendments: readonly Amendment[]): Result<RuleSet> {
  const problems: Problem[] = [];
  let amended = set;
  amendments.forEach((amendment, index) => {
    const refuse = (code: string, params: Problem["params"] = {}) => problems.push({ code, where: `${index}`, params });
    if (amendment.reason.trim() === "") refuse("amendment.no-reason");
    if (amendment.kind === "larger-clearance") {
      const stated = toInches(amended.clearance.imperial);
      const asked = toInches(amendment.clearance);
      if (!(asked >= stated)) {
        const text = (n: typeof asked) => (Number.isFinite(n) ? formatLength(n, "imperial") : "nothing");
        refuse("amendment.smaller-clearance", { stated: text(stated), asked: text(asked) });
      } else amended = { ...amended, clearance: { imperial: amendment.clearance, metric: amendment.clearance } };
    } else if (amended.exceptions.every((exception) => exception.id !== amendment.exception)) {
      refuse("amendment.no-such-exception", { set: set.id, id: amendment.exception });
    } else {
      const exceptions = amended.exceptions.filter((exception) => exception.id !== amendment.exception);
      amended = { ...amended, exceptions };
    }
  });
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: amended };
}
