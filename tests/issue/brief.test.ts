import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { Remedy } from "../../src/check/finding.ts";
import { type BriefLanguage, briefWords } from "../../src/issue/brief/brief-languages.ts";
import { briefPages } from "../../src/issue/brief/brief-pages.ts";
import { dropText, heightText } from "../../src/issue/brief/brief-setting.ts";
import { CAUTIONS, SHORT_CAUTION } from "../../src/issue/words.ts";
import { parseJobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { toInches } from "../../src/units/length.ts";
import { parseLength } from "../../src/units/parse-length.ts";

const REMEDIES = [
  "lower",
  "move",
  "support",
  "change-wiring",
  "record-fact",
  "settle",
  "outline",
  "protect",
] as const satisfies readonly Remedy["kind"][];
const facts = { now: new Date("2026-01-31T12:00:00Z"), author: "K. Example" };

function sample(): Job {
  const parsed = parseJobText(readFileSync("samples/riverside-workshop/job.json", "utf8"));
  if (!parsed.ok) throw new Error("the sample is not a job");
  return parsed.value;
}

/** The words of each page, in the order they are drawn. */
const wordsOf = (job: Job, language: BriefLanguage = "en"): string[] =>
  briefPages(job, facts, language).pages.map((page) =>
    page.flatMap((item) => (item.type === "text" ? [item.text] : [])).join(" "),
  );

/** The page of an area, by its name. */
const pageOf = (pages: readonly string[], name: string): string =>
  pages.find((page) => page.startsWith(name)) ?? `no page begins with ${name}`;

describe("the crew's brief", () => {
  const pages = wordsOf(sample());
  const all = pages.join(" ");

  test("carries the caution on every page and all of them on its first", () => {
    for (const page of pages) expect(page.replaceAll(/\s+/g, " ")).toContain(SHORT_CAUTION.slice(0, 60));
    for (const caution of CAUTIONS) expect(pages[0]).toContain(caution);
  });

  test("gives each area one page", () => {
    const starts = ["How high to hang", "Canopy", "Hall roof", "Loft floor", "Store roof", "Not under an area"];
    expect(pages.map((page) => starts.findIndex((start) => page.startsWith(start)))).toEqual([0, 1, 2, 3, 4, 5]);
  });

  // By hand: store deck 144 in. above the floor, tags 1/8", 3/4 EMT 0.922: top 144 - 1.5 - 0.125 = 142.375, 11'-10 3/8"; centre 0.461 lower, 141.914, down to 11'-9 7/8"; bottom 141.453, down to 11'-9 7/16"; drop 2.086 in., up to 2 1/8".
  test("gives drops rounded up and elevations rounded down", () => {
    expect(pageOf(pages, "Store roof")).toMatch(/EMT 3\/4 11'-9 7\/16" 11'-9 7\/8" 11'-10 3\/8" 2 1\/8"/);
    expect(pageOf(pages, "Store roof")).toContain('Top of anything: at least 1 5/8" below the deck.');
  });

  test("lists only the sizes that lie under an area", () => {
    expect(pageOf(pages, "Store roof")).not.toContain("RMC 3/4");
    expect(pageOf(pages, "Hall roof")).toContain("RMC 3/4");
  });

  test("says where nothing may hang yet, and where a floor is above", () => {
    expect(pageOf(pages, "Canopy")).toMatch(/Hang nothing here yet: nobody has settled/);
    expect(pageOf(pages, "Loft floor")).toMatch(/A floor above, not a roof/);
  });

  // MFMA-4 practice: a shallow channel leaves 13/16 in., a deep one 1 5/8 in.
  test("says which supports leave enough", () => {
    expect(all).toMatch(/Shallow strut channel, 13\/16": leaves 13\/16", too little/);
    expect(all).toMatch(/Deep strut channel, 1 5\/8": leaves 1 5\/8", enough/);
  });

  test("lists what the drawings show too close under each area, where along it, and what to do instead", () => {
    expect(pageOf(pages, "Hall roof")).toMatch(
      /3 R-2 \(1 EMT\): too close, 27'-8" to 30'-0", grid A–B \/ 2–3\. Lower it by 7\/8"/,
    );
    expect(pageOf(pages, "Hall roof")).toMatch(/3, 5: RMC or IMC instead may stay/);
  });

  test("leaves no finding out", () => {
    for (const { number, element } of checkJob(sample()).findings)
      if (number !== null) expect(all).toMatch(new RegExp(`${number} ${element} \\(`));
  });

  test("says where things are by the grid that is kept with a sheet", () => {
    const job = sample();
    const [[id, viewport]] = Object.entries(job.viewports) as [[string, Job["viewports"][string]]];
    const grid = [
      {
        label: "A",
        line: [
          [0, -1e4],
          [0, 1e4],
        ],
      },
      {
        label: "B",
        line: [
          [1e4, -1e4],
          [1e4, 1e4],
        ],
      },
    ] as never;
    const kept = wordsOf({ ...job, viewports: { ...job.viewports, [id]: { ...viewport, grid } } });
    expect(pageOf(kept, "Hall roof")).toMatch(/3 R-2 \(1 EMT\): too close, 27'-8" to 30'-0", grid A–B\. Lower/);
  });

  test("tells that nothing can be told of a job without areas", () => {
    expect(wordsOf({ ...sample(), areas: {}, elements: {} }).join(" ")).toMatch(/nothing can be told/);
  });
});

describe("figures of a brief", () => {
  test("are rounded to the safe side for every 1/64 in. up to 20 ft, and for every half millimetre", () => {
    for (let n = 1; n <= 20 * 12 * 64; n++) {
      const length = n / 64;
      expect(lengthOf(dropText(length, "imperial"))).toBeGreaterThanOrEqual(length);
      expect(lengthOf(heightText(length, "imperial"))).toBeLessThanOrEqual(length);
      expect(lengthOf(dropText(length, "imperial")) - length).toBeLessThan(1 / 16);
    }
    for (let n = 1; n <= 6000; n += 7) {
      const length = n / 2 / 25.4;
      expect(lengthOf(dropText(length, "metric"))).toBeGreaterThanOrEqual(length - 1e-9);
      expect(lengthOf(heightText(length, "metric"))).toBeLessThanOrEqual(length + 1e-9);
    }
  });
});

describe("a brief in another language", () => {
  const english = wordsOfLanguage("en");
  const spanish = wordsOfLanguage("es");

  test("has words of its own for everything that is said", () => {
    const same = Object.entries(english).filter(([key, said]) => said !== "" && spanish[key] === said);
    expect(same).toEqual([]);
  });

  test("gives the same figures, in the same order, on the pages of the same areas", () => {
    const figures = (pages: readonly string[]): string[] =>
      pages.join(" ").match(/\d+'-[\d /]+"|\d+(?: \d+\/\d+)?"/g) ?? [];
    expect(figures(wordsOf(sample(), "es"))).toEqual(figures(wordsOf(sample())));
  });

  test("carries its caution on every page", () => {
    for (const page of wordsOf(sample(), "es"))
      expect(page.replaceAll(/\s+/g, " ")).toContain(briefWords("es").shortCaution.slice(0, 60));
  });
});

/** The length that a text of a brief states, inches. */
function lengthOf(text: string): number {
  const read = parseLength(text);
  if (!read.ok) throw new Error(`${text} is no length`);
  return toInches(read.value);
}

/** Everything a language says, by what it is said for, with the same words put in. */
function wordsOfLanguage(language: "en" | "es"): Record<string, string> {
  const said: Record<string, string> = {};
  const words = briefWords(language);
  const given = ["7/8", "2", "3"];
  for (const [key, value] of Object.entries(words)) {
    if (typeof value === "string") said[key] = value;
    else if (typeof value !== "function")
      for (const [name, text] of Object.entries(value as Record<string, string>)) said[`${key}.${name}`] = text;
    else if (key === "rule")
      said[key] = words.rule({ code: "C", edition: "E", section: "S", clearance: "1", by: "B", amended: true });
    else if (key === "remedy") for (const kind of REMEDIES) said[`remedy.${kind}`] = words.remedy(kind, "7/8", "RMC");
    else if (key === "grid") said[key] = words.grid([{ is: "beyond", line: "A" }]);
    else if (key === "or") said[key] = words.or(["A", "B"]);
    else said[key] = (value as (...given: string[]) => string)(...given);
  }
  return said;
}
