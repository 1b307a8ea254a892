import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { CheckResult } from "../../src/check/finding.ts";
import type { Picture, TextItem } from "../../src/geometry/picture.ts";
import { pictureBounds } from "../../src/issue/place-picture.ts";
import type { Block } from "../../src/issue/report/block.ts";
import { paginate, type SetPage } from "../../src/issue/report/paginate.ts";
import { reportPages } from "../../src/issue/report/report-pages.ts";
import { pagesPdf } from "../../src/issue/report/report-pdf.ts";
import { wrapText } from "../../src/issue/report/wrap-text.ts";
import { textWidth } from "../../src/issue/text-width.ts";
import { ASSUMPTIONS, CAUTIONS, SHORT_CAUTION } from "../../src/issue/words.ts";
import type { Job } from "../../src/job/schema.ts";
import { fontBytes } from "./font-bytes.ts";
import { sampleJob, sampleResult } from "./sample-job.ts";

const NOW = new Date("2026-11-25T10:00:00Z");
const FACTS = { now: NOW, author: "P. Ternhill" };
const job = sampleJob();
const texts = (page: Picture): TextItem[] => page.filter((item): item is TextItem => item.type === "text");
const words = (page: Picture): string =>
  texts(page)
    .map(({ text }) => text)
    .join(" ");

/** Long names everywhere, and many findings: what a layout has to survive. */
function longWinded(): { job: Job; result: CheckResult } {
  const long = "Extraordinarily long name of a thing that somebody typed without ever stopping for breath ".repeat(3);
  const result = sampleResult();
  const findings = Array.from({ length: 6 }, () => result.findings).flat();
  return {
    job: {
      ...job,
      settings: { job: { ...job.settings.job, name: long, editionBy: long, system: "metric" } },
      sheets: Object.fromEntries(
        Object.entries(job.sheets).map(([id, sheet]) => [
          id,
          { ...sheet, title: long, file: { ...sheet.file, name: `${"x".repeat(180)}.pdf` } },
        ]),
      ),
    },
    result: {
      ...result,
      findings: findings.map((finding, i) => ({
        ...finding,
        number: i + 1,
        remedies: finding.remedies,
        reasons: {
          ...finding.reasons,
          text: i === 3 ? long.repeat(60) : long,
          value: "a value that is rather long for its column, and wraps",
        },
      })),
    },
  };
}

describe("reportPages", () => {
  const { pages, size } = reportPages(job, sampleResult(), FACTS);

  it("carries the short caution and its number on every page, and the cautions in full at the end", () => {
    pages.forEach((page, i) => {
      expect(words(page)).toContain(SHORT_CAUTION.slice(0, 60));
      expect(words(page)).toContain("Never drill a roof");
      expect(words(page)).toContain(`Page ${i + 1} of ${pages.length}`);
    });
    for (const caution of CAUTIONS) expect(words(pages.at(-1)!)).toContain(caution);
  });

  it("names the rule, who decided on it, and the assumptions", () => {
    const all = pages.map(words).join(" ");
    expect(all).toContain("NFPA 70, 2026 edition, 300.6(E)");
    expect(all).toContain("Town of Ternmouth, building department");
    for (const text of ASSUMPTIONS) expect(all).toContain(text.slice(0, 50));
    const unsaid = { ...job, settings: { job: { ...job.settings.job, editionBy: "" } } };
    expect(words(reportPages(unsaid, sampleResult(), FACTS).pages[0]!)).toContain("Not recorded");
  });

  it("numbers the findings as the sheets do", () => {
    const numbers = pages.flatMap((page) =>
      texts(page)
        .filter(({ size: em, face }) => em === 12 && face === "bold")
        .map(({ text }) => text),
    );
    const shown = numbers.filter((text) => /^\d+$/.test(text));
    expect(shown).toEqual(["1", "2", "3", "4", "5", "6", "7"]);
  });

  it("draws the profile of a run once", () => {
    const checked = checkJob(job);
    const twice = checked.findings.flatMap((finding) => [finding, finding]);
    const all = reportPages(job, { ...checked, findings: twice }, FACTS)
      .pages.map(words)
      .join(" ");
    expect(all.split("Stations along R-1").length - 1).toBe(1);
  });

  it("says so when nothing needs attention", () => {
    const quiet = sampleResult().findings.filter(({ number }) => number === null);
    const result = { ...sampleResult(), findings: quiet };
    const all = reportPages(job, result, FACTS).pages.map(words).join(" ");
    expect(all).toContain("Nothing needs attention on the values given.");
    expect(all).not.toContain("Findings that need attention");
  });

  it.each([
    ["as usual", { job, result: sampleResult() }],
    ["with long names and many findings", longWinded()],
  ])("keeps within the margins and never sets words over words, %s", (_, { job: some, result }) => {
    const report = reportPages(some, result, FACTS);
    for (const [n, whole] of report.pages.entries()) {
      // What is cut from a sheet lies as it does there.
      const cut = report.stretches[n]!.filter(({ clip }) => clip);
      const page = whole.filter((_, i) => !cut.some(({ from, to }) => i >= from && i < to));
      const boxes = texts(page)
        .filter(({ text }) => text.trim() !== "")
        .map((item) => ({ item, box: pictureBounds([item])! }));
      for (const { item, box } of boxes) {
        expect(box[0], item.text).toBeGreaterThan(20);
        expect(box[2], item.text).toBeLessThan(report.size[0] - 20);
        expect(box[1], item.text).toBeGreaterThan(15);
        expect(box[3], item.text).toBeLessThan(report.size[1] - 20);
      }
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) {
          const across = Math.min(a.box[2], b.box[2]) - Math.max(a.box[0], b.box[0]);
          const up = Math.min(a.box[3], b.box[3]) - Math.max(a.box[1], b.box[1]);
          expect(across > 0.5 && up > 1, `"${a.item.text}" over "${b.item.text}"`).toBe(false);
        }
      });
    }
    expect(size[0]).toBeGreaterThan(0);
  });
});

