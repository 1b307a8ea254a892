import type { Problem } from "../units/problem.ts";

type Words = (p: Problem["params"], where: string) => string;

/** What of an issued sheet an archival standard does not have. */
const BREACH_WORDS: Readonly<Record<string, string>> = {
  layers: "the marks lie on layers",
  transparency: "the marks let the drawing show through",
  attachment: "the job travels inside as a file",
};

/** Wording of what can go wrong when sheets and reports are issued. */
export const issueMessages: Readonly<Record<string, Words>> = {
  "issue.no-sheet": () => "The job has no sheet on this drawing. Add a sheet of it to the job first.",
  "issue.drawing-missing": (p) =>
    `The drawing ${p.name} is not at hand. Open it (its SHA-256 starts with ${String(p.sha256).slice(0, 12)}), then issue again.`,
  "issue.bad-font": (p) => `The ${p.face} font cannot be read, so nothing was issued.`,
  "issue.missing-glyph": (p) =>
    `The ${p.face} font has no sign for: ${p.characters}. Write names, labels and notes without it, then issue again.`,
  "issue.mark-moved": (p) =>
    `${p.what} was moved on page ${p.page} by another program. The job still has it where it was: move it there too if that was meant.`,
  "issue.mark-reshaped": (p) =>
    `${p.what} was given another shape on page ${p.page} by another program. The job still has it as it was: change it there too if that was meant.`,
  "issue.mark-deleted": (p) =>
    `The mark of ${p.what} was deleted from page ${p.page} by another program. The job still has it: delete it there too if that was meant.`,
  "issue.mark-edited": (p) =>
    `The words of the mark of ${p.what} on page ${p.page} were changed by another program to: "${p.text}". They follow from the job, which still has its own.`,
  "issue.mark-answered": (p) => `${p.author} answered the mark of ${p.what} on page ${p.page}: "${p.text}".`,
  "issue.not-archival": (p, where) =>
    `${where} is no longer ${p.standard}, which the drawing says it is: ${String(p.breaches)
      .split(", ")
      .map((breach) => BREACH_WORDS[breach] ?? breach)
      .join(", ")}. Keep the drawing itself for the archive.`,
  "issue.unsigned-copy": (_, where) =>
    `${where} is a copy without the signatures of the drawing, and says so on every marked sheet. The signed drawing governs.`,
  "issue.repaired-copy": (p, where) =>
    `${where} is a repaired copy: the PDF was damaged and has been given a new index, and every marked sheet says so. ${
      p.lost === 0 ? "All that it refers to was found." : `${p.lost} of the parts it refers to are missing.`
    } Compare it with the drawing.`,
};
