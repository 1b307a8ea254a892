import { type CheckResult, VERDICTS, type Verdict } from "../check/finding.ts";

/** The worst verdict of every element that was checked. */
export function worstByElement(result: CheckResult | null): ReadonlyMap<string, Verdict> {
  const worst = new Map<string, Verdict>();
  for (const { elementId, verdict } of result?.findings ?? []) {
    const before = worst.get(elementId);
    if (before === undefined || VERDICTS.indexOf(verdict) < VERDICTS.indexOf(before)) worst.set(elementId, verdict);
  }
  return worst;
}
