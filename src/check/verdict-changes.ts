import { type CheckResult, type Finding, VERDICTS, type Verdict } from "./finding.ts";
import { VERDICT_WORDS } from "./words.ts";

/** An element that comes off differently in two checks of one job: its verdicts in each, worst first, and what led to them. */
export interface VerdictChange {
  readonly element: string;
  readonly elementId: string;
  readonly sheet: string;
  readonly before: readonly Verdict[];
  readonly after: readonly Verdict[];
  /** What each finding of the element comes down to, before and after: the distances, the scope or the exception that decided. */
  readonly whyBefore: readonly string[];
  readonly whyAfter: readonly string[];
}

/**
 * What differs between two checks of the same elements, such as under two editions: one entry for each element whose verdicts are
 * not the same, in the order of the findings. Distances and reasons may differ where verdicts do not; those are not listed.
 */
export function verdictChanges(before: CheckResult, after: CheckResult): readonly VerdictChange[] {
  const then = byElement(after.findings);
  return [...byElement(before.findings)].flatMap(([elementId, findings]) => {
    const others = then.get(elementId) ?? [];
    const [first] = findings;
    const [was, is] = [verdictsOf(findings), verdictsOf(others)];
    if (!first || was.join() === is.join()) return [];
    const [whyBefore, whyAfter] = [findings.flatMap(why), others.flatMap(why)];
    return [{ element: first.element, elementId, sheet: first.sheet, before: was, after: is, whyBefore, whyAfter }];
  });
}

/** What a finding comes down to: its first reason, or those of its parts where it gathers several under one verdict. */
function why({ element, verdict, reasons }: Finding): readonly string[] {
  const gathers = reasons.text === `${element}: ${VERDICT_WORDS[verdict]}` && reasons.children.length > 0;
  return gathers ? reasons.children.map(({ text }) => text) : [reasons.text];
}

function byElement(findings: readonly Finding[]): Map<string, Finding[]> {
  const found = new Map<string, Finding[]>();
  for (const finding of findings) {
    const list = found.get(finding.elementId);
    if (list) list.push(finding);
    else found.set(finding.elementId, [finding]);
  }
  return found;
}

const verdictsOf = (findings: readonly Finding[]): Verdict[] =>
  VERDICTS.filter((verdict) => findings.some((finding) => finding.verdict === verdict));
