import type { Problem } from "../units/problem.ts";

/** The words for every problem `pdf.*`: what is the matter, where, and what to do. */
export const pdfMessages: Readonly<Record<string, (params: Problem["params"]) => string>> = {
  "pdf.not-a-pdf": () => "This is not a PDF file. Choose the drawing as a PDF.",
  "pdf.damaged": (p) =>
    `The PDF is damaged${p.where ? ` (${p.where})` : ""}: ${p.what}. Nothing was added to it. Print or save it anew from the program it comes from, then use the new file.`,
  "pdf.too-large": (p) =>
    `A part of the PDF unpacks to more than ${p.limitMB} MB. Save the drawing with smaller images, or only the sheets you need.`,
  "pdf.no-pages": () => "The PDF has no pages. Export the drawing again.",
  "pdf.no-such-page": (p) =>
    `Page ${p.page} was asked for, but the PDF has ${p.pages}. Choose another page, or the right file.`,
  "pdf.password-needed": () => "The PDF opens only with a password. Give the password it was protected with.",
  "pdf.password-wrong": () => "The password does not open this PDF. Check it and give it again.",
  "pdf.unknown-encryption": (p) =>
    `The PDF is protected in a way that cannot be opened here (${p.filter || "unnamed"}, version ${p.version}, revision ${p.revision}). Ask its author for a copy without protection, or with a password only.`,
  "pdf.unknown-filter": (p) =>
    `A part of the PDF is packed in a way that cannot be read here (${p.filter || "unnamed"}). Save it anew from the program it comes from.`,
  "pdf.annotating-forbidden": () =>
    "The author of the PDF does not allow marks on it. Ask for a copy that allows commenting, or open it with the owner's password.",
  "pdf.flattening-forbidden": () =>
    "The author of the PDF does not allow its pages to be changed, so the marks cannot be drawn into them. Issue them as annotations, or open the PDF with the owner's password.",
  "pdf.assembling-forbidden": () =>
    "The author of the PDF does not allow pages to be added. Issue the report as a separate file, or open the PDF with the owner's password.",
  "pdf.certified": (p) =>
    `The PDF is certified by its author, who allows ${p.level === 1 ? "no changes" : "only filling in and signing"}; marks would break the certification. Ask for a copy that is not certified, or issue the report as a separate file.`,
  "pdf.signed-pages": () =>
    "The PDF is signed, and pages added to it would break the signature. Issue the report as a separate file; the marks can stay on the signed sheet.",
  "pdf.signed-flatten": () =>
    "The PDF is signed, and marks drawn into its pages would break the signature. Issue the marks as annotations.",
  "pdf.missing-glyph": (p) =>
    `The ${p.face} font has no sign for "${p.character}" (${p.code}) in "${p.text}". Write that text without this character.`,
  "pdf.font-unreadable": (p) => `The font file for the ${p.face} face cannot be read. Install the program again.`,
};
