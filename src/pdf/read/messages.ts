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
  "pdf.text-outlines": (p: Params) =>
    `The words of page ${p.page} are drawn as lines and shapes, not written as text. No notes, tags or grid labels can be read on it.`,
  "pdf.text-mirrored": (p: Params) =>
    `On page ${p.page} ${p.count} lines of text read in a mirror only and were left out. The sheet may have been plotted from its back; ask for one that reads the right way.`,
  "pdf.page-without-size": (p: Params) => `Page ${p.page} has no size and is left out.`,
  "pdf.page-huge": (p: Params) =>
    `Page ${p.page} is ${p.inches} in. long on paper. Check that the drawing was exported at paper size, not at full size.`,
  "grid.too-few-shared": (p: Params) =>
    `The two sheets have ${p.count} grid crossings in common; two are needed. Point at two places that both sheets show.`,
  "revision.picture": (p: Params) =>
    `The ${p.which} issue has no lines: it is a picture, such as a scan. Nothing can be recognised on it; point at places that both issues show.`,
  "revision.not-alike": () =>
    "The two issues do not show enough of the same lines to lay one on the other. Check that it is the same sheet, or point at places that both show.",
  "revision.two-ways": () =>
    "There is more than one way in which the lines of the two issues lie on each other about equally well. Point at places that both show.",
  "revision.mirrored": () =>
    "The new issue shows the plan from the other side: one of the two is mirrored. Marks cannot be carried over to it.",
  "revision.grid-renamed": (p: Params) =>
    `The lines lie on each other, but grid lines bear other names: ${p.names}. Check that it is the same part of the building; if it is, point at places that both issues show.`,
  "revision.points-apart": (p: Params) =>
    `The places do not belong together: one lies ${(Number(p.off) / 72).toFixed(2)} in. of paper from its partner. Check each pair.`,
} as const satisfies Record<string, (params: Params) => string>;
