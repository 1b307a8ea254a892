import { PDFDocument, type PDFFont, PDFName, type PDFPage, PDFString, rgb } from "@cantoo/pdf-lib";
import { describe, expect, test } from "vitest";
import type { Point2 } from "../../../src/geometry/point.ts";
import { findGrid } from "../../../src/pdf/read/find-grid.ts";
import { lineworkCounts } from "../../../src/pdf/read/linework-counts.ts";
import { nearestLine } from "../../../src/pdf/read/nearest-line.ts";
import { surveyPage } from "../../../src/pdf/read/page-survey.ts";
import { readSheet } from "../../../src/pdf/read/read-linework.ts";
import { readScales } from "../../../src/pdf/read/scale-witnesses.ts";
import { tagsIn } from "../../../src/pdf/read/stacked-tags.ts";
import { withPlan } from "./open-bytes.ts";
import { blankSheet, type Pen } from "./sheet-drawing.ts";

const THIN: Pen = { width: 0.4, grey: 0 };
const UPRIGHT = { rotate: 0, corner: [0, 0], userUnit: 1 } as const;

/** All that is read of the first page of a document. */
const readAll = (doc: PDFDocument) =>
  doc.save().then((bytes) =>
    withPlan(bytes, async (plan) => {
      const { contents, linework } = await readSheet(plan, 1);
      const { texts } = contents;
      const grids = findGrid(linework, texts);
      const tags = texts.flatMap((run) => tagsIn(run, texts));
      return {
        contents,
        linework,
        grids,
        tags,
        lines: tags.map(({ run }) => nearestLine(linework, run, grids)),
        scales: readScales({ contents, linework }),
      };
    }),
  );

describe("places where nothing should be", () => {
  const draw = (page: PDFPage, font: PDFFont, [x, y]: Point2) => {
    page.drawText(`EL. 14'-6"`, { x, y, size: 10, font });
    page.drawText(`12'-0"`, { x: x + 100, y: y + 53, size: 8, font });
    page.drawLine({ start: { x: x + 50, y: y + 50 }, end: { x: x + 266, y: y + 50 } });
    for (const at of [x + 50, x + 266])
      page.drawLine({ start: { x: at - 3, y: y + 47 }, end: { x: at + 3, y: y + 53 } });
    page.drawCircle({ x: x + 20, y: y + 20, size: 8, borderWidth: 1, borderColor: rgb(0, 0, 0) });
  };

  test("drawn a thousand million units off the page: what lies on the page is read, and nothing hangs", async () => {
    const doc = await PDFDocument.create();
    const font = await doc.embedFont("Helvetica");
    const page = doc.addPage([1000, 700]);
    for (const far of [1e9, -1e9]) draw(page, font, [far, far]);
    draw(page, font, [300, 300]);
    const { scales, linework, tags } = await readAll(doc);
    expect(scales.dimensions.map(({ text }) => text)).toEqual([`12'-0"`]);
    expect(tags.map(({ value }) => value)).toEqual([174]);
    expect([...linework.coords].every((n) => n >= 0 && n <= 1000)).toBe(true);
  });

  test("a page that itself lies a thousand million units off is read as far as its numbers hold", async () => {
    const doc = await PDFDocument.create();
    const font = await doc.embedFont("Helvetica");
    const page = doc.addPage([1000, 700]);
    page.setMediaBox(1e9, 1e9, 1000, 700);
    draw(page, font, [1e9 + 300, 1e9 + 300]);
    const { contents, linework } = await readAll(doc);
    // 32-bit coordinates are good to 64 units out there: the words are read, and no line is made up.
    expect(contents.elevations.map(({ text }) => text)).toEqual([`EL. 14'-6"`]);
    expect([...linework.coords].every(Number.isFinite)).toBe(true);
  });
});

