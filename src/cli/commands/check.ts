import { checkJob } from "../../check/check-job.ts";
import { type CheckResult, isQuiet, VERDICTS, type Verdict } from "../../check/finding.ts";
import { type VerdictChange, verdictChanges } from "../../check/verdict-changes.ts";
import { findingsCsv } from "../../issue/findings-csv.ts";
import { findingsJson } from "../../issue/findings-json.ts";
import { findingsText } from "../../issue/findings-text.ts";
import { VERDICT_WORDS } from "../../issue/words.ts";
import type { Job } from "../../job/schema.ts";
import { findRuleSet, ruleSets } from "../../rules/rule-sets.ts";
import { changeWords, loadJob } from "../load-job.ts";
import { problemText } from "../messages.ts";
import type { Outcome } from "../outcome.ts";
import { refuse } from "../refusal.ts";

/** What `check` may be told. */
export interface CheckOptions {
  /** Rule set to check against instead of the job's own. */
  readonly rules?: string;
  /** Rule set to check against as well, to say which verdicts differ. */
  readonly compare?: string;
  readonly format: "text" | "json" | "csv";
  /** In text: every reason under its finding. */
  readonly reasons?: boolean;
  /** Opens an issued PDF that is protected. */
  readonly password?: string;
}

/** `check JOB`: the findings. Notices about the job's own data are messages. Status 1 when any finding needs attention. */
export async function checkCommand(path: string, options: CheckOptions): Promise<Outcome> {
  if (options.compare !== undefined && options.format === "csv") refuse("cli.compare-as-csv");
  const loaded = await loadJob(path, options.password);
  const job = underRules(loaded.job, options.rules);
  const result = checkJob(job);
  const other = options.compare === undefined ? undefined : underRules(loaded.job, options.compare);
  const compared = other && { job: other, result: checkJob(other) };
  return {
    out: written(job, result, compared, options),
    messages: [...changeWords(loaded), ...result.notices.map(problemText), ...noticesOnlyThere(result, compared)],
    status: statusOf(result),
  };
}

/** The exit status of a check: 1 when any finding needs attention. */
export const statusOf = ({ findings }: CheckResult): 0 | 1 =>
  findings.every(({ verdict }) => isQuiet(verdict)) ? 0 : 1;

/** The job under another rule set, or as it is. Refused for a rule set that is not known here. */
export function underRules(job: Job, rules: string | undefined): Job {
  if (rules === undefined || rules === job.settings.job.edition) return job;
  if (!findRuleSet(rules))
    refuse("cli.no-such-rules", "", { id: rules, known: ruleSets.map(({ id }) => id).join(", ") });
  const editionBy = `as asked for here; the job names ${job.settings.job.edition}`;
  return { ...job, settings: { job: { ...job.settings.job, edition: rules, editionBy } } };
}

interface Checked {
  readonly job: Job;
  readonly result: CheckResult;
}

function written(job: Job, result: CheckResult, compared: Checked | undefined, options: CheckOptions): string {
  const { format, reasons } = options;
  if (format === "csv") return findingsCsv(job, result);
  const changes = compared && verdictChanges(result, compared.result);
  if (format === "text") {
    const text = findingsText(job, result, { reasons: reasons ?? false });
    return compared && changes ? `${text}\n${changesText(job, compared.job, changes)}` : text;
  }
  const json = findingsJson(job, result);
  if (!compared) return json;
  const compare = { rules: compared.job.settings.job.edition, counts: countsOf(compared.result), changes };
  return `${JSON.stringify({ ...(JSON.parse(json) as object), compare }, null, 2)}\n`;
}

/** Notices that only the other rule set gives, such as an amendment that strikes an exception it does not have. */
function noticesOnlyThere(result: CheckResult, compared: Checked | undefined): string[] {
  const here = new Set(result.notices.map(problemText));
  const there = compared?.result.notices.map(problemText).filter((text) => !here.has(text)) ?? [];
  return there.map((text) => `Under ${compared?.job.settings.job.edition}: ${text}`);
}

const countsOf = ({ counts }: CheckResult) => Object.fromEntries(VERDICTS.map((verdict) => [verdict, counts[verdict]]));

function changesText(job: Job, other: Job, changes: readonly VerdictChange[]): string {
  const [from, to] = [job, other].map((each) => each.settings.job.edition);
  if (changes.length === 0) return `Under ${to} instead of ${from} no verdict changes.\n`;
  const words = (verdicts: readonly Verdict[]): string =>
    verdicts.map((verdict) => VERDICT_WORDS[verdict].name).join(" and ") || "no finding";
  const lines = changes.flatMap(({ element, before, after, whyBefore, whyAfter }) => [
    `  ${element}: ${words(before)} → ${words(after)}`,
    ...whyBefore.map((text) => `      ${from}: ${text}`),
    ...whyAfter.map((text) => `      ${to}: ${text}`),
  ]);
  return `${[`Under ${to} instead of ${from}:`, ...lines].join("\n")}\n`;
}