describe("paginate", () => {
  const block = (height: number, keep = false, before = 0): Block => ({
    height,
    keep,
    before,
    draw: (x, top) => [
      {
        picture: [
          {
            type: "path",
            steps: [
              ["M", x, top],
              ["L", x, top - height],
            ],
            stroke: { r: 0, g: 0, b: 0 },
            width: 1,
          },
        ],
      },
    ],
  });
  const box = { left: 0, top: 100, bottom: 0 };
  const tops = (pages: SetPage[]) =>
    pages.map(({ items }) => items.map((item) => (item.type === "path" ? item.steps[0]![2] : undefined)));

  it("moves a chain as a whole, and leaves out the room above at the top of a page", () => {
    expect(tops(paginate([block(60), block(30, true, 5), block(30, false, 5)], box))).toEqual([[100], [100, 65]]);
  });

  it("breaks a chain that is taller than a page where it must", () => {
    expect(tops(paginate([block(40, true), block(40, true), block(40)], box))).toEqual([[100, 60], [100]]);
  });

  it("refuses a block taller than a page", () => {
    expect(() => paginate([block(101)], box)).toThrow(/101/);
  });
});

describe("wrapText", () => {
  it("never ends a line inside a length", () => {
    const text = "at 12'-6 1/2\" or 13'-1 15/16\" or 3810 mm and 38 mm";
    for (let width = 55; width < 140; width++) {
      const lines = wrapText(text, width, 9, "regular");
      for (const line of lines) expect(line, `${width}`).not.toMatch(/\d$|^\d+\/\d|^mm/);
    }
  });

  it("keeps every line within the width and loses nothing", () => {
    const text = "A run of words, some of them_quite_unreasonably_long_and_without_a_space, to be wrapped";
    const lines = wrapText(text, 60, 9, "regular");
    for (const line of lines) expect(textWidth(line, 9, "regular")).toBeLessThanOrEqual(60);
    expect(lines.join("").replaceAll(" ", "")).toBe(text.replaceAll(" ", ""));
  });
});

describe("pagesPdf", () => {
  const report = reportPages(job, sampleResult(), FACTS);
  const about = { title: "Tern Street", author: "P. Ternhill", now: NOW };

  it("gives the same bytes each time", async () => {
    const [a, b] = [await pagesPdf(report, fontBytes, about), await pagesPdf(report, fontBytes, about)];
    expect(a.ok && b.ok && Buffer.from(a.value).equals(Buffer.from(b.value))).toBe(true);
  });

  it("refuses a character no face has, by name", async () => {
    const odd: Job = { ...job, settings: { job: { ...job.settings.job, name: "屋根の下 →" } } };
    const made = await pagesPdf(reportPages(odd, sampleResult(), FACTS), fontBytes, about);
    expect(made.ok).toBe(false);
    if (made.ok) return;
    expect(made.problems[0]).toMatchObject({ code: "issue.missing-glyph", params: { face: "regular" } });
    expect(String(made.problems[0]!.params.characters)).toContain("屋");
  });

  it("refuses bytes that are no font", async () => {
    const made = await pagesPdf(report, { ...fontBytes, bold: new Uint8Array([1, 2, 3]) }, about);
    expect(made.ok ? [] : made.problems.map(({ code, params }) => [code, params.face])).toEqual([
      ["issue.bad-font", "bold"],
    ]);
  });
});
