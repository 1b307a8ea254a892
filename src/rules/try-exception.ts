import { toInches, type UnitSystem } from "../units/length.ts";
import type { ExceptionOutcome, Fact, Facts, FactTest, FactValue, Requirement, RuleException } from "./rule-set.ts";

/** One test as made: the fact read, and whether it passed (undefined: the fact is not known). */
export interface TrailStep {
  readonly test: FactTest;
  readonly fact: Fact;
  readonly passed: boolean | undefined;
}
/** An exception as tried: the outcome, and how it came about. */
export interface ExceptionTrial {
  readonly outcome: ExceptionOutcome;
  readonly trail: readonly TrailStep[];
  /** The tests whose facts are missing, each with its question. Empty when a known fact already settles the matter. */
  readonly missing: readonly FactTest[];
}

/** Lengths closer than this (in.) count as equal, so that "not less than" admits a value given in another unit. */
const EQUAL_WITHIN_IN = 1e-7;

/**
 * Does the exception apply, on the facts recorded? One failed test settles it ("does not apply") whatever else is
 * missing; with none failed and one missing it "lacks a fact". Nothing missing ever counts as passed.
 * A fact of the wrong type counts as not known. An exception that has nothing to ask of this element does not apply to it.
 */
export function tryException(exception: Pick<RuleException, "needs">, facts: Facts, units: UnitSystem): ExceptionTrial {
  const trail: TrailStep[] = [];
  for (const test of exception.needs) {
    if (test.when !== undefined && verdict(test.when.test, facts(test.when.fact), units) === false) continue;
    const fact = facts(test.fact);
    trail.push({ test, fact, passed: verdict(test.test, fact, units) });
  }
  if (trail.length === 0 || trail.some((step) => step.passed === false))
    return { outcome: "does not apply", trail, missing: [] };
  const missing = trail.filter((step) => step.passed === undefined).map((step) => step.test);
  return { outcome: missing.length > 0 ? "lacks a fact" : "applies", trail, missing };
}

/** Whether a known fact already settles that the exception does not apply: what `tryException` comes to then, without the trail. */
export function isRuledOut(exception: Pick<RuleException, "needs">, facts: Facts, units: UnitSystem): boolean {
  let made = 0;
  for (const { when, fact, test } of exception.needs) {
    if (when !== undefined && verdict(when.test, facts(when.fact), units) === false) continue;
    if (verdict(test, facts(fact), units) === false) return true;
    made += 1;
  }
  return made === 0;
}

function verdict(test: Requirement, fact: Fact, units: UnitSystem): boolean | undefined {
  return fact.known ? meets(test, fact.value, units) : undefined;
}

function meets(test: Requirement, value: FactValue, units: UnitSystem): boolean | undefined {
  if ("oneOf" in test) return typeof value === "string" ? test.oneOf.includes(value) : undefined;
  if ("is" in test) return typeof value === "boolean" ? value === test.is : undefined;
  if (typeof value !== "object") return undefined;
  const found = toInches(value);
  if (!Number.isFinite(found)) return undefined;
  return found >= toInches(test.atLeast[units]) - EQUAL_WITHIN_IN;
}
