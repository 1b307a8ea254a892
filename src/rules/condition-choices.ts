import type { FactName, FactTest } from "./rule-set.ts";
import { ruleSets } from "./rule-sets.ts";

/**
 * What an exception can ask for: each fact that an exception of some edition asks for, once, as the newest edition that does so states
 * and words it.
 */
export const conditionChoices: readonly FactTest[] = [
  ...new Map<FactName, FactTest>(
    ruleSets.flatMap(({ exceptions }) => exceptions.flatMap(({ needs }) => needs)).map((test) => [test.fact, test]),
  ).values(),
];
