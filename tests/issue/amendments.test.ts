import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { briefPages } from "../../src/issue/brief/brief-pages.ts";
import { findingsJson } from "../../src/issue/findings-json.ts";
import { findingsText } from "../../src/issue/findings-text.ts";
import { reportPages } from "../../src/issue/report/report-pages.ts";
import { amendmentWords, ruleWords } from "../../src/issue/rule-words.ts";
import type { Job } from "../../src/job/schema.ts";
import { sampleJob } from "./sample-job.ts";

const grounds = { reason: "Ordinance 7", authority: "Building department of Inventedville" };
const plain = sampleJob();
const job: Job = {
  ...plain,
  settings: {
    job: {
      ...plain.settings.job,
      amendments: [
        {
          kind: "larger-clearance",
          clearance: { imperial: { value: 2, unit: "in" }, metric: { value: 50, unit: "mm" } },
          ...grounds,
        },
        { kind: "struck-exception", exception: "rmc-imc-steel", ...grounds },
        { kind: "struck-exception", exception: "no-such", ...grounds },
      ],
    },
  },
};
const facts = { now: new Date("2026-11-25T10:00:00Z"), author: "" };
const said = ({ pages }: { pages: readonly (readonly object[])[] }): string =>
  pages
    .flat()
    .flatMap((item) => ("text" in item ? [item.text] : []))
    .join(" ");

describe("local amendments in what is issued", () => {
  it("stand in one line each: what they do, what they rest on, by whose decision", () => {
    const [larger, struck, left] = amendmentWords(job);
    expect(larger).toBe(
      'Clearance 2", where the edition itself asks for 1 1/2" (local amendment: Ordinance 7, by decision of Building department of Inventedville)',
    );
    expect(struck).toMatch(/^Exception struck: .* \(300\.6\(E\).*\) \(local amendment: Ordinance 7, by decision of/);
    expect(left).toMatch(/^Left out: Rule set us-2026 has no exception "no-such"/);
    const metric: Job = { ...job, settings: { job: { ...job.settings.job, system: "metric" } } };
    expect(amendmentWords(metric)[0]).toContain("Clearance 50 mm, where the edition itself asks for 38 mm");
    const unknown: Job = { ...job, settings: { job: { ...job.settings.job, edition: "us-1899" } } };
    expect(amendmentWords(unknown).every((words) => words.startsWith("not applied"))).toBe(true);
  });

  it("name an exception added, and one left out for want of an authority", () => {
    const added = {
      kind: "added-exception" as const,
      label: "EMT here",
      section: "",
      lifts: ["clearance"] as const,
      needs: [{ fact: "wiring.kind" as const, test: { oneOf: ["emt"] }, question: "Which kind?" }],
      ...grounds,
    };
    const amendments = [added, { ...added, label: "EMT there", section: "7(b)", authority: "" }];
    const own: Job = { ...plain, settings: { job: { ...plain.settings.job, amendments } } };
    const [first, second] = amendmentWords(own);
    expect(first).toMatch(
      /^Exception added: EMT here \(no section recorded\) \(local amendment: Ordinance 7, by decision of/,
    );
    expect(second).toMatch(/^Left out: .*"EMT there", needs an authority.*by decision of nobody recorded\)$/);
    const brief = said(briefPages(own, facts));
    expect(brief).toContain("EMT here");
    expect(brief.split("EMT there")).toHaveLength(2);
  });

  it("change the rule's own line, and nothing without them", () => {
    expect(ruleWords(job)).toMatch(/, as amended locally: 2" below the deck/);
    expect(ruleWords(plain)).toMatch(/300\.6\(E\): 1 1\/2" below the deck/);
    expect(amendmentWords(plain)).toEqual([]);
  });

  it("are in the text, the data, the report and the brief", () => {
    const result = checkJob(job);
    expect(findingsText(job, result)).toMatch(/\n {2}Amended: Clearance 2".*\n {2}Amended: Exception struck.*\n/);
    const { rules, amendments } = JSON.parse(findingsJson(job, result));
    expect(rules).toBe("us-2026");
    expect(amendments.map((one: { kind: string; applied: boolean }) => [one.kind, one.applied])).toEqual([
      ["larger-clearance", true],
      ["struck-exception", true],
      ["struck-exception", false],
    ]);
    expect(amendments[0]).toMatchObject(grounds);
    const report = said(reportPages(job, result, facts));
    expect(report).toContain("Local amendment 1");
    expect(report).toMatch(/Clearance 2"\. /);
    expect(report).toContain('has no exception "no-such"');
    const brief = said(briefPages(job, facts));
    expect(brief).toContain('2" is needed above the tube');
    expect(brief).toContain("Ordinance 7");
    // The struck exception is no way out any more.
    const ways = (text: string) => text.split("By exception").length - 1;
    expect(ways(brief)).toBe(ways(said(briefPages(plain, facts))) - 1);
    // A deep channel leaves 1 5/8": enough for the edition, too little here.
    expect(brief).toContain(`Deep strut channel, 1 5/8": leaves 1 5/8", too little.`);
  });
});
