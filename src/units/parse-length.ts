import { addDecimals, type ExactDecimal, readDecimal, timesWhole, toNumber } from "./exact-decimal.ts";
import type { Length, LengthUnit } from "./length.ts";
import { fail, ok, type Problem, type Result } from "./problem.ts";

/** No drawing has a length beyond this many of any unit; a slip of the finger has. */
const LARGEST = 1e9;

const NUMBER = String.raw`\d+(?:\.\d*)?|\.\d+`;
const FRACTION = String.raw`\d+\s*/\s*\d+`;
/** Whole and fraction, fraction alone, or a decimal: `6 1/2`, `6-1/2`, `1/2`, `6.5`. */
const MIXED = String.raw`(?:\d+\s*[- ]\s*)?${FRACTION}|${NUMBER}`;
const FOOT = String.raw`(?:'|ft\.?|foot|feet)`;
const INCH = String.raw`(?:"|in\.?|inch|inches)`;

const FEET_AND_INCHES = new RegExp(String.raw`^(\d+)\s*${FOOT}\s*-?\s*(${MIXED})\s*${INCH}?$`);
const FEET = new RegExp(String.raw`^(${MIXED})\s*${FOOT}$`);
const INCHES = new RegExp(String.raw`^(${MIXED})\s*${INCH}$`);
const METRIC = new RegExp(String.raw`^(${NUMBER})\s*(mm|m)$`);
const BARE = new RegExp(`^(${MIXED})$`);

/**
 * Reads a length as drawings and people write it: `27'-6"`, `12'-6 1/2"`, `12 ft 6 in`, `1-1/2"`, `0'-7 3/4"`, `3810 mm`,
 * `3.81 m`, with primes and fraction signs of print, and a leading +, - or plus-minus (which is not kept). Feet with inches
 * become inches; otherwise the unit stays as written. A number without a unit needs `defaultUnit`.
 * Codes: `length.empty`, `length.no-unit`, `length.inches-over-twelve`, `length.fraction-not-proper`,
 * `length.zero-denominator`, `length.too-large`, `length.not-a-length`.
 */
export function parseLength(text: string, defaultUnit?: LengthUnit): Result<Length> {
  const { sign, body } = signOf(plainSigns(text));
  if (body === "") return fail("length.empty");
  const refuse = (code: string, more: Problem["params"] = {}) => fail(code, "", { text: text.trim(), ...more });
  const finish = (read: Reading, unit: LengthUnit): Result<Length> => {
    if ("code" in read) return refuse(read.code, read.params);
    return read.value > LARGEST
      ? refuse("length.too-large")
      : ok({ value: read.value === 0 ? 0 : sign * read.value, unit });
  };

  const both = FEET_AND_INCHES.exec(body);
  if (both) {
    const inch = readMixed(both[2]!);
    if ("code" in inch) return refuse(inch.code, inch.params);
    if (inch.value >= 12) return refuse("length.inches-over-twelve", { inches: inch.value });
    const feet = timesWhole(readDecimal(both[1]!), 12n);
    const value = inch.exact ? toNumber(addDecimals(feet, inch.exact)) : toNumber(feet) + inch.value;
    return finish({ value }, "in");
  }
  const feet = FEET.exec(body);
  if (feet) return finish(readMixed(feet[1]!), "ft");
  const inch = INCHES.exec(body);
  if (inch) return finish(readMixed(inch[1]!), "in");
  const metric = METRIC.exec(body);
  if (metric) return finish(readMixed(metric[1]!), metric[2] as "mm" | "m");
  const bare = BARE.exec(body);
  if (!bare) return refuse("length.not-a-length");
  return defaultUnit === undefined ? refuse("length.no-unit") : finish(readMixed(bare[1]!), defaultUnit);
}

type Reading =
  | { readonly value: number; readonly exact?: ExactDecimal }
  | { readonly code: string; readonly params: Problem["params"] };

function readMixed(text: string): Reading {
  const parts = /^(?:(\d+)\s*[- ]\s*)?(\d+)\s*\/\s*(\d+)$/.exec(text);
  if (!parts) {
    const exact = readDecimal(text);
    return { value: toNumber(exact), exact };
  }
  const [whole, top, bottom] = [parts[1] ?? "", BigInt(parts[2]!), BigInt(parts[3]!)];
  if (bottom === 0n) return { code: "length.zero-denominator", params: {} };
  if (whole !== "" && top >= bottom)
    return { code: "length.fraction-not-proper", params: { fraction: `${top}/${bottom}` } };
  const places = placesOf(bottom);
  if (places === undefined) return { value: Number(whole) + Number(top) / Number(bottom) };
  const exact = addDecimals(readDecimal(whole), { digits: (top * 10n ** BigInt(places)) / bottom, places });
  return { value: toNumber(exact), exact };
}

/** How many decimal places 1/n needs, when n is a power of two up to 1024 (rulers have no others). */
function placesOf(n: bigint): number | undefined {
  for (let places = 0, power = 1n; places <= 10; places++, power *= 2n) if (power === n) return places;
  return undefined;
}

const FRACTION_SIGNS: Readonly<Record<string, string>> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
  "⅓": "1/3",
  "⅔": "2/3",
};

/** The signs of print as those of a keyboard: primes, curly quotes, dashes, fraction signs, fixed spaces; lower case. */
export function plainSigns(text: string): string {
  return text
    .replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/g, (sign) => ` ${FRACTION_SIGNS[sign]}`)
    .replace(/⁄/g, "/")
    .replace(/[″“”]|''|′′|’’/g, '"')
    .replace(/[′‘’]/g, "'")
    .replace(/[‐‑‒–—−]/g, "-")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase();
}

function signOf(text: string): { readonly sign: 1 | -1; readonly body: string } {
  const lead = /^(?:\+\/-|±|\+|-)\s*/.exec(text)?.[0] ?? "";
  return { sign: lead.startsWith("-") ? -1 : 1, body: text.slice(lead.length) };
}
