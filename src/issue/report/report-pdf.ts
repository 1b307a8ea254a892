import { PDFDocument } from "@cantoo/pdf-lib";
import type { FontFace, Picture } from "../../geometry/picture.ts";
import { ok, type Problem, type Result } from "../../units/problem.ts";
import { drawPages } from "../draw-pages-pdf.ts";
import type { EmbeddedFonts } from "../draw-picture-pdf.ts";
import { embedFonts, missingGlyphs } from "../embed-fonts.ts";
import { addBookmarks } from "../pdf-bookmarks.ts";
import { addLinks, nameParts } from "../pdf-links.ts";
import { addMetadata } from "../pdf-metadata.ts";
import { addStructure } from "../pdf-structure.ts";
import type { AboutPages } from "./about-pages.ts";
import type { ReportPages } from "./set-pages.ts";

/**
 * Pages of pictures as a PDF of their own, with bookmarks, links and, unless they go behind a drawing, tags. The same pages and date give the same
 * bytes. Problems: `issue.bad-font` (face), `issue.missing-glyph` (face, characters) for a character the face cannot show: never a question
 * mark in its place.
 */
export async function pagesPdf(
  made: ReportPages,
  fonts: Readonly<Record<FontFace, Uint8Array>>,
  about: AboutPages,
): Promise<Result<Uint8Array>> {
  const document = await PDFDocument.create({ updateMetadata: false });
  addMetadata(document, about);
  const embedded = await embedFonts(document, fonts);
  if (!embedded.ok) return embedded;
  const problems = unshowable(made.pages, embedded.value);
  if (problems.length > 0) return { ok: false, problems };
  const behind = about.behind ?? false;
  const placed = drawPages(document, made, embedded.value, !behind);
  const names = nameParts(document, placed);
  const links = addLinks(document, placed, (name) => behind || names.has(name));
  addBookmarks(document, placed);
  if (!behind) addStructure(document, placed, links);
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
