import { copyFile, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { VERDICTS } from "../../src/check/finding.ts";
import { parseJobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { writeJobFile } from "../../src/store/job-file.ts";
import { runCommand } from "./run-command.ts";

const example = "docs/examples/hand-calculation.json";

interface Written {
  readonly program: string;
  readonly rules: string;
  readonly job: string;
  readonly counts: Record<string, number>;
  readonly findings: readonly {
    readonly element: string;
    readonly verdict: string;
    readonly leastIn: number | null;
    readonly verticalIn: number | null;
    readonly stretches: readonly { readonly fromIn: number; readonly toIn: number }[];
    readonly remedies: readonly { readonly kind: string; readonly byIn?: number }[];
  }[];
  readonly compare?: { readonly rules: string; readonly changes: readonly unknown[] };
}

const written = async (...args: string[]): Promise<Written> =>
  JSON.parse((await runCommand("check", ...args, "--format", "json")).out) as Written;

let folder: string;
const at = (name: string): string => join(folder, name);

/** The example's job, changed, as a file of its own. */
async function jobAt(name: string, change: (job: Job) => Job): Promise<string> {
  const parsed = parseJobText(await readFile(example, "utf8"));
  if (!parsed.ok) throw new Error("the example is not a job");
  await writeFile(at(name), JSON.stringify(change(parsed.value)));
  return at(name);
}

const only =
  (...ids: string[]) =>
  (job: Job): Job => ({
    ...job,
    elements: Object.fromEntries(Object.entries(job.elements).filter(([id]) => ids.includes(id))),
  });

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "underside-check-"));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe("underside check", () => {
  // By hand: top of steel 113'-6" falling 1/4" per foot, 3/4 EMT (0.922 in., ANSI C80.3) with its bottom 13'-2" above a floor at
  // 100'-0", so its axis is at 1358.461 in. Square to the slope: cos(atan(1/48)) x (3.539 - s/48) - 0.461 at station s.
  const cos = 48 / Math.hypot(48, 1);

  test("comes to what a hand calculation comes to", async () => {
    const { findings } = await written(example);
    const run = findings.find(({ element }) => element === "R-1");
    expect(run?.verdict).toBe("too-close");
    expect(run?.leastIn).toBeCloseTo(cos * (3.539 - 120 / 48) - 0.461, 5);
    expect(run?.verticalIn).toBeCloseTo(3.539 - 2.5 - 0.461, 5);
    expect(run?.stretches).toHaveLength(1);
    expect(run?.stretches[0]?.fromIn).toBeCloseTo(48 * (3.539 - 1.961 / cos), 4);
    expect(run?.stretches[0]?.toIn).toBeCloseTo(120, 6);
    // (1.5 - 0.5778) / cos = 0.9224 in., up to the next sixteenth.
    expect(run?.remedies.find(({ kind }) => kind === "lower")?.byIn).toBe(15 / 16);
  });

  test("writes one object with the counts of every verdict", async () => {
    const { program, rules, job, counts, findings } = await written(example);
    expect([program, rules, job]).toEqual(["underside", "us-2023", "Hand calculation"]);
    expect(Object.keys(counts)).toEqual([...VERDICTS]);
    expect(findings.map(({ element, verdict }) => [element, verdict])).toEqual([
      ["B-1", "cannot-tell"],
      ["R-1", "too-close"],
      ["R-2", "not-governed"],
      ["R-3", "clear"],
      ["R-4", "not-governed"],
    ]);
  });

  test("answers 1 while anything needs attention, 0 when nothing does", async () => {
    expect((await runCommand("check", example)).status).toBe(1);
    expect((await runCommand("check", await jobAt("quiet.json", only("r2", "r3")))).status).toBe(0);
    expect((await runCommand("check", await jobAt("empty.json", only()))).status).toBe(0);
    expect((await runCommand("check", await jobAt("untold.json", only("b1")))).status).toBe(1);
  });

  test("checks against another rule set, and says what it would change", async () => {
    // 2023 speaks of metal-corrugated sheet roof decking, 2026 of any roof decking.
    expect(
      (await written(example, "--rules", "us-2026")).findings.find(({ element }) => element === "R-4")?.verdict,
    ).toBe("too-close");
    const { compare, rules } = await written(example, "--compare", "us-2026");
    expect(rules).toBe("us-2023");
    expect(compare?.rules).toBe("us-2026");
    expect(compare?.changes).toEqual([
      {
        element: "R-4",
        elementId: "r4",
        sheet: "sheet-1",
        before: ["not-governed"],
        after: ["too-close"],
        whyBefore: [
          expect.stringMatching(/2023 rule speaks of metal-corrugated decking, not of wood: R-4 is not governed/),
        ],
        whyAfter: [expect.stringMatching(/^R-4 is .* under the deck of .*; 1 1\/2" is asked for$/)],
      },
    ]);
    const { out } = await runCommand("check", example, "--compare", "us-2026");
    expect(out).toMatch(
      /Under us-2026 instead of us-2023:\n {2}R-4: not governed → too close\n {6}us-2023: The 2023 rule speaks of .*\n {6}us-2026: R-4 is .* is asked for\n$/,
    );
    expect((await runCommand("check", example, "--compare", "us-2023")).out).toMatch(/no verdict changes\.\n$/);
  });

  test("applies local amendments, and names those that the compared edition does not know", async () => {
    const path = await jobAt("amended.json", (job) => ({
      ...job,
      settings: {
        job: {
          ...job.settings.job,
          amendments: [
            { kind: "struck-exception", exception: "rmc-imc-steel", reason: "Ordinance 7", authority: "The AHJ" },
            { kind: "struck-exception", exception: "concrete-cover", reason: "Ordinance 7", authority: "The AHJ" },
          ],
        },
      },
    }));
    const { findings } = await written(path);
    expect(findings.find(({ element }) => element === "R-2")?.verdict).toBe("too-close");
    const { error, out } = await runCommand("check", path, "--compare", "us-2020");
    expect(out).toMatch(/Amended: Exception struck: .*by decision of The AHJ/);
    expect(error).toMatch(/^Under us-2020: Rule set us-2020 has no exception "concrete-cover"/m);
    expect((await runCommand("check", path)).error).toBe("");
  });

  test("carries the cautions where people read it", async () => {
    expect((await runCommand("check", example)).out).toMatch(/not an inspection/);
  });

  test("gives every reason when asked", async () => {
    const { out } = await runCommand("check", example, "--reasons");
    expect(out).toMatch(/ANSI C80\.3/);
    expect(out).toMatch(/Falls from that point by: 1\/4" per foot/);
  });

  test("gives the same bytes for the same job, in each format", async () => {
    for (const format of ["text", "json", "csv"]) {
      const [first, second] = [
        await runCommand("check", example, "--format", format),
        await runCommand("check", example, "--format", format),
      ];
      expect(first.out).not.toBe("");
      expect(first.out).toBe(second.out);
    }
  });

  test("opens a saved job file", async () => {
    const parsed = parseJobText(await readFile(example, "utf8"));
    if (!parsed.ok) throw new Error("the example is not a job");
    await writeFile(at("saved.underside"), await writeJobFile(parsed.value, new Map()));
    expect((await runCommand("check", at("saved.underside"))).out).toBe((await runCommand("check", example)).out);
  });
});

describe("underside check refuses, with status 2, words, and no result,", () => {
  const refused = async (...args: string[]): Promise<string> => {
    const { status, out, error } = await runCommand("check", ...args);
    expect([status, out]).toEqual([2, ""]);
    return error;
  };

  test("a file that is not there", async () => {
    expect(await refused(at("none.json"))).toMatch(/There is no file .*none\.json/);
  });

  test("what is no job, and a PDF that carries none", async () => {
    await writeFile(at("a.txt"), "hello");
    expect(await refused(at("a.txt"))).toMatch(/not a job/);
    await writeFile(at("b.json"), '{"a": 1}');
    expect(await refused(at("b.json"))).toMatch(/not a job/);
    await writeFile(at("c.json"), '{"a": ');
    expect(await refused(at("c.json"))).toMatch(/not readable JSON/);
    await writeFile(at("d.underside"), "PK\x03\x04 and no more");
    expect(await refused(at("d.underside"))).toMatch(/not a job file, or it is damaged/);
  });

  test("a job with problems, naming all of them", async () => {
    const path = await jobAt(
      "bad.json",
      (job) => ({ ...job, more: 1, settings: { job: { ...job.settings.job, extra: 2 } } }) as never,
    );
    const error = await refused(path);
    expect(error.trim().split("\n")).toHaveLength(2);
    expect(error).toMatch(/"more"/);
    expect(error).toMatch(/"extra" at settings\/job/);
  });

  test("a rule set it does not know, and a comparison as CSV", async () => {
    expect(await refused(example, "--rules", "us-1899")).toMatch(/no rule set "us-1899".*us-2023/);
    expect(await refused(example, "--compare", "us-1899")).toMatch(/no rule set "us-1899"/);
    expect(await refused(example, "--compare", "us-2026", "--format", "csv")).toMatch(/text or json/);
  });

  test("two jobs at once", async () => {
    await copyFile(example, at("copy.json"));
    await refused(example, at("copy.json"));
  });
});
