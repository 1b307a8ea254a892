import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { briefPages } from "../../src/issue/brief/brief-pages.ts";
import { CAUTIONS, SHORT_CAUTION } from "../../src/issue/words.ts";
import { parseJobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";

const facts = { now: new Date("2026-01-31T12:00:00Z"), author: "K. Example" };

function sample(): Job {
  const parsed = parseJobText(readFileSync("samples/riverside-workshop/job.json", "utf8"));
  if (!parsed.ok) throw new Error("the sample is not a job");
  return parsed.value;
}

/** The words of each page, in the order they are drawn. */
const wordsOf = (job: Job): string[] =>
  briefPages(job, facts).pages.map((page) =>
    page.flatMap((item) => (item.type === "text" ? [item.text] : [])).join(" "),
  );

describe("the crew's brief", () => {
  const pages = wordsOf(sample());
  const all = pages.join(" ");

  test("carries the caution on every page and all of them at its end", () => {
    for (const page of pages) expect(page.replaceAll(/\s+/g, " ")).toContain(SHORT_CAUTION.slice(0, 60));
    for (const caution of CAUTIONS) expect(all).toContain(caution);
  });

  // By hand: store deck 144 in. above the floor, tags 1/8", 3/4 EMT 0.922: 144 - 1.5 - 0.125 - 0.461 = 141.914, down to 11'-9 7/8";
  // drop 2.086 in., up to 2 1/8".
  test("gives drops rounded up and elevations rounded down", () => {
    const store = all.slice(all.indexOf("Store roof"));
    expect(store).toMatch(/EMT 3\/4 1 5\/8" 2 1\/8" 2 9\/16" 11'-10 3\/8" 11'-9 7\/8" 11'-9 7\/16"/);
  });

  test("says where nothing may hang yet, and where a floor is above", () => {
    expect(all).toMatch(/Canopy Hang nothing here yet: nobody has settled/);
    expect(all).toMatch(/Loft floor A floor above, not a roof/);
  });

  // MFMA-4 practice: a shallow channel leaves 13/16 in., a deep one 1 5/8 in.
  test("says which supports leave enough", () => {
    expect(all).toMatch(/Shallow strut channel, 13\/16" 13\/16" too little/);
    expect(all).toMatch(/Deep strut channel, 1 5\/8" 1 5\/8" leaves enough/);
  });

  test("lists what the drawings show too close, with what would settle it", () => {
    expect(all).toMatch(/No\. 3 R-2 too close Lower R-2 by/);
  });

  test("tells that nothing can be told of a job without areas", () => {
    expect(wordsOf({ ...sample(), areas: {}, elements: {} }).join(" ")).toMatch(/nothing can be told/);
  });
});
