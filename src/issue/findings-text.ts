import { type CheckResult, type Finding, isQuiet, type Reason, VERDICTS } from "../check/finding.ts";
import type { Job } from "../job/schema.ts";
import { ADVICE, advisoryWords } from "./advisory-words.ts";
import { distanceWords, editionWords, stretchWords } from "./finding-sentence.ts";
import { amendmentWords, ruleWords } from "./rule-words.ts";
import { CAUTIONS, capital, findingName, sheetTitle, VERDICT_WORDS } from "./words.ts";

/** The findings as plain text for a terminal or a mail: what needs attention with its remedies, then counts and cautions. */
export function findingsText(job: Job, result: CheckResult, options: { readonly reasons?: boolean } = {}): string {
  const settings = job.settings.job;
  const lines: string[] = [settings.name || "Job without a name", ruleWords(job)];
  lines.push(...amendmentWords(job).map((words) => `  Amended: ${words}`), "");
  const loud = result.findings.filter(({ verdict }) => !isQuiet(verdict));
  if (loud.length === 0) lines.push("Nothing needs attention on the values given.", "");
  for (const finding of loud) lines.push(...findingLines(job, finding, options.reasons ?? false), "");
  for (const verdict of VERDICTS) {
    const count = result.counts[verdict];
    if (count > 0) lines.push(`${String(count).padStart(5)}  ${VERDICT_WORDS[verdict].name}`);
  }
  if (result.advisories.length > 0) lines.push("", `${ADVICE}:`);
  for (const advisory of result.advisories) {
    lines.push(`  ${advisory.area}: ${advisoryWords(advisory)}`);
    if (options.reasons) lines.push(...reasonLines(advisory.reasons, "    "));
  }
  lines.push("", ...CAUTIONS);
  return `${lines.join("\n")}\n`;
}

function findingLines(job: Job, finding: Finding, withReasons: boolean): string[] {
  const { system } = job.settings.job;
  const where = stretchWords(finding, system);
  const distance = distanceWords(finding, system);
  const lines = [
    `${String(finding.number ?? "").padStart(3)}. ${finding.element}: ${findingName(finding)}${where ? ` ${where}` : ""}`,
    `     ${sheetTitle(job, finding.sheet)}${finding.section ? `; ${finding.section}, ${editionWords(finding.edition)}` : ""}`,
  ];
  if (distance) lines.push(`     ${capital(distance)}.`);
  for (const { text } of finding.remedies) lines.push(`     - ${text}`);
  if (withReasons) lines.push(...reasonLines(finding.reasons, "     "));
  return lines;
}

function reasonLines({ text, value, source, children }: Reason, indent: string): string[] {
  const line = `${indent}${text}${value === undefined ? "" : `: ${value}`}${!source ? "" : `  [${source}]`}`;
  return [line, ...children.flatMap((child) => reasonLines(child, `${indent}  `))];
}
