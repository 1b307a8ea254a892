import fontkit from "@cantoo/fontkit";
import { describe, expect, it } from "vitest";
import { GLYPH_WIDTHS } from "../../src/issue/glyph-widths.ts";
import { CAP_HEIGHT, textCorners, textWidth } from "../../src/issue/text-width.ts";
import { radians } from "../../src/units/quantity.ts";
import { fontBytes } from "./font-bytes.ts";

describe.each(["regular", "bold", "condensed"] as const)("widths of the %s face", (face) => {
  const font = fontkit.create(fontBytes[face]);
  if (!("hasGlyphForCodePoint" in font)) throw new Error("a collection");

  it("are those of the font's own tables (Roboto 2.137)", () => {
    for (const [width, characters] of GLYPH_WIDTHS[face]) {
      for (const character of characters) {
        const code = character.codePointAt(0) as number;
        expect(font.hasGlyphForCodePoint(code), character).toBe(true);
        const own = ((font.glyphForCodePoint(code)?.advanceWidth ?? 0) * 1000) / font.unitsPerEm;
        expect(Math.abs(own - width), character).toBeLessThanOrEqual(0.5);
      }
    }
  });

  it("hold the signs the trade writes, and figures of one width", () => {
    const known = new Set(GLYPH_WIDTHS[face].flatMap(([, characters]) => [...characters]));
    for (const sign of `0123456789'"′″½¼¾⅛⅜⅝⅞≥±×°-–—/.,;:()`) expect(known, sign).toContain(sign);
    const figures = GLYPH_WIDTHS[face].filter(([, characters]) => /[0-9]/.test(characters));
    expect(figures).toHaveLength(1);
  });

  it("know the height of capitals", () => {
    expect(font.capHeight / font.unitsPerEm).toBeCloseTo(CAP_HEIGHT, 3);
  });
});

describe("textWidth and textCorners", () => {
  it("add up, in proportion to the size", () => {
    expect(textWidth("12'-6 1/2\"", 20, "regular")).toBeCloseTo(2 * textWidth("12'-6 1/2\"", 10, "regular"), 9);
    expect(textWidth("", 10, "bold")).toBe(0);
  });

  it("turn with the text", () => {
    const item = { type: "text", text: "R-1", at: [10, 20], size: 10, align: "start", face: "bold" } as const;
    const corners = textCorners({ ...item, angle: radians(Math.PI / 2), fill: { r: 0, g: 0, b: 0 } });
    const width = textWidth("R-1", 10, "bold");
    expect(corners[1][1] - corners[0][1]).toBeCloseTo(width, 9);
    expect(corners[3][0] - corners[0][0]).toBeCloseTo(-(CAP_HEIGHT + 0.21) * 10, 9);
  });
});
