import type { Increment } from "./increment.ts";
import { isRegular } from "./object-parser.ts";
import { PdfFailure } from "./pdf-failure.ts";
import { type PdfArray, PdfStream } from "./pdf-object.ts";
import { concat } from "./stream-data.ts";

/** How far a page's q and Q are out of step. */
export interface Balance {
  /** Restores (Q) without a save: so many saves are wanted in front. */
  readonly missing: number;
  /** Depth left at the end, the missing saves counted in: so many restores are wanted behind. */
  readonly open: number;
}

const IN_STEP: Balance = { missing: 0, open: 0 };

/**
 * Counts saves and restores in a page's content. Drawings do leave some open, and marks drawn behind them would then be moved
 * and scaled. Content that cannot be unpacked counts as in step.
 */
export const balanceOf = (increment: Increment, contents: PdfArray): Balance => {
  try {
    const parts = contents.flatMap((o) => {
      const stream = increment.resolve(o);
      return stream instanceof PdfStream ? [increment.file.data(stream), Uint8Array.of(10)] : [];
    });
    return countSaves(concat(parts));
  } catch (error) {
    if (error instanceof PdfFailure) return IN_STEP;
    throw error;
  }
};

/** Counts the operators q and Q, leaving out strings, comments, names and the data of inline images. */
export const countSaves = (content: Uint8Array): Balance => {
  let depth = 0;
  let least = 0;
  for (let at = 0; at < content.length; ) {
    const c = content[at] as number;
    if (c === 0x25) at = lineEnd(content, at);
    else if (c === 0x28) at = stringEnd(content, at);
    else if (isRegular(c) || c === 0x2f) {
      const from = at++;
      while (isRegular(content[at])) at++;
      const one = at - from === 1;
      if (one && c === 0x71) depth++;
      else if (one && c === 0x51) least = Math.min(least, --depth);
      else if (at - from === 2 && c === 0x49 && content[from + 1] === 0x44) at = imageEnd(content, at);
    } else at++;
  }
  return { missing: least === 0 ? 0 : -least, open: depth - least };
};

const lineEnd = (content: Uint8Array, from: number): number => {
  let at = from;
  while (at < content.length && content[at] !== 10 && content[at] !== 13) at++;
  return at;
};

const stringEnd = (content: Uint8Array, from: number): number => {
  let open = 0;
  for (let at = from; at < content.length; at++) {
    const c = content[at];
    if (c === 0x5c) at++;
    else if (c === 0x28) open++;
    else if (c === 0x29 && --open === 0) return at + 1;
  }
  return content.length;
};

/** Behind the `EI` that ends an inline image: it stands between white space, followed by something printable. */
const imageEnd = (content: Uint8Array, from: number): number => {
  const isSpace = (byte: number | undefined): boolean => byte === undefined || byte === 32 || (byte >= 9 && byte <= 13);
  for (let at = from + 1; at < content.length; at++) {
    if (content[at] !== 0x45 || content[at + 1] !== 0x49) continue;
    if (!isSpace(content[at - 1]) || !isSpace(content[at + 2])) continue;
    const next = content.subarray(at + 2, at + 12);
    if (next.every((byte) => isSpace(byte) || (byte > 32 && byte < 127))) return at + 2;
  }
  return content.length;
};
