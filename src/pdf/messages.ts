import type { Problem } from "../units/problem.ts";
import { readMessages } from "./read/messages.ts";

type Params = Problem["params"];
type Words = (params: Params) => string;

/** The words for what can go wrong when a sheet is issued or an issued sheet opened: what, where, and what to do. */
const writeMessages: Readonly<Record<string, Words>> = {
  "pdf.damaged": (p) =>
    p.what === undefined
      ? readMessages["pdf.damaged"]()
      : `The PDF is damaged${p.where ? ` (${p.where})` : ""}: ${p.what}. Nothing was added to it. Print or save it anew from the program it comes from, then use the new file; or issue a repaired copy.`,
  "pdf.beyond-repair": (p) =>
    `The PDF is damaged, and a part of it (object ${p.object}) cannot be read, so that no repaired copy can be made. Print or save it anew from the program it comes from.`,
  "pdf.unsigning-forbidden": () =>
    "The author of the PDF does not allow it to be changed, so its signatures cannot be taken off a copy. Open it with the owner's password, or issue the report as a separate file.",
  "pdf.too-large": (p) =>
    `A part of the PDF unpacks to more than ${p.limitMB} MB. Save the drawing with smaller images, or only the sheets you need.`,
  "pdf.no-such-page": (p) =>
    `Page ${p.page} was asked for, but the PDF has ${p.pages}. Choose another page, or the right file.`,
  "pdf.unknown-filter": (p) =>
    `A part of the PDF is packed in a way that cannot be read here (${p.filter || "unnamed"}). Save it anew from the program it comes from.`,
  "pdf.annotating-forbidden": () =>
    "The author of the PDF does not allow marks on it. Ask for a copy that allows commenting, or open it with the owner's password.",
  "pdf.flattening-forbidden": () =>
    "The author of the PDF does not allow its pages to be changed, so the marks cannot be drawn into them. Issue them as annotations, or open the PDF with the owner's password.",
  "pdf.assembling-forbidden": () =>
    "The author of the PDF does not allow pages to be added. Issue the report as a separate file, or open the PDF with the owner's password.",
  "pdf.certified": (p) =>
    `The PDF is certified by its author, who allows ${p.level === 1 ? "no changes" : "only filling in and signing"}; marks would break the certification. Ask for a copy that is not certified, issue an unsigned copy, or only the report.`,
  "pdf.signed-pages": () =>
    "The PDF is signed, and pages added to it would break the signature. Issue the report as a separate file; the marks can stay on the signed sheet.",
  "pdf.signed-flatten": () =>
    "The PDF is signed, and marks drawn into its pages would break the signature. Issue the marks as annotations.",
  "pdf.missing-glyph": (p) =>
    `The ${p.face} font has no sign for "${p.character}" (${p.code}) in "${p.text}". Write that text without this character.`,
  "pdf.font-unreadable": (p) => `The font file for the ${p.face} face cannot be read. Install the program again.`,
};

/** The words for every problem `pdf.*`, of reading and of writing. */
export const pdfMessages: Readonly<Record<string, Words>> = { ...readMessages, ...writeMessages };
