import { PDFDict, PDFDocument, PDFName, PDFRawStream } from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import type { FontFace, Picture } from "../../../src/geometry/picture.ts";
import { appendUpdate } from "../../../src/pdf/write/append-update.ts";
import { radians } from "../../../src/units/quantity.ts";
import { drawing, fonts, issue, mark, pdftotext, request, tools } from "./fixtures.ts";

/** The signs that notes about wiring under decks are written with (common practice, no source). */
const SIGNS: Readonly<Record<string, string>> = {
  "vulgar fractions": "½ ¼ ¾ ⅛ ⅜ ⅝ ⅞",
  "sixteenths with a fraction slash": "1⁄16 3⁄16 5⁄16 7⁄16 9⁄16 11⁄16 13⁄16 15⁄16",
  "feet and inches": "12′-6½″ 12'-6 1/2\"",
  "diameter, plus-minus, at least, at most": "Ø ⌀ ± ≥ ≤ ≠ ≈",
  "degrees, by, middle dot, dashes, quotes": "° × · – — “ ” ‘ ’ … •",
  "mathematics and units": "− √ Ω µ ² ³ ÷",
  "section and number": "§ ¶ № ©",
  "letters of neighbours": "ñ á é í ó ú ü ¿ ¡ ç à è",
};
const FACES: readonly FontFace[] = ["regular", "bold", "condensed"];

const words = (text: string, face: FontFace): Picture => [
  { type: "text", text, at: [30, 100], size: 10, angle: radians(0), align: "start", face, fill: { r: 0, g: 0, b: 0 } },
];
const written = async (text: string, face: FontFace): Promise<Uint8Array> =>
  issue(await drawing({ text: "x" }), { pages: [{ page: 1, annotations: [mark({ picture: words(text, face) })] }] });

describe.each(FACES)("the %s face", (face) => {
  it.each(Object.entries(SIGNS))("has %s", async (_, text) => {
    const issued = await written(text, face);
    if (tools.pdftotext) {
      // A reader may find its own spaces between signs that are narrow or raised.
      const bare = (words: string) => words.replace(/\s+/g, "").normalize("NFC");
      expect(bare(pdftotext(issued))).toContain(bare(text.replaceAll("⌀", "Ø")));
    }
  });

  it("refuses every sign it has not, and names it", async () => {
    for (const sign of ["漢", "→", "☐", "\u{1F600}"]) {
      const result = appendUpdate(
        await drawing(),
        request({ pages: [{ page: 1, annotations: [mark({ picture: words(`a${sign}`, face) })] }] }),
      );
      expect(result.ok ? [] : result.problems.map(({ code, params }) => [code, params.character])).toEqual([
        ["pdf.missing-glyph", sign],
      ]);
    }
  });

  it("is embedded as a subset with its characters' meaning, a small part of the whole", async () => {
    const document = await PDFDocument.load(await written("12′-6⅜″", face));
    const found = document.context.enumerateIndirectObjects().map(([, object]) => object);
    const font = found.find(
      (o): o is PDFDict => o instanceof PDFDict && o.get(PDFName.of("Subtype")) === PDFName.of("Type0"),
    )!;
    expect(String(font.get(PDFName.of("BaseFont")))).toMatch(/^\/[A-Z]{6}\+/);
    expect(font.lookup(PDFName.of("ToUnicode"))).toBeInstanceOf(PDFRawStream);
    const programs = found.filter(
      (o): o is PDFRawStream => o instanceof PDFRawStream && o.dict.has(PDFName.of("Length1")),
    );
    expect(programs).toHaveLength(1);
    expect(programs[0]!.contents.length).toBeLessThan(fonts[face].length / 8);
  });
});
