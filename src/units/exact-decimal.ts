/** A decimal number without rounding: digits x 10^-places. For carrying what was typed into one correctly rounded number. */
export interface ExactDecimal {
  readonly digits: bigint;
  readonly places: number;
}

/** Reads digits with an optional point: `12`, `0.5`, `.5`, `12.`. The caller has checked that nothing else is there. */
export function readDecimal(text: string): ExactDecimal {
  const [whole = "", part = ""] = text.split(".");
  return { digits: BigInt(`${whole}${part}` || "0"), places: part.length };
}

/** The shortest decimal that names this finite number (what `String` shows), with any exponent written out. */
export function decimalOf(n: number): ExactDecimal {
  const [mantissa = "0", exponent = "0"] = String(Math.abs(n)).split("e");
  const read = readDecimal(mantissa);
  const places = read.places - Number(exponent);
  const sign = n < 0 ? -1n : 1n;
  return places >= 0
    ? { digits: sign * read.digits, places }
    : { digits: sign * read.digits * 10n ** BigInt(-places), places: 0 };
}

/** The sum, exact. */
export function addDecimals(a: ExactDecimal, b: ExactDecimal): ExactDecimal {
  const places = Math.max(a.places, b.places);
  return { digits: scaled(a, places) + scaled(b, places), places };
}

/** The decimal times a whole number, exact. */
export const timesWhole = (a: ExactDecimal, n: bigint): ExactDecimal => ({ digits: a.digits * n, places: a.places });

/** Splits a decimal of zero or more into whole multiples of `size` and what is left. */
export function splitBy(a: ExactDecimal, size: bigint): { readonly count: bigint; readonly rest: ExactDecimal } {
  const unit = size * 10n ** BigInt(a.places);
  return { count: a.digits / unit, rest: { digits: a.digits % unit, places: a.places } };
}

/** Written with as few places as it needs: `12`, `0.922`, `-3.5`. */
export function writeDecimal(a: ExactDecimal): string {
  const sign = a.digits < 0n ? "-" : "";
  const all = (a.digits < 0n ? -a.digits : a.digits).toString().padStart(a.places + 1, "0");
  const whole = all.slice(0, all.length - a.places);
  const part = all.slice(all.length - a.places).replace(/0+$/, "");
  return sign + whole + (part === "" ? "" : `.${part}`);
}

/** The nearest double. */
export const toNumber = (a: ExactDecimal): number => Number(writeDecimal(a));

const scaled = (a: ExactDecimal, places: number): bigint => a.digits * 10n ** BigInt(places - a.places);