test("of five thousand layers those used on a page are told, and no more", async () => {
  const doc = await PDFDocument.create();
  const { context } = doc;
  const groups = Array.from({ length: 5000 }, (_, i) =>
    context.register(context.obj({ Type: "OCG", Name: PDFString.of(`L-${i}`) })),
  );
  doc.catalog.set(PDFName.of("OCProperties"), context.obj({ OCGs: groups, D: { ON: groups } }));
  const font = await doc.embedFont("Helvetica");
  for (const used of [[7, 4999], [12]]) {
    const page = doc.addPage([1000, 700]);
    page.drawText("PLAN", { x: 100, y: 100, font });
    const names = Object.fromEntries(used.map((i) => [`G${i}`, groups[i]!]));
    page.node.Resources()!.set(PDFName.of("Properties"), context.obj(names));
    const marks = used.map((i) => `/OC /G${i} BDC 100 ${100 + i / 10} m 500 ${100 + i / 10} l S EMC`).join("\n");
    const content = context.register(context.stream(marks));
    page.node.addContentStream(content);
  }
  await withPlan(await doc.save(), async (plan) => {
    expect(plan.layers).toHaveLength(5000);
    const nameOf = (id: string) => plan.layers.find((layer) => layer.id === id)?.name;
    expect((await surveyPage(plan, 1)).layers.map(nameOf)).toEqual(["L-7", "L-4999"]);
    expect((await surveyPage(plan, 2)).layers.map(nameOf)).toEqual(["L-12"]);
    const { linework } = await readSheet(plan, 1);
    expect(lineworkCounts(linework, plan.layers).layers.map(({ segments }) => segments)).toEqual([1, 1]);
  });
});

test("grid lines A, A.1 and B, 1 and 1.5 stand apart, each with its own bubble", async () => {
  const { doc, draw } = await blankSheet(UPRIGHT);
  const labels = ["A", "A.1", "B", "1", "1.5", "2"];
  for (const [i, label] of labels.entries()) {
    const along = 200 + 90 * (i % 3);
    const [from, to, bubble]: Point2[] =
      i < 3
        ? [
            [100, along],
            [700, along],
            [91, along],
          ]
        : [
            [along, 100],
            [along, 600],
            [along, 91],
          ];
    draw.line(from!, to!, THIN);
    draw.circle(bubble!, 9, THIN);
    draw.text(label, bubble!, 7, true);
  }
  const { grids } = await readAll(doc);
  expect(grids).toHaveLength(1);
  expect(grids[0]!.axes.map(({ label }) => label).sort()).toEqual([...labels].sort());
});

test("marks of the direction of writing among the glyphs are no part of the words", async () => {
  const doc = await PDFDocument.create();
  const { context } = doc;
  const page = doc.addPage([1000, 700]);
  // Byte 0x81 is a right-to-left mark, as the font's own map to Unicode says.
  const map = `/CIDInit /ProcSet findresource begin 12 dict begin begincmap /CMapName /M def /CMapType 2 def
1 begincodespacerange <00> <FF> endcodespacerange 1 beginbfrange <20> <7E> <0020> endbfrange
1 beginbfchar <81> <200F> endbfchar endcmap end end`;
  const font = context.obj({
    Type: "Font",
    Subtype: "Type1",
    BaseFont: "Helvetica",
    Encoding: "WinAnsiEncoding",
    ToUnicode: context.register(context.stream(map)),
  });
  page.node.setFontDictionary(PDFName.of("F"), context.register(font));
  const hex = [0x81, ...Buffer.from(`EL. 14'-6"`, "latin1"), 0x81].map((byte) => byte.toString(16)).join("");
  page.node.addContentStream(context.register(context.stream(`BT /F 10 Tf 300 300 Td <${hex}> Tj ET`)));
  const { contents, tags } = await readAll(doc);
  expect(contents.texts.map(({ text }) => text)).toEqual([`EL. 14'-6"`]);
  expect(tags.map(({ value }) => value)).toEqual([174]);
});
