import type { Job } from "../job/schema.ts";
import { findRuleSet } from "../rules/rule-sets.ts";
import { toInches } from "../units/length.ts";
import { showRequired } from "./show-length.ts";

/** The rule a job is checked against, in one line, and by whose decision. */
export function ruleWords(job: Job): string {
  const { edition, editionBy, system } = job.settings.job;
  const set = findRuleSet(edition);
  const by = editionBy || "by whose decision is not recorded";
  if (!set) return `Rule set ${edition} is not known to this program (${by})`;
  const clearance = showRequired(toInches(set.clearance[system]), system);
  return `${set.code}, ${set.edition} edition, ${set.section}: ${clearance} below the deck (${by})`;
}
