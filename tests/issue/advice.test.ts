import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { ADVICE } from "../../src/issue/advisory-words.ts";
import { briefPages } from "../../src/issue/brief/brief-pages.ts";
import { findingsJson } from "../../src/issue/findings-json.ts";
import { findingsText } from "../../src/issue/findings-text.ts";
import { reportPages } from "../../src/issue/report/report-pages.ts";
import type { Job } from "../../src/job/schema.ts";
import { sampleJob } from "./sample-job.ts";

const inch = (value: number) => ({ value, unit: "in" as const });
const plain = sampleJob();
const [areaId, area] = Object.entries(plain.areas).find(([, { classification }]) => classification.is === "roof")!;
/** A 9 in. screw through 4 in. of insulation and a 0.03 in. sheet: 4.97 in. below the bottom flange. */
const job: Job = {
  ...plain,
  areas: {
    ...plain.areas,
    [areaId]: {
      ...area,
      roofing: {
        fastener: inch(9),
        layers: [{ name: "insulation", thickness: inch(4) }],
        deckThickness: inch(0.03),
        flange: "bottom",
        margin: inch(0.5),
      },
    },
  },
};
const facts = { now: new Date("2026-11-25T10:00:00Z"), author: "" };
const report = (of: Job): string =>
  reportPages(of, checkJob(of), facts)
    .pages.flat()
    .flatMap((item) => ("text" in item ? [item.text] : []))
    .join(" ");

describe("advice in what is issued", () => {
  const result = checkJob(job);

  it("stands below the findings in the text, with its reasons when asked", () => {
    const text = findingsText(job, result);
    expect(text).toMatch(new RegExp(`${ADVICE}:\\n  ${area.label}: The fasteners of .* reach 4\\.97" \\(about 5"`));
    expect(text.indexOf(ADVICE)).toBeGreaterThan(text.indexOf("too close"));
    expect(text).not.toMatch(/Length of the fastener/);
    expect(findingsText(job, result, { reasons: true })).toMatch(/Length of the fastener below its head: 9"/);
    expect(findingsText(plain, checkJob(plain))).not.toContain(ADVICE);
  });

  it("is the last key of the data, and always there", () => {
    const read = JSON.parse(findingsJson(job, result));
    expect(Object.keys(read).at(-1)).toBe("advisories");
    expect(read.advisories[0]).toMatchObject({ area: area.label, reachIn: 4.97, marginIn: 0.5, requiredIn: 1.5 });
    expect(read.advisories[0].reasons.children.length).toBeGreaterThan(3);
    expect(JSON.parse(findingsJson(plain, checkJob(plain))).advisories).toEqual([]);
  });

  it("is told to the crew as well", () => {
    const said = (of: Job): string =>
      briefPages(of, facts)
        .pages.flat()
        .flatMap((item) => ("text" in item ? [item.text] : []))
        .join(" ");
    expect(said(job)).toMatch(/reach 4\.97" \(about 5"\) below its deck/);
    expect(said(plain)).not.toContain(ADVICE);
  });

  it("has a part of its own in the report, said not to be a verdict", () => {
    const words = report(job);
    expect(words).toContain(ADVICE);
    expect(words).toContain("No verdict rests on what follows");
    expect(words).toMatch(/Less insulation 4"/);
    expect(report(plain)).not.toContain(ADVICE);
  });
});
