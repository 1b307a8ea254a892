import { describe, expect, it } from "vitest";
import type { Facts, RuleExample, RuleSet } from "../../src/rules/rule-set.ts";
import { ruleSets } from "../../src/rules/rule-sets.ts";
import { bansConcealment, covers, requiredClearance } from "../../src/rules/scope.ts";
import { tryException } from "../../src/rules/try-exception.ts";
import { toInches } from "../../src/units/length.ts";

const factsOf =
  (example: RuleExample): Facts =>
  (name) => {
    const value = name === "element.class" ? example.element : example.facts[name];
    return value === undefined ? { known: false } : { known: true, value, from: "example" };
  };

/** The plain reading of a rule set: scope, then concealment, then distance, each unless an exception lifts it. */
function settle(set: RuleSet, example: RuleExample): RuleExample["expect"] {
  if (!covers(set, example.element, example.deck)) return "not-governed";
  const trials = set.exceptions.map((exception) => ({
    exception,
    outcome: tryException(exception, factsOf(example), example.units).outcome,
  }));
  const lifted = (what: "clearance" | "concealment") => {
    const about = trials.filter((trial) => trial.exception.lifts.includes(what));
    if (about.some((trial) => trial.outcome === "applies")) return "yes";
    return about.some((trial) => trial.outcome === "lacks a fact") ? "unknown" : "no";
  };
  if (example.concealed && bansConcealment(set, example.deck)) {
    const concealment = lifted("concealment");
    if (concealment !== "yes") return concealment === "no" ? "concealed" : "cannot-tell";
  }
  if (toInches(example.distance) >= requiredClearance(set, example.units)) return "clear";
  const clearance = lifted("clearance");
  return clearance === "yes" ? "not-governed" : clearance === "no" ? "too-close" : "cannot-tell";
}

describe.each(ruleSets.map((set) => [set.id, set] as const))("%s", (_, set) => {
  it.each(set.examples.map((example) => [example.says, example] as const))("%s", (_says, example) => {
    expect(settle(set, example)).toBe(example.expect);
    for (const [id, outcome] of Object.entries(example.exceptions ?? {})) {
      const exception = set.exceptions.find((candidate) => candidate.id === id);
      expect(exception, `no exception ${id}`).toBeDefined();
      expect(tryException(exception!, factsOf(example), example.units).outcome).toBe(outcome);
    }
  });

  it("has an example of every verdict and of every exception applying and not", () => {
    const verdicts = new Set(set.examples.map((example) => example.expect));
    expect([...verdicts].sort()).toEqual([
      "cannot-tell",
      "clear",
      ...(set.concealment ? ["concealed"] : []),
      "not-governed",
      "too-close",
    ]);
    for (const exception of set.exceptions) {
      const outcomes = set.examples.map((example) => example.exceptions?.[exception.id]);
      expect(outcomes, `${exception.id} applying`).toContain("applies");
      expect(outcomes, `${exception.id} not applying`).toContain("does not apply");
    }
  });

  it("asks a question for every fact and ends it as one", () => {
    for (const test of set.exceptions.flatMap((exception) => exception.needs)) expect(test.question).toMatch(/\?/);
  });
});
