import { checkMessages } from "../check/messages.ts";
import { rulesOfJob } from "../check/rules-of-job.ts";
import { amendmentText } from "../check/words.ts";
import type { Job } from "../job/schema.ts";
import type { AmendedRules, Amendment } from "../rules/amend.ts";
import { requiredClearance } from "../rules/scope.ts";
import { toInches, type UnitSystem } from "../units/length.ts";
import { showRequired } from "./show-length.ts";

/** The rule a job is checked against, in one line, and by whose decision. */
export function ruleWords(job: Pick<Job, "settings">): string {
  const { edition, editionBy, system } = job.settings.job;
  const amended = rulesOfJob(job);
  const by = editionBy || "by whose decision is not recorded";
  if (!amended) return `Rule set ${edition} is not known to this program (${by})`;
  const { rules, applied } = amended;
  const clearance = showRequired(requiredClearance(rules, system), system);
  const locally = applied.includes(true) ? ", as amended locally" : "";
  return `${rules.code}, ${rules.edition} edition, ${rules.section}${locally}: ${clearance} below the deck (${by})`;
}

/** One line for each local amendment of the job: what it does or why it is left out, what it rests on and by whose decision. */
export function amendmentWords(job: Pick<Job, "settings">): readonly string[] {
  const { amendments = [], system } = job.settings.job;
  const amended = rulesOfJob(job);
  return amendments.map((amendment, index) => {
    const does = amended
      ? effectWords(amendment, index, amended, system)
      : "not applied, since the rule set is not known to this program";
    return `${does} (${amendmentText(amendment)})`;
  });
}

function effectWords(amendment: Amendment, index: number, amended: AmendedRules, system: UnitSystem): string {
  if (!amended.applied[index]) {
    const why = amended.problems
      .filter(({ where }) => where === `${index}`)
      .map(({ code, params, where }) => checkMessages[code]?.(params, where) ?? code);
    return `Left out: ${why.join(" ")}`;
  }
  if (amendment.kind === "struck-exception") {
    const { exception } = amended.struck.find(({ by }) => by === amendment)!;
    return `Exception struck: ${exception.label} (${exception.section})`;
  }
  if (amendment.kind === "added-exception")
    return `Exception added: ${amendment.label} (${amendment.section.trim() || "no section recorded"})`;
  const { [system]: own } = amended.unamended.clearance;
  const [asked, before] = [amendment.clearance[system], own].map((length) => showRequired(toInches(length), system));
  return `Clearance ${asked}, where the edition itself asks for ${before}`;
}
