import us2023 from "./editions/us-2023.json";
import us2026 from "./editions/us-2026.json";
import type { RuleSet } from "./rule-set.ts";
import { assertRuleSet } from "./rule-set-schema.ts";

/** Every rule set, oldest edition first. A new edition is one file and one entry here. */
export const ruleSets: readonly RuleSet[] = [us2023, us2026].map(assertRuleSet);

/** The rule set with this id, or undefined. */
export const findRuleSet = (id: string): RuleSet | undefined => ruleSets.find((set) => set.id === id);
