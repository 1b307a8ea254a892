import fontkit from "@cantoo/fontkit";
import type { PDFDocument, PDFFont } from "@cantoo/pdf-lib";
import type { FontFace } from "../geometry/picture.ts";
import { fail, ok, type Result } from "../units/problem.ts";
import type { EmbeddedFonts } from "./draw-picture-pdf.ts";

/** Embeds the three faces as subsets. Problem `issue.bad-font` (face) when bytes are not a font. */
export async function embedFonts(
  document: PDFDocument,
  bytes: Readonly<Record<FontFace, Uint8Array>>,
): Promise<Result<EmbeddedFonts>> {
  document.registerFontkit(fontkit);
  const fonts: Partial<Record<FontFace, EmbeddedFonts[FontFace]>> = {};
  for (const face of ["regular", "bold", "condensed"] as const) {
    try {
      // Features off: ligatures and swash forms would change what can be searched and copied.
      fonts[face] = await document.embedFont(bytes[face], { subset: true, features: { liga: false } });
    } catch {
      return fail("issue.bad-font", "", { face });
    }
  }
  return ok(fonts as EmbeddedFonts);
}

/** The characters of `texts` that a font has no glyph for, each once, in order. */
export function missingGlyphs(font: PDFFont, texts: Iterable<string>): string[] {
  const known = new Set(font.getCharacterSet());
  const missing = new Set<string>();
  for (const text of texts) {
    for (const character of text) if (!known.has(character.codePointAt(0) as number)) missing.add(character);
  }
  return [...missing];
}
