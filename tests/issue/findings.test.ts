import { describe, expect, it } from "vitest";
import { VERDICTS } from "../../src/check/finding.ts";
import { findingSentence } from "../../src/issue/finding-sentence.ts";
import { findingsCsv } from "../../src/issue/findings-csv.ts";
import { findingsJson } from "../../src/issue/findings-json.ts";
import { findingsText } from "../../src/issue/findings-text.ts";
import { CAUTIONS } from "../../src/issue/words.ts";
import { sampleJob, sampleResult } from "./sample-job.ts";

const job = sampleJob();
const result = sampleResult();

describe("findingsJson", () => {
  const text = findingsJson(job, result);
  const read = JSON.parse(text);

  it("is one object with its keys in order, every verdict counted", () => {
    expect(Object.keys(read)).toEqual(["program", "rules", "job", "counts", "findings", "amendments", "advisories"]);
    expect(read.rules).toBe("us-2026");
    expect(Object.keys(read.counts)).toEqual([...VERDICTS]);
    expect(Object.values(read.counts).reduce((a, b) => Number(a) + Number(b), 0)).toBe(result.findings.length);
  });

  it("gives each finding its keys in order, more only at the end", () => {
    const keys = [
      "element",
      "kind",
      "verdict",
      "section",
      "edition",
      "requiredIn",
      "leastIn",
      "intervalIn",
      "sheet",
      "at",
      "stretches",
      "reasons",
      "remedies",
    ];
    for (const finding of read.findings) expect(Object.keys(finding).slice(0, keys.length)).toEqual(keys);
    expect(read.findings.map((f: { element: string }) => f.element)).toEqual(result.findings.map((f) => f.element));
  });

  it("writes the same bytes each time, without minus nought or digits that machines disagree on", () => {
    expect(findingsJson(job, result)).toBe(text);
    const shaky = { ...result.findings[0]!, leastIn: -0, requiredIn: 0.1 + 0.2, at: [1 / 3, -1e-12] as const };
    const [finding] = JSON.parse(findingsJson(job, { ...result, findings: [shaky] })).findings;
    expect(finding.requiredIn).toBe(0.3);
    expect(Object.is(finding.leastIn, 0) && Object.is(finding.at[1], 0)).toBe(true);
    expect(finding.at[0]).toBe(0.333333);
  });

  it("keeps what cannot be told as null, and a reason's children always", () => {
    const open = read.findings.find((f: { element: string }) => f.element === "F-1");
    expect(open.leastIn).toBeNull();
    expect(open.intervalIn).toBeNull();
    expect(open.reasons.children[0].children[0].children).toEqual([]);
  });
});

describe("findingsCsv", () => {
  it("has a line of headings and one a finding, ended by CRLF (RFC 4180)", () => {
    const lines = findingsCsv(job, result).split("\r\n");
    expect(lines.pop()).toBe("");
    expect(lines).toHaveLength(result.findings.length + 1);
    expect(lines[0]!.startsWith("number,sheet,element,kind,verdict,section,edition,required_in,least_in")).toBe(true);
  });

  it.each(["=1+1", "+1", "-1", "@x", "\tx"])("makes a label that starts as %s harmless to a spreadsheet", (label) => {
    const finding = { ...result.findings[0]!, element: label };
    const cell = findingsCsv(job, { ...result, findings: [finding] })
      .split("\r\n")[1]!
      .split(",")[2];
    expect(cell).toBe(`'${label}`);
  });

  it("doubles quotes, and leaves negative numbers numbers", () => {
    const finding = { ...result.findings[0]!, element: 'say "so", twice', leastIn: -0.25 };
    const line = findingsCsv(job, { ...result, findings: [finding] }).split("\r\n")[1]!;
    expect(line).toContain('"say ""so"", twice"');
    expect(line).toContain(",-0.25,");
  });
});

describe("findingsText", () => {
  it("lists what needs attention in order, and ends with every caution", () => {
    const text = findingsText(job, result);
    const numbers = [...text.matchAll(/^ *(\d+)\. /gm)].map((match) => Number(match[1]));
    expect(numbers).toEqual([1, 2, 3, 4, 5, 6, 7]);
    for (const caution of CAUTIONS) expect(text).toContain(caution);
    expect(text).not.toContain("Outside diameter");
    expect(findingsText(job, result, { reasons: true })).toContain("Outside diameter");
  });
});

describe("findingSentence", () => {
  it("says what, where, how far and by which rule", () => {
    const finding = result.findings.find(({ element }) => element === "R-1")!;
    expect(findingSentence(finding, "imperial")).toBe(
      `No. 5. R-1: too close between 12'-4" and 19'-0" and between 26'-8" and 33'-4". 0.875" (about 7/8") to the deck; 1 1/2" required. 300.6(E), 2026 edition.`.replace(
        '0.875" (about 7/8")',
        '7/8"',
      ),
    );
  });
});
