import { describe, expect, it, test } from "vitest";
import { surveyPage } from "../../../src/pdf/read/page-survey.ts";
import { paperName } from "../../../src/pdf/read/paper-name.ts";
import { readSheetEntry } from "../../../src/pdf/read/sheet-index.ts";
import { drawLargeSet, largeSetPages } from "./large-set.ts";
import { withPlan } from "./open-bytes.ts";

// Forty pages of the set that the browser opens with two hundred: each kind of page, each turn, each title block comes.
const pages = largeSetPages(40);

test("a page is known by its title block, its size as displayed, its marks, what is on it, and its layers", async () => {
  await withPlan(await drawLargeSet(pages), async (plan) => {
    for (const page of pages) {
      const entry = await readSheetEntry(plan, page.page);
      expect(entry).toMatchObject({
        number: page.number,
        numberFrom: page.number === null ? null : "title-block",
        name: page.name,
        rotate: page.rotate,
        unreadable: false,
      });
      expect(entry.paperIn.map((side) => side * 72)).toEqual(page.size.map((side) => expect.closeTo(side, 6)));
      expect(entry.annotations).toEqual(page.marks > 0 ? { Square: page.marks } : {});
      const { is, layers } = await surveyPage(plan, page.page);
      const named = layers.map((id) => plan.layers.find((layer) => layer.id === id)?.name);
      expect([page.page, is, named]).toEqual([page.page, page.is, page.layers]);
    }
  });
});

test("looking a page over stops with the signal's reason", async () => {
  await withPlan(await drawLargeSet(pages.slice(0, 1)), async (plan) => {
    await expect(surveyPage(plan, 1, AbortSignal.abort(new Error("enough")))).rejects.toThrow("enough");
    await expect(readSheetEntry(plan, 1, AbortSignal.abort(new Error("enough")))).rejects.toThrow("enough");
  });
});

describe("sheet sizes of the trade", () => {
  // Sizes in inches and millimetres, from memory of ANSI/ASME Y14.1 and ISO 216; 30 x 42 and 36 x 48 in. are common practice, no source.
  it.each([
    ["ARCH D", 36, 24, 72],
    ["ANSI D", 22, 34, 72],
    ["ARCH E1", 42, 30, 72],
    ["ARCH E", 48, 36, 72],
    ["ANSI B", 17, 11, 72],
    ["A1", 841, 594, 72 / 25.4],
    ["A0", 841, 1189, 72 / 25.4],
  ] as const)("%s", (name, width, height, unit) => {
    expect(paperName({ width: width * unit, height: height * unit })).toBe(name);
    // Rounded to whole points, as programs write it.
    expect(paperName({ width: Math.round(width * unit), height: Math.round(height * unit) })).toBe(name);
  });

  it("names none that is not exactly one", () => {
    expect(paperName({ width: 36 * 72, height: 24 * 72 - 3 })).toBeNull();
    expect(paperName({ width: 2000, height: 1400 })).toBeNull();
  });
});
