import { PDFDocument } from "@cantoo/pdf-lib";
import type { FontFace, Picture } from "../../geometry/picture.ts";
import { ok, type Problem, type Result } from "../../units/problem.ts";
import { drawPicture, type EmbeddedFonts } from "../draw-picture-pdf.ts";
import { embedFonts, missingGlyphs } from "../embed-fonts.ts";
import { PROGRAM } from "../words.ts";
import type { ReportPages } from "./set-pages.ts";

/**
 * Pages of pictures as a PDF of their own. The same pages and date give the same bytes. Problems: `issue.bad-font` (face),
 * `issue.missing-glyph` (face, characters) for a character the face cannot show: never a question mark in its place.
 */
export async function pagesPdf(
  { size, pages }: ReportPages,
  fonts: Readonly<Record<FontFace, Uint8Array>>,
  about: { readonly title: string; readonly author: string; readonly now: Date },
): Promise<Result<Uint8Array>> {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.setTitle(about.title);
  if (about.author) document.setAuthor(about.author);
  document.setProducer(PROGRAM);
  document.setCreator(PROGRAM);
  document.setCreationDate(about.now);
  document.setModificationDate(about.now);
  const embedded = await embedFonts(document, fonts);
  if (!embedded.ok) return embedded;
  const problems = unshowable(pages, embedded.value);
  if (problems.length > 0) return { ok: false, problems };
  for (const picture of pages) drawPicture(document.addPage([size[0], size[1]]), picture, embedded.value);
  return ok(await document.save());
}

function unshowable(pages: readonly Picture[], fonts: EmbeddedFonts): Problem[] {
  const problems: Problem[] = [];
  for (const face of ["regular", "bold", "condensed"] as const) {
    const texts = pages.flatMap((page) =>
      page.flatMap((item) => (item.type === "text" && item.face === face ? [item.text] : [])),
    );
    const missing = missingGlyphs(fonts[face], texts);
    if (missing.length > 0) {
      problems.push({ code: "issue.missing-glyph", where: "", params: { face, characters: missing.join(" ") } });
    }
  }
  return problems;
}
