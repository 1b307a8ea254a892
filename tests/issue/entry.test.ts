import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { verdictsAskedFor } from "../../src/check/kinds/kinds.ts";
import type { PathItem } from "../../src/geometry/picture.ts";
import { findingsCsv } from "../../src/issue/findings-csv.ts";
import { findingsJson } from "../../src/issue/findings-json.ts";
import { findingsText } from "../../src/issue/findings-text.ts";
import { VERDICT_INK } from "../../src/issue/inks.ts";
import { marksOf } from "../../src/issue/marks-of.ts";
import { reportPages } from "../../src/issue/report/report-pages.ts";
import { VERDICT_WORDS } from "../../src/issue/words.ts";
import type { Entry } from "../../src/job/elements/entry.ts";
import type { Job } from "../../src/job/schema.ts";
import { box, inchJob, roof, run, tag, withParts } from "../check/inch-job.ts";

const entry: Entry = {
  kind: "entry",
  label: "E-1",
  viewport: "v1",
  at: [300, 200],
  run: "r1",
  enclosure: { is: "box", box: "b1" },
  conductor: "4/0",
  insulation: "THHN",
  protection: { is: "method", method: "insulating-fitting", ratingC: 75 },
  fastened: true,
  beforePulling: true,
};
const wiring = {
  r1: run([
    [100, 200, 100],
    [300, 200, 100],
  ]),
  b1: box(304, 200, tag(100)),
};
const jobOf = (more: Partial<Entry> | null, edition = "us-2023"): Job =>
  withParts(inchJob(edition), { a1: roof(200) }, { ...wiring, ...(more && { e1: { ...entry, ...more } }) });
const job = jobOf({});
const result = checkJob(job);
const pagesOf = (one: Job): string =>
  reportPages(one, checkJob(one), { now: new Date("2026-11-25T10:00:00Z"), author: "" })
    .pages.flat()
    .flatMap((item) => (item.type === "text" ? [item.text] : []))
    .join(" ");

describe("an entry on the sheet", () => {
  const marks = marksOf(job, result);
  const drawn = marks.find(({ key }) => key === "element:e1")!;

  it("is a ring with its gap towards the run, and a bar that comes in from there", () => {
    const [ring, bar] = drawn.picture as PathItem[];
    const points = (item: PathItem) =>
      item.steps.flatMap((step) => (step[0] === "Z" ? [] : [step.slice(-2) as number[]]));
    const start = points(ring!)[0]!;
    const end = points(ring!).at(-1)!;
    // The run comes from the left: both ends of the ring lie left of the entry, one above and one below.
    expect(start[0]).toBeLessThan(300);
    expect(end[0]).toBeLessThan(300);
    expect((start[1]! - 200) * (end[1]! - 200)).toBeLessThan(0);
    const [from, to] = points(bar!);
    expect(from![0]).toBeLessThan(300);
    expect(from![1]).toBeCloseTo(200);
    expect(to).toEqual([300, 200]);
    expect(ring!.stroke).toEqual(VERDICT_INK["entry-unprotected"]);
  });

  it("says what it is, what it enters and what was found", () => {
    expect(drawn.annotation).toMatchObject({ subject: "Conductor entry" });
    expect(drawn.annotation?.contents).toBe("E-1: conductor entry, 4/0 AWG THHN, into B-1. Entry unprotected (No. 1).");
    const texts = drawn.picture.flatMap((item) => (item.type === "text" ? [item.text] : []));
    expect(texts).toEqual(["E-1", "4/0 AWG"]);
    expect(marks.map(({ key }) => key)).toContain("finding:e1:entry-unprotected");
  });

  it("is drawn without a run, and without a scale", () => {
    const alone = jobOf({ run: null, conductor: null });
    expect(marksOf(alone, checkJob(alone)).map(({ key }) => key)).toContain("element:e1");
    const scale = { stated: null, measured: null, use: null };
    const unscaled = { ...job, viewports: { v1: { ...job.viewports.v1!, scale } } };
    expect(marksOf(unscaled, checkJob(unscaled)).map(({ key }) => key)).toContain("element:e1");
    // Nor does the rule need one.
    expect(checkJob(unscaled).findings.find(({ elementId }) => elementId === "e1")?.verdict).toBe("entry-unprotected");
  });
});

describe("the findings of an entry as data", () => {
  it("have no distance", () => {
    const read = JSON.parse(findingsJson(job, result));
    expect(read.counts["entry-unprotected"]).toBe(1);
    expect(read.findings.find((one: { kind: string }) => one.kind === "entry")).toMatchObject({
      element: "E-1",
      verdict: "entry-unprotected",
      section: "300.4(G)",
      edition: "2023",
      requiredIn: 0,
      leastIn: null,
      intervalIn: null,
      at: [300, 200],
      stretches: [],
    });
    const [headings, ...lines] = findingsCsv(job, result)
      .trim()
      .split("\r\n")
      .map((line) => line.split(","));
    const row = lines.find((line) => line.includes("E-1"))!;
    for (const empty of ["required_in", "least_in"]) expect(row[headings!.indexOf(empty)]).toBe("");
    const text = findingsText(job, result);
    expect(text).toContain("E-1: entry unprotected");
    expect(text).toContain("rated 90 °C or higher");
    expect(text).not.toContain('E-1: entry unprotected. 1 1/2"');
  });
});

describe("the report", () => {
  const row = VERDICT_WORDS["entry-unprotected"].legend;
  const count = (text: string): number => text.split(row).length - 1;

  it("counts entries only where some were asked for, since nought of them would read as none wrong", () => {
    expect(verdictsAskedFor(jobOf(null))).not.toContain("entry-unprotected");
    expect(verdictsAskedFor(job)).toContain("entry-unprotected");
    // The list of symbols names it once in either case.
    expect(count(pagesOf(jobOf(null)))).toBe(1);
    expect(count(pagesOf(job))).toBe(2);
    const fine = jobOf({ protection: { is: "method", method: "insulating-fitting", ratingC: 105 } });
    expect(checkJob(fine).counts["entry-unprotected"]).toBe(0);
    expect(count(pagesOf(fine))).toBe(2);
  });

  it("states the rule that entries go by, and no distance for them", () => {
    expect(pagesOf(job)).toContain("300.4(G): conductors of 4 AWG and larger");
    expect(pagesOf(jobOf({}, "us-2017"))).toContain("the rule of the 2017 edition is not written down");
    expect(pagesOf(jobOf(null))).not.toContain("300.4(G)");
    expect(pagesOf(job)).not.toContain("cannot be told");
  });
});
