import { decimalOf, writeDecimal } from "./exact-decimal.ts";
import { formatLength } from "./format-length.ts";
import { settle, toInches, type UnitSystem } from "./length.ts";
import { parseLength, plainSigns } from "./parse-length.ts";
import { fail, ok, type Result } from "./problem.ts";
import { inches } from "./quantity.ts";

/** A slope as given. */
export interface Slope {
  /** As written, spaces trimmed. */
  readonly text: string;
  /** Rise per run, 0 or more: 1/4" per foot is 1/48. */
  readonly rise: number;
}

/**
 * Reads a slope: `1/4":12"`, `1/4" per foot`, `1/4 / ft`, `3:12`, `1:48`, `2%`, `1.2°`, `20 mm/m`. The way down is given
 * beside it, never by a sign. Codes: `slope.negative`, `slope.zero-run`, `slope.too-steep`, `slope.empty`,
 * `slope.not-a-slope` (a bare number too: it could be inches a foot or a percentage).
 */
export function parseSlope(text: string): Result<Slope> {
  const written = text.trim();
  const body = plainSigns(text).replace(/^slope\s*[:=]?\s*/, "");
  const refuse = (code: string) => fail(code, "", { text: written });
  const answer = (rise: number) => ok({ text: written, rise });
  if (body === "") return fail("slope.empty");
  const negative = body.startsWith("-");
  const positive = body.replace(/^[-+]\s*/, "");

  const alone = /^(\d+(?:\.\d*)?|\.\d+)\s*(%|percent|°|deg|degrees?)$/.exec(positive);
  if (alone) {
    const n = Number(alone[1]);
    if (negative && n > 0) return refuse("slope.negative");
    if (alone[2] === "%" || alone[2] === "percent") return answer(settle(n / 100));
    return n >= 90 ? refuse("slope.too-steep") : answer(Math.tan((n * Math.PI) / 180));
  }

  const parts = split(positive);
  if (!parts) return refuse("slope.not-a-slope");
  const rise = lengthOrNumber(parts.rise, parts.perFoot);
  const run = lengthOrNumber(parts.run, false);
  if (!rise || !run || (!parts.perFoot && rise.bare !== run.bare)) return refuse("slope.not-a-slope");
  if (run.n === 0) return refuse("slope.zero-run");
  if (run.n < 0 || rise.n < 0 || (negative && rise.n > 0)) return refuse("slope.negative");
  return answer(rise.n / run.n);
}

interface Parts {
  readonly rise: string;
  readonly run: string;
  /** The run is one foot, so a bare rise is in inches. */
  readonly perFoot: boolean;
}

function split(body: string): Parts | undefined {
  const perFoot = /^(.+?)\s*(?:\/|per)\s*(?:ft\.?|foot|lf|')$/.exec(body);
  if (perFoot) return { rise: perFoot[1]!, run: "12 in", perFoot: true };
  const perMetre = /^(.+?mm)\s*(?:\/|per)\s*m(?:etre|eter)?$/.exec(body);
  if (perMetre) return { rise: perMetre[1]!, run: "1 m", perFoot: false };
  const two = /^(.+?)\s*(?::|\bper\b|\bin(?=\s+\d))\s*(.+)$/.exec(body);
  if (two) return { rise: two[1]!, run: two[2]!, perFoot: false };
  const overLength = /^(.+?")\s*\/\s*(.+["'])$/.exec(body);
  return overLength ? { rise: overLength[1]!, run: overLength[2]!, perFoot: false } : undefined;
}

function lengthOrNumber(
  text: string,
  bareIsInches: boolean,
): { readonly n: number; readonly bare: boolean } | undefined {
  const length = parseLength(text);
  if (length.ok) return { n: toInches(length.value), bare: false };
  const bare = parseLength(text, "in");
  return bare.ok ? { n: toInches(bare.value), bare: !bareIsInches } : undefined;
}

/** A rise per run as the trade writes it: `1/4" per foot`, in metric jobs `2%`. `parseSlope` reads it back. */
export function formatSlope(rise: number, system: UnitSystem): string {
  if (!Number.isFinite(rise) || rise < 0) throw new RangeError(`Not a slope: ${rise}`);
  return system === "metric"
    ? `${writeDecimal(decimalOf(settle(rise * 100)))}%`
    : `${formatLength(inches(settle(rise * 12)), "imperial")} per foot`;
}
