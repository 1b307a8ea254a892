import { existsSync, readFileSync } from "node:fs";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, test } from "vitest";
import { readMessages } from "../../../src/pdf/read/messages.ts";
import { type OpenOptions, openPlan, type PdfEngine } from "../../../src/pdf/read/open-plan.ts";
import { readPage, readPlan } from "../../../src/pdf/read/plan-reader.ts";
import type { Result } from "../../../src/units/problem.ts";
import { blankPagePdf, contentPagePdf, pdfOf } from "./tiny-pdf.ts";

const fonts = new URL("../../../node_modules/pdfjs-dist/standard_fonts/", import.meta.url).pathname;
const open = (bytes: Uint8Array, options: OpenOptions = {}) =>
  openPlan({ getDocument } as unknown as PdfEngine, bytes, {
    name: "plan.pdf",
    engineSettings: { standardFontDataUrl: fonts },
    ...options,
  });
const opened = async (bytes: Uint8Array) => {
  const result = await open(bytes);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};
const codes = (result: Result<unknown>) => (result.ok ? [] : result.problems.map((problem) => problem.code));
const ascii = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));
const sheet = { view: [0, 0, 612, 792], rotate: 0, userUnit: 1 } as const;

describe("files that are refused", () => {
  test("an empty file", async () => expect(codes(await open(new Uint8Array()))).toEqual(["pdf.empty"]));
  test("another kind of file", async () =>
    expect(codes(await open(ascii("<html>not here</html>")))).toEqual(["pdf.not-a-pdf"]));
  test("a file cut off early", async () =>
    expect(codes(await open(blankPagePdf(sheet).slice(0, 60)))).toEqual(["pdf.truncated"]));
  test("a file with its end but nothing in it", async () =>
    expect(codes(await open(ascii("%PDF-1.7\nnothing\n%%EOF\n")))).toEqual(["pdf.damaged"]));
  test("no pages", async () => {
    const none = pdfOf(["<< /Type /Catalog /Pages 2 0 R >>", "<< /Type /Pages /Kids [] /Count 0 >>"]);
    expect(codes(await open(none))).toEqual(["pdf.no-pages"]);
  });
  test("a problem names the file", async () =>
    expect(await open(new Uint8Array())).toMatchObject({ problems: [{ where: "plan.pdf" }] }));
});

test("a file cut off after its pages opens with a warning", async () => {
  const whole = blankPagePdf(sheet);
  const plan = await opened(whole.slice(0, whole.length - 20));
  expect(plan.warnings.map((warning) => warning.code)).toEqual(["pdf.end-missing"]);
  await plan.close();
});

test("a page as large as the building opens with a warning", async () => {
  const plan = await opened(blankPagePdf({ view: [0, 0, 14400, 14400], rotate: 0, userUnit: 10 }));
  expect(plan.warnings).toEqual([{ code: "pdf.page-huge", where: "plan.pdf", params: { page: 1, inches: 2000 } }]);
  await plan.close();
});

test("every code has words", () => {
  for (const code of ["pdf.password-needed", "pdf.password-wrong", "pdf.encryption-unknown", "pdf.page-without-size"]) {
    expect(readMessages).toHaveProperty([code]);
  }
});

