import { readFileSync } from "node:fs";
import { expect } from "vitest";

/** A finding as the sample's hand calculation states it. */
export interface Expected {
  readonly element: string;
  readonly verdict: string;
  readonly leastIn: number | null;
}

/** What the sample's own arithmetic, done by hand beside its sheets, expects of every element. */
export const expectedFindings = (): readonly Expected[] =>
  JSON.parse(readFileSync("samples/riverside-workshop/expected.json", "utf8")).findings;

/**
 * How far a distance may differ from the exact one, inches: a point put by hand is some inches off in plan, and the hall roof falls 1/4 in.
 * a foot.
 */
const BY_HAND_IN = 0.15;

/** Compares findings, as the program writes them, with the expected ones of the elements named. */
export function expectSampleFindings(json: string, elements: readonly string[]): void {
  const got = JSON.parse(json).findings as Expected[];
  const verdicts = (findings: readonly Expected[]) =>
    Object.fromEntries(elements.map((label) => [label, findings.find(({ element }) => element === label)?.verdict]));
  expect(verdicts(got)).toEqual(verdicts(expectedFindings()));
  for (const label of elements) {
    const [mine, theirs] = [got, expectedFindings()].map(
      (list) => list.find(({ element }) => element === label)?.leastIn,
    );
    if (mine == null || theirs == null) expect(mine ?? null, label).toBe(theirs ?? null);
    else expect(Math.abs(mine - theirs), `${label}: ${mine} for ${theirs}`).toBeLessThan(BY_HAND_IN);
  }
}
