import { FOLD_KINDS } from "../job/fold-lines.ts";
import type { FoldLine } from "../job/schema.ts";
import { fail, ok, type Result } from "../units/problem.ts";

/** What was typed for a line between spots: two spot numbers, a kind, or both. */
export interface TypedFoldLine {
  readonly between: readonly [number, number] | null;
  readonly kind: FoldLine["kind"] | null;
}

/** Reads `5-6`, `5-6 ridge`, `5, 6` or `valley`. Problem: `fold.not-a-line`. */
export function parseFoldLine(text: string): Result<TypedFoldLine> {
  const plain = text.trim().toLowerCase();
  const [, a, b, word] = /^(?:(\d+)\s*(?:-|–|,|\s|to|and)\s*(\d+))?\s*([a-z]+)?(?:\s+line)?$/.exec(plain) ?? [];
  const kind = word === undefined ? null : (FOLD_KINDS.find((one) => one === word) ?? undefined);
  if (kind === undefined || (a === undefined && kind === null))
    return fail("fold.not-a-line", "", { text: text.trim() });
  return ok({ between: a === undefined ? null : [Number(a), Number(b)], kind });
}
