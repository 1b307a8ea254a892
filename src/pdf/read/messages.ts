import type { Problem } from "../../units/problem.ts";

type Params = Problem["params"];

/** The words for every problem of opening and reading a drawing. What happened, and what to do. `where` is the file's name. */
export const readMessages = {
  "pdf.empty": () => "The file is empty. It may not have been copied completely; fetch it again.",
  "pdf.not-a-pdf": () => "This is not a PDF file. Export or print the drawing as PDF and open that.",
  "pdf.truncated": () =>
    "The file breaks off before its end and cannot be read. It was probably not copied completely; fetch it again.",
  "pdf.damaged": () => "The PDF is damaged and cannot be read. Export it again, or ask for a new copy.",
  "pdf.password-needed": () => "This drawing is locked with a password. Enter it to open the drawing.",
  "pdf.password-wrong": () => "That password does not open this drawing. Try again.",
  "pdf.encryption-unknown": () =>
    "This drawing is encrypted in a way this program cannot read. Ask for a copy without encryption.",
  "pdf.no-pages": () => "The PDF has no pages. Export the drawing again.",
  "pdf.end-missing": () => "The file lacks its end mark. What could be read is shown; check that no sheet is missing.",
  "pdf.page-unreadable": (p: Params) =>
    `Page ${p.page} is damaged and is left out. Ask for a new copy if that sheet matters.`,
  "pdf.linework-unreadable": (p: Params) =>
    `The lines of page ${p.page} cannot be read; its text was. Nothing is said about its grid.`,
  "pdf.page-without-size": (p: Params) => `Page ${p.page} has no size and is left out.`,
  "pdf.page-huge": (p: Params) =>
    `Page ${p.page} is ${p.inches} in. long on paper. Check that the drawing was exported at paper size, not at full size.`,
  "grid.too-few-shared": (p: Params) =>
    `The two sheets have ${p.count} grid crossings in common; two are needed. Point at two places that both sheets show.`,
} as const satisfies Record<string, (params: Params) => string>;
