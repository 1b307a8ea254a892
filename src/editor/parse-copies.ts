import { type Length, toInches, type UnitSystem } from "../units/length.ts";
import { parseLength, plainSigns } from "../units/parse-length.ts";
import { fail, ok, type Result } from "../units/problem.ts";

/** How many copies, and how far apart; null what the text does not say. */
export interface Copies {
  readonly count: number | null;
  readonly apart: Length | null;
}

/** More copies than these in one step are a slip of the finger. */
export const MOST_COPIES = 200;

/** Reads `3 at 6"`, `3 times`, `3 copies` or `6"`. Problems: `copies.not-a-count`, `copies.not-positive`, and those of `parseLength`. */
export function parseCopies(text: string, system: UnitSystem): Result<Copies> {
  const plain = plainSigns(text);
  const both = /^(\d+)\s*(?:(?:copies|runs|times) )?at (.+)$/.exec(plain);
  const only = /^(\d+)\s*(?:copies|copy|runs?|times)$/.exec(plain);
  const count = both?.[1] ?? only?.[1];
  const many = count === undefined ? ok(null) : countOf(count, text);
  if (!many.ok) return many;
  const apart = only ? ok(null) : spacingOf(both?.[2] ?? plain, system, text);
  return apart.ok ? ok({ count: many.value, apart: apart.value }) : apart;
}

/** Where copies go along a line: so far from one to the next, or at the ends and the places between so many equal parts. */
export type Spread =
  | { readonly is: "every"; readonly apart: Length }
  | { readonly is: "parts"; readonly count: number };

/** Reads `every 8'-0"`, `8'-0"` or `in 5 parts`. Problems: as `parseCopies`. */
export function parseSpread(text: string, system: UnitSystem): Result<Spread> {
  const plain = plainSigns(text);
  const parts = /^(?:in )?(\d+) (?:equal )?parts?$/.exec(plain);
  if (parts) {
    const count = countOf(parts[1]!, text);
    return count.ok ? ok({ is: "parts", count: count.value }) : count;
  }
  const apart = spacingOf(plain.replace(/^every /, ""), system, text);
  return apart.ok ? ok({ is: "every", apart: apart.value }) : apart;
}

function countOf(digits: string, text: string): Result<number> {
  const count = Number(digits);
  return count >= 1 && count <= MOST_COPIES
    ? ok(count)
    : fail("copies.not-a-count", "", { text: text.trim(), most: MOST_COPIES });
}

function spacingOf(length: string, system: UnitSystem, text: string): Result<Length> {
  const apart = parseLength(length, system === "metric" ? "mm" : undefined);
  if (!apart.ok) return apart;
  return toInches(apart.value) > 0 ? apart : fail("copies.not-positive", "", { text: text.trim() });
}
