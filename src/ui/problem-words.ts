import { checkMessages } from "../check/messages.ts";
import { editorMessage } from "../editor/messages.ts";
import { issueMessages } from "../issue/messages.ts";
import { pdfMessages } from "../pdf/messages.ts";
import { storeMessages } from "../store/messages.ts";
import type { Problem } from "../units/problem.ts";
import { hostMessages } from "./messages.ts";

type Words = (p: Problem["params"], where: string) => string;

const wordsByCode: Readonly<Record<string, Words>> = {
  ...checkMessages,
  ...issueMessages,
  ...pdfMessages,
  ...storeMessages,
  ...hostMessages,
};

/** The words for a problem of any folder: what happened, where, and what to do. A code without words shows itself. */
export function problemWords(problem: Problem): string {
  const own = editorMessage(problem) ?? wordsByCode[problem.code]?.(problem.params, problem.where);
  return own ?? `${problem.code}${problem.where === "" ? "" : ` at ${problem.where}`}`;
}

/** The words for all of them, one after another. */
export const allProblemWords = (problems: readonly Problem[]): string => problems.map(problemWords).join(" ");
