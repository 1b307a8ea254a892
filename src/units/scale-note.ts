import { decimalOf, writeDecimal } from "./exact-decimal.ts";
import { formatLength } from "./format-length.ts";
import { settle, toInches } from "./length.ts";
import { parseLength, plainSigns } from "./parse-length.ts";
import { fail, ok, type Result } from "./problem.ts";
import { inches } from "./quantity.ts";

/** A scale as noted on a drawing. */
export interface ScaleNote {
  /** As written, spaces trimmed. */
  readonly text: string;
  /** Building length per paper length, larger than 0: 3/64" = 1'-0" is 256. */
  readonly ratio: number;
}

/**
 * Reads a scale note: `3/64" = 1'-0"`, `1/4"=1'`, `1" = 20'`, `1:100`, `SCALE: 1/8" = 1'-0"`.
 * Codes: `scale.as-noted` (AS NOTED, AS INDICATED, VARIES), `scale.not-to-scale` (N.T.S., NONE), `scale.zero`,
 * `scale.empty`, `scale.not-a-scale`.
 */
export function parseScaleNote(text: string): Result<ScaleNote> {
  const written = text.trim();
  const body = plainSigns(text).replace(/^scale\s*[:=]?\s*/, "");
  const refuse = (code: string) => fail(code, "", { text: written });
  if (body === "") return fail("scale.empty");
  if (/^(as\s+(noted|indicated|shown)|varies|various)\.?$/.test(body)) return refuse("scale.as-noted");
  if (/^(n\.?\s?t\.?\s?s\.?|not\s+to\s+scale|none|no\s+scale)\.?$/.test(body)) return refuse("scale.not-to-scale");

  const plain = /^(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)$/.exec(body);
  const sides = plain ? [Number(plain[1]), Number(plain[2])] : body.split("=").map(sideInches);
  const [paper, building] = sides;
  if (sides.length !== 2 || paper === undefined || building === undefined) return refuse("scale.not-a-scale");
  if (paper < 0 || building < 0) return refuse("scale.not-a-scale");
  const ratio = settle(building / paper);
  return paper === 0 || building === 0 || !Number.isFinite(ratio) ? refuse("scale.zero") : ok({ text: written, ratio });
}

function sideInches(side: string): number | undefined {
  const length = parseLength(side);
  return length.ok ? toInches(length.value) : undefined;
}

/** A ratio as a scale note: `3/64" = 1'-0"` where the paper inch has a fraction down to 1/64, `1" = 20'-0"`, else `1:100`. */
export function formatScale(ratio: number): string {
  const perFoot = settle(12 / ratio);
  if (perFoot <= 12 && Number.isInteger(perFoot * 64)) return `${formatLength(inches(perFoot), "imperial")} = 1'-0"`;
  if (ratio >= 12 && Number.isInteger(ratio / 12)) return `1" = ${formatLength(inches(ratio), "imperial")}`;
  return `1:${writeDecimal(decimalOf(ratio))}`;
}
