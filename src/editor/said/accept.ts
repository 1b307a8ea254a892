import type { Edit } from "../../job/edit.ts";
import type { Job } from "../../job/schema.ts";
import { fail, type Result } from "../../units/problem.ts";
import { inOne } from "../edits/change.ts";
import { isPlain, type Meaning, type Suggestion } from "./suggestion.ts";

/** Records what a suggestion means. Problem: `said.lacks` where something of it has to be said first, or nothing can be recorded. */
export function acceptMeaning(job: Job, { text }: Suggestion, { accept }: Meaning): Result<Edit> {
  if (!accept) return fail("said.lacks", "", { text });
  const edit = accept(job);
  return edit.ok ? { ok: true, value: { ...edit.value, name: `Take ${text} from the drawing` } } : edit;
}

/** Records all suggestions of a kind that mean exactly one thing, as one undo step; the others are left. Problem: `said.none`. */
export function acceptAll(job: Job, kind: Suggestion["kind"], list: readonly Suggestion[]): Result<Edit> {
  const plain = plainOnes(kind, list);
  if (plain.length === 0) return fail("said.none", "");
  const what = kind === "elevation" ? "elevation" : "size";
  return inOne(
    job,
    `Take ${plain.length} ${what}${plain.length === 1 ? "" : "s"} from the drawing`,
    plain.map(({ meanings }) => meanings[0]!.accept!),
  );
}

/** The suggestions of a kind that may be taken together; of two for the same place neither is, unless they say the same. */
export function plainOnes(kind: Suggestion["kind"], list: readonly Suggestion[]): readonly Suggestion[] {
  const plain = list.filter((one) => one.kind === kind && isPlain(one));
  const said = new Map<string, Set<string>>();
  for (const { meanings } of plain) {
    const place = JSON.stringify(meanings[0]!.target);
    said.set(place, (said.get(place) ?? new Set()).add(JSON.stringify(meanings[0]!.read)));
  }
  return plain.filter(({ meanings }) => said.get(JSON.stringify(meanings[0]!.target))!.size === 1);
}
