import { rename } from "../editor/edits/rename.ts";
import type { Id } from "../job/fields.ts";
import type { LabelledTable } from "../job/labels.ts";
import { useDesk } from "./desk-context.ts";
import type { Reading } from "./fields/TextRow.tsx";
import { problemWords } from "./problem-words.ts";

/** Gives a thing the label that was typed; words where it is empty, or another thing has it already. */
export function useRename(table: LabelledTable, id: Id): (label: string) => Reading {
  const { session } = useDesk();
  return (label) => {
    const edit = rename(session.getState().job, table, id, label);
    if (!edit.ok) return { ok: false, words: edit.problems.map(problemWords).join(" ") };
    session.commit(edit.value);
    return { ok: true };
  };
}
