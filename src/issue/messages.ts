import type { Problem } from "../units/problem.ts";

type Words = (p: Problem["params"], where: string) => string;

/** Wording of what can go wrong when sheets and reports are issued. */
export const issueMessages: Readonly<Record<string, Words>> = {
  "issue.no-sheet": () => "The job has no sheet on this drawing. Add a sheet of it to the job first.",
  "issue.drawing-missing": (p) =>
    `The drawing ${p.name} is not at hand. Open it (its SHA-256 starts with ${String(p.sha256).slice(0, 12)}), then issue again.`,
  "issue.bad-font": (p) => `The ${p.face} font cannot be read, so nothing was issued.`,
  "issue.missing-glyph": (p) =>
    `The ${p.face} font has no sign for: ${p.characters}. Write the names and labels without it, then issue again.`,
};
