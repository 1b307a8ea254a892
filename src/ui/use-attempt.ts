import type { Edit } from "../job/edit.ts";
import type { Job } from "../job/schema.ts";
import type { Result } from "../units/problem.ts";
import { useDesk } from "./desk-context.ts";
import type { Reading } from "./fields/TextRow.tsx";
import { allProblemWords } from "./problem-words.ts";

/** Does what an edit builder makes of the job; what it refuses comes back in words, for the field that was typed into. */
export function useAttempt(): (build: (job: Job) => Result<Edit>) => Reading {
  const { session } = useDesk();
  return (build) => {
    const edit = build(session.getState().job);
    if (!edit.ok) return { ok: false, words: allProblemWords(edit.problems) };
    session.commit(edit.value);
    return { ok: true };
  };
}