test("text, notes and elevations of a page, in sheet space", async () => {
  const content = [
    'BT /F1 10 Tf 0 1 -1 0 300 100 Tm (SCALE: 1/8" = 1\'-0") Tj ET',
    "BT /F1 10 Tf 1 0 0 1 50 700 Tm (T.O.S. 118'-3 1/2\") Tj ET",
    "BT /F1 12 Tf 2 0 0 2 50 600 Tm (E) Tj ET",
    "BT /F1 8 Tf 1 0 0 1 50 500 Tm (slope) Tj ET",
    "BT /F1 8 Tf 1 0 0 1 50 480 Tm (more text) Tj ET",
    "BT /F1 30 Tf 1 0 0 1 500 40 Tm (E-201) Tj ET",
  ].join("\n");
  const plan = await opened(contentPagePdf(content));
  const page = await readPage(plan, 1);
  expect(page.label).toBe("E-201");
  expect(page.scaleNotes).toHaveLength(1);
  expect(page.scaleNotes[0]).toMatchObject({ ratio: 96, run: { at: [300, 100], height: 10 } });
  expect(page.scaleNotes[0]!.run.angle).toBeCloseTo(Math.PI / 2, 9);
  expect(page.elevations[0]).toMatchObject({ words: "T.O.S.", value: { value: 1419.5, unit: "in" } });
  expect(page.texts.find((run) => run.text === "E")?.height).toBe(24);
  // Helvetica's E is 667/1000 em wide (Adobe Core 14 AFM).
  expect(page.texts.find((run) => run.text === "E")?.width).toBeCloseTo(0.667 * 24, 1);
  await plan.close();
});

test("layers, with what the file hides to begin with", async () => {
  const layered = pdfOf([
    "<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [4 0 R 5 0 R] /D << /OFF [5 0 R] >> >> >>",
    "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
    "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 100 100] >>",
    "<< /Type /OCG /Name (Ceiling) >>",
    "<< /Type /OCG /Name (Furniture) >>",
  ]);
  const plan = await opened(layered);
  expect(plan.layers).toEqual([
    { id: "4R", name: "Ceiling", shown: true },
    { id: "5R", name: "Furniture", shown: false },
  ]);
  await plan.close();
});

describe("reading can be stopped", () => {
  test("before it starts and after the first page", async () => {
    const two = pdfOf([
      "<< /Type /Catalog /Pages 2 0 R >>",
      "<< /Type /Pages /Kids [3 0 R 4 0 R] /Count 2 >>",
      "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 100 100] >>",
      "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 100 100] >>",
    ]);
    const plan = await opened(two);
    await expect(readPage(plan, 1, AbortSignal.abort(new Error("stop")))).rejects.toThrow("stop");
    const controller = new AbortController();
    const seen: number[] = [];
    const reading = readPlan(plan, {
      signal: controller.signal,
      onProgress: (done) => {
        seen.push(done);
        controller.abort(new Error("enough"));
      },
    });
    await expect(reading).rejects.toThrow("enough");
    expect(seen).toEqual([1]);
    expect((await readPlan(plan, { pages: [2] })).pages.map((page) => page.geometry.page)).toEqual([2]);
    await plan.close();
  });
});

describe.skipIf(!existsSync("../shared/drawings"))("real drawings (skipped where ../shared/drawings is absent)", () => {
  const read = async (name: string, page: number) => {
    const plan = await opened(new Uint8Array(readFileSync(`../shared/drawings/${name}.pdf`)));
    const contents = await readPage(plan, page);
    await plan.close();
    return contents;
  };
  test("the roof plan: its number and its scale, under the plan and in the title block", async () => {
    const roof = await read("metal-building-set", 3);
    expect(roof.label).toBe("A-110");
    expect(roof.scaleNotes.map((note) => note.ratio)).toEqual([256, 256]);
    expect(roof.texts.filter((run) => /^27' ?- ?6"$/.test(run.text)).length).toBeGreaterThan(10);
  });
  test("a sheet with several scales says so in its title block", async () => {
    const sheet = await read("ti-conference-rcp", 1);
    expect(sheet.label).toBe("A100");
    expect(sheet.scaleNotes.map((note) => note.ratio ?? note.kind)).toContain("as-noted");
    expect(new Set(sheet.scaleNotes.map((note) => note.ratio))).toEqual(new Set([48, 360, 4, null]));
  });
  test("roof slopes are found", async () => {
    const roof = await read("house-A103-roof-11x17-reduced", 1);
    expect(new Set(roof.slopes.map((slope) => slope.rise))).toEqual(new Set([7 / 12, 10 / 12, 1 / 96]));
    expect(roof.scaleNotes.map((note) => note.ratio)).toEqual([48, 48]);
  });
});
