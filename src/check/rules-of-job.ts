import type { Job } from "../job/schema.ts";
import { type AmendedRules, amendRuleSet } from "../rules/amend.ts";
import type { RuleSet } from "../rules/rule-set.ts";
import { findRuleSet } from "../rules/rule-sets.ts";

/** Answers the rule set with an id, or undefined. */
export type FindRules = (id: string) => RuleSet | undefined;

/** The rule set a job is checked against, with its local amendments; undefined where its edition is not known here. */
export function rulesOfJob(job: Pick<Job, "settings">, find: FindRules = findRuleSet): AmendedRules | undefined {
  const { edition, amendments } = job.settings.job;
  const set = find(edition);
  return set && amendRuleSet(set, amendments ?? []);
}
