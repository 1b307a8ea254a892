import { editorMessage } from "../editor/messages.ts";
import { storeMessages } from "../store/messages.ts";
import type { Problem } from "../units/problem.ts";

/** The words for a problem of any folder: what happened, where, and what to do. A code without words shows itself. */
export function problemWords(problem: Problem): string {
  const own = editorMessage(problem) ?? storeMessages[problem.code]?.(problem.params, problem.where);
  return own ?? `${problem.code}${problem.where === "" ? "" : ` at ${problem.where}`}`;
}

/** The words for all of them, one after another. */
export const allProblemWords = (problems: readonly Problem[]): string => problems.map(problemWords).join(" ");
