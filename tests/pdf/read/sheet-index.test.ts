import { existsSync, readFileSync } from "node:fs";
import { degrees, PDFDocument, PDFName } from "@cantoo/pdf-lib";
import { describe, expect, it, test } from "vitest";
import { pageMakeup } from "../../../src/pdf/read/page-makeup.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { readLinework } from "../../../src/pdf/read/read-linework.ts";
import { oddNumbers, readSheetIndex } from "../../../src/pdf/read/sheet-index.ts";
import { titleOfSheet } from "../../../src/pdf/read/title-block.ts";
import { withPlan } from "./open-bytes.ts";
import { sheetTruths } from "./witness-truths.ts";

describe("title blocks, written down by eye beforehand (drawings not at hand are skipped)", () => {
  it.each(sheetTruths.map((truth) => [`${truth.file} ${truth.page}`, truth] as const))("%s", async (name, truth) => {
    if (!existsSync(truth.file)) return console.info(`skipped: ${name}`);
    await withPlan(new Uint8Array(readFileSync(truth.file)), async (plan) => {
      const { geometry, texts } = await readPage(plan, truth.page);
      const title = titleOfSheet(geometry, texts);
      expect([title.number?.text ?? null, title.name]).toEqual([truth.number, truth.name]);
    });
  });
});

/** A set drawn by another library: a title block on each page, a mark on every third. */
async function drawnSet(numbers: readonly string[], rotate: 0 | 90 | 180 | 270): Promise<Uint8Array> {
  const doc = await PDFDocument.create();
  const font = await doc.embedFont("Helvetica");
  for (const [i, number] of numbers.entries()) {
    const page = doc.addPage(rotate % 180 === 0 ? [1000, 700] : [700, 1000]);
    page.setRotation(degrees(rotate));
    // ISO 32000-2, table 31: Rotate turns clockwise when displayed.
    const at = (x: number, y: number) =>
      rotate === 0
        ? { x, y }
        : rotate === 90
          ? { x: 700 - y, y: x }
          : rotate === 180
            ? { x: 1000 - x, y: 700 - y }
            : { x: y, y: 1000 - x };
    const write = (text: string, x: number, y: number, size: number) =>
      page.drawText(text, { ...at(x, y), size, font, rotate: degrees(rotate) });
    for (let line = 0; line < 12; line++) write(`A note of the sheet, line ${line}`, 60, 400 + 12 * line, 6);
    write("SHEET TITLE", 850, 130, 4);
    write("LIGHTING PLAN,", 850, 115, 10);
    write(`LEVEL ${i + 1}`, 850, 102, 10);
    write("SCALE", 850, 85, 4);
    write(number, 860, 40, 24);
    if (i % 3 === 0) {
      const mark = doc.context.register(doc.context.obj({ Type: "Annot", Subtype: "Square", Rect: [10, 10, 60, 60] }));
      page.node.set(PDFName.of("Annots"), doc.context.obj([mark]));
    }
  }
  return doc.save();
}

test.each([0, 90, 180, 270] as const)(
  "a set of pages turned by %d is listed with names, marks and progress",
  async (rotate) => {
    const numbers = ["E-101", "E-102", "E-104", "E-104", "E-301"];
    await withPlan(await drawnSet(numbers, rotate), async (plan) => {
      const seen: number[] = [];
      const index = await readSheetIndex(plan, { onSheet: (_, done) => seen.push(done) });
      expect(index.sheets.map(({ number, name }) => [number, name])).toEqual(
        numbers.map((number, i) => [number, `LIGHTING PLAN, LEVEL ${i + 1}`]),
      );
      expect(index.sheets.map(({ annotations }) => annotations.Square ?? 0)).toEqual([1, 0, 0, 1, 0]);
      expect(index.sheets[0]).toMatchObject({ rotate, paperIn: [1000 / 72, 700 / 72] });
      expect(index.duplicates).toEqual([{ number: "E-104", pages: [3, 4] }]);
      expect(index.gaps).toEqual(["E-103"]);
      expect(seen).toEqual([1, 2, 3, 4, 5]);
    });
  },
);

test("two hundred sheets are read as they are asked for, and no farther once stopped", async () => {
  const numbers = Array.from({ length: 200 }, (_, i) => `A-${String(i + 1).padStart(3, "0")}`);
  await withPlan(await drawnSet(numbers, 0), async (plan) => {
    const stop = new AbortController();
    const seen: number[] = [];
    await expect(
      readSheetIndex(plan, {
        signal: stop.signal,
        onSheet: (_, done, of) => {
          seen.push(done);
          expect(of).toBe(200);
          if (done === 3) stop.abort(new Error("enough"));
        },
      }),
    ).rejects.toThrow("enough");
    expect(seen).toEqual([1, 2, 3]);
  });
});

test("a long jump is a way of counting, not a gap", () => {
  expect(
    oddNumbers([
      { page: 1, number: "A-101" },
      { page: 2, number: "A-201" },
      { page: 3, number: null },
    ]),
  ).toEqual({
    duplicates: [],
    gaps: [],
  });
});

test("a page that is one large picture is told from a drawing", async () => {
  const doc = await PDFDocument.create();
  const dot = await doc.embedPng(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==",
  );
  doc.addPage([1000, 700]).drawImage(dot, { x: 20, y: 20, width: 960, height: 660 });
  doc.addPage([1000, 700]).drawImage(dot, { x: 20, y: 20, width: 60, height: 60 });
  await withPlan(await doc.save(), async (plan) => {
    for (const [page, largeImages, isPicture] of [
      [1, 1, true],
      [2, 0, false],
    ] as const)
      expect(await pageMakeup(plan, page, (await readLinework(plan, page)).count)).toEqual({ largeImages, isPicture });
  });
});
