import {
  concatTransformationMatrix,
  degrees,
  PDFDocument,
  type PDFFont,
  type PDFPage,
  popGraphicsState,
  pushGraphicsState,
} from "@cantoo/pdf-lib";
import { expect, test } from "vitest";
import { findGrid } from "../../../src/pdf/read/find-grid.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { readLinework } from "../../../src/pdf/read/read-linework.ts";
import { runNoteIn } from "../../../src/pdf/read/run-notes.ts";
import { readScales } from "../../../src/pdf/read/scale-witnesses.ts";
import { tagsIn } from "../../../src/pdf/read/stacked-tags.ts";
import { textKind } from "../../../src/pdf/read/text-kind.ts";
import { titleOfSheet } from "../../../src/pdf/read/title-block.ts";
import { withPlan } from "./open-bytes.ts";

/** Everything the recognisers make of a page drawn by another library. */
async function readDrawn(draw: (page: PDFPage, font: PDFFont) => void | Promise<void>) {
  const doc = await PDFDocument.create();
  const page = doc.addPage([1000, 700]);
  await draw(page, await doc.embedFont("Helvetica"));
  const bytes = await doc.save();
  return withPlan(bytes, async (plan) => {
    const contents = await readPage(plan, 1);
    const linework = await readLinework(plan, 1);
    const { texts } = contents;
    return {
      contents,
      linework,
      kind: textKind(contents, linework),
      scales: readScales({ contents, linework }),
      grids: findGrid(linework, texts),
      tags: texts.flatMap((run) => tagsIn(run, texts)),
      runNotes: texts.flatMap((run) => runNoteIn(run) ?? []),
      title: titleOfSheet(contents.geometry, texts),
    };
  });
}

const WORDS = [`EL. 14'-6"`, `3/4"C 2#10, 1#10G`, `1/4" = 1'-0"`, "2%", `12'-0"`];
const lines = (page: PDFPage, font: PDFFont, words: readonly string[] = WORDS) => {
  for (const [i, text] of words.entries()) page.drawText(text, { x: 200, y: 300 - 40 * i, size: 10, font });
};
const counted = (found: Awaited<ReturnType<typeof readDrawn>>) => ({
  texts: found.contents.texts.length,
  mirrored: found.contents.mirrored?.length ?? 0,
  tags: found.tags.length,
  runNotes: found.runNotes.length,
  scaleNotes: found.contents.scaleNotes.length,
  slopes: found.contents.slopes.length,
});
const ALL = { texts: 5, mirrored: 0, tags: 1, runNotes: 1, scaleNotes: 1, slopes: 1 };

test("what reads as it should is all found", async () => {
  expect(counted(await readDrawn((page, font) => lines(page, font)))).toEqual(ALL);
});

test.each([
  ["left and right", [-1, 0, 0, 1, 1000, 0]],
  ["top and bottom", [1, 0, 0, -1, 0, 700]],
  ["along a slant", [0, 1, 1, 0, 0, 0]],
] as const)("text that reads in a mirror only (%s) is told apart and left out", async (_, [a, b, c, d, e, f]) => {
  const found = await readDrawn((page, font) => {
    page.pushOperators(pushGraphicsState(), concatTransformationMatrix(a, b, c, d, e, f));
    lines(page, font);
    page.pushOperators(popGraphicsState());
  });
  expect(counted(found)).toEqual({ texts: 0, mirrored: 5, tags: 0, runNotes: 0, scaleNotes: 0, slopes: 0 });
});

test("turned half round is not mirrored", async () => {
  const found = await readDrawn((page, font) => {
    for (const [i, text] of WORDS.entries())
      page.drawText(text, { x: 600, y: 300 + 40 * i, size: 10, font, rotate: degrees(180) });
  });
  expect(counted(found)).toEqual(ALL);
});

test("text set glyph by glyph is joined", async () => {
  const found = await readDrawn((page, font) => {
    for (const [i, text] of WORDS.entries()) {
      let x = 200;
      for (const glyph of text) {
        if (glyph !== " ") page.drawText(glyph, { x, y: 300 - 40 * i, size: 10, font });
        x += font.widthOfTextAtSize(glyph, 10);
      }
    }
  });
  expect(counted(found)).toEqual(ALL);
});

test("words drawn as shapes are no text: nothing is found, and that is said", async () => {
  // Letters as closed outlines of five edges and more, as a program writes them that turns text into shapes.
  const letter = "M 0 0 L 2 7 L 3 7 L 5 0 L 4 0 L 3.4 2 L 1.6 2 L 1 0 Z";
  const outlined = await readDrawn((page) => {
    for (let i = 0; i < 12; i++) page.drawSvgPath(letter, { x: 200 + 6 * i, y: 300 });
  });
  expect(outlined.kind).toBe("outlines");
  expect(counted(outlined)).toEqual({ texts: 0, mirrored: 0, tags: 0, runNotes: 0, scaleNotes: 0, slopes: 0 });
  expect((await readDrawn((page) => page.drawLine({ start: { x: 0, y: 0 }, end: { x: 500, y: 500 } }))).kind).toBe(
    "none",
  );
});

test("a number without a title block, an empty page and one line of text hang nothing", async () => {
  const empty = await readDrawn(() => undefined);
  expect([empty.kind, empty.grids, empty.title.number, empty.scales.witnesses]).toEqual(["none", [], null, []]);
});
