import type { RuleSet } from "./rule-set.ts";

/** Every rule set, oldest edition first. */
export const ruleSets: readonly RuleSet[] = [];

/** The rule set with this id, or undefined. */
export const findRuleSet = (id: string): RuleSet | undefined => ruleSets.find((set) => set.id === id);
