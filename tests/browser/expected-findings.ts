import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect } from "vitest";
import { runCommand } from "../cli/run-command.ts";
import { SAMPLE } from "./sample-job.ts";

/** A finding as the sample's hand calculation states it. Lengths in inches, stations along the element. */
export interface Expected {
  readonly element: string;
  readonly verdict: string;
  readonly areas: readonly string[];
  readonly leastIn: number | null;
  readonly intervalIn: readonly (number | null)[] | null;
  readonly verticalIn: number | null;
  readonly stretches: readonly (readonly [number, number])[];
}

/** The sample's own arithmetic, done by hand beside its sheets. */
const expected = JSON.parse(readFileSync("samples/riverside-workshop/expected.json", "utf8")) as {
  readonly toleranceIn: number;
  readonly findings: readonly Expected[];
};
/** How far a number may differ from the hand calculation where every place is exact, inches. */
export const EXACT_IN = expected.toleranceIn;

/** How far distances and stations may differ, inches. */
export interface Within {
  readonly distanceIn: number;
  readonly stationIn: number;
}

/** Compares findings, as the program writes them, with what is expected of every element of the sample. */
export const expectWholeSample = (json: string, within: Within): void => expectOf(json, within, () => true);

/** The same for the elements that a job holds of the sample, by label. */
export function expectOf(json: string, within: Within, holds: (element: string) => boolean): void {
  const got = (JSON.parse(json).findings as readonly WrittenFinding[]).map(asExpected);
  const wanted = expected.findings.filter(({ element }) => holds(element));
  expect(verdicts(got)).toEqual(verdicts(wanted));
  for (const theirs of wanted) {
    const mine = got.find(({ element }) => element === theirs.element)!;
    const { element } = theirs;
    expect([...mine.areas].sort(), `areas of ${element}`).toEqual(
      theirs.areas.map((id) => SAMPLE.areas[id]!.label).sort(),
    );
    near([mine.leastIn], [theirs.leastIn], within.distanceIn, `least of ${element}`);
    near(mine.intervalIn ?? [], theirs.intervalIn ?? [], within.distanceIn, `interval of ${element}`);
    near([mine.verticalIn], [theirs.verticalIn], within.distanceIn, `upright distance of ${element}`);
    near(mine.stretches.flat(), theirs.stretches.flat(), within.stationIn, `stretches of ${element}`);
  }
}

const verdicts = (findings: readonly Expected[]) =>
  findings.map(({ element, verdict }) => `${element} ${verdict}`).sort();

/** A finding as the program writes it, as far as it is compared. */
type WrittenFinding = Omit<Expected, "stretches"> & {
  readonly stretches: readonly { readonly fromIn: number; readonly toIn: number }[];
};

const asExpected = (written: WrittenFinding): Expected => ({
  ...written,
  stretches: written.stretches.map(({ fromIn, toIn }) => [fromIn, toIn] as const),
});

/** Numbers agree so far; null only with null. */
function near(mine: readonly (number | null)[], theirs: readonly (number | null)[], within: number, what: string) {
  expect(mine.length, what).toBe(theirs.length);
  mine.forEach((one, i) => {
    const other = theirs[i]!;
    if (one === null || other === null) expect(one, what).toBe(other);
    else expect(Math.abs(one - other), `${what}: ${one} for ${other}`).toBeLessThanOrEqual(within);
  });
}

/** What the command line prints for a job file: its findings as JSON. */
export async function checkedByCommand(jobFile: Uint8Array): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), "underside-job-"));
  try {
    const path = join(folder, "saved.underside");
    writeFileSync(path, jobFile);
    const { status, out } = await runCommand("check", path, "--format", "json");
    // 1: some findings need attention.
    expect(status).toBe(1);
    return out;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
