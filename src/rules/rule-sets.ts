import us2008 from "./editions/us-2008.json";
import us2011 from "./editions/us-2011.json";
import us2014 from "./editions/us-2014.json";
import us2017 from "./editions/us-2017.json";
import us2020 from "./editions/us-2020.json";
import us2023 from "./editions/us-2023.json";
import us2026 from "./editions/us-2026.json";
import type { RuleSet } from "./rule-set.ts";
import { assertRuleSet } from "./rule-set-schema.ts";

/** Every rule set, oldest edition first. A new edition is one file and one entry here. */
export const ruleSets: readonly RuleSet[] = [us2008, us2011, us2014, us2017, us2020, us2023, us2026].map(assertRuleSet);

/** The rule set with this id, or undefined. */
export const findRuleSet = (id: string): RuleSet | undefined => ruleSets.find((set) => set.id === id);
