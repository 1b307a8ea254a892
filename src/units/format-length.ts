import { decimalOf, type ExactDecimal, splitBy, toNumber, writeDecimal } from "./exact-decimal.ts";
import { toInches, type UnitSystem } from "./length.ts";
import { type Inches, MM_PER_INCH } from "./quantity.ts";

/** How a length is rounded for showing. Without `nearest` it is exact. */
export interface FormatOptions {
  /** Step in the unit shown: inches (1/16) or millimetres (1). */
  readonly nearest?: number;
  /** Which way to the step; `nearest` (the default) puts halves up. `down` and `up` go towards lower and higher values. */
  readonly round?: "nearest" | "down" | "up";
}

/** The finest fraction of an inch that is written as one; anything else is written as a decimal. */
const FINEST = 64;

/**
 * A length as the trade writes it: `12'-6 1/2"`, `7/8"`, `0"`, `-0'-3 1/4"`, and in metric jobs `3810 mm`.
 * Inches are a fraction down to 1/64, else an exact decimal (`0.922"`). `parseLength` reads every text back: to the
 * same number of inches in feet and inches; in millimetres to the same number, or to within 9 parts in 10^16 where no
 * number of millimetres names it. Throws a RangeError for a number that is not finite.
 */
export function formatLength(length: Inches, system: UnitSystem, options: FormatOptions = {}): string {
  if (!Number.isFinite(length)) throw new RangeError(`Not a length: ${length}`);
  if (system === "metric") return `${writeDecimal(decimalOf(inMillimetres(length, options)))} mm`;
  return feetAndInches(step(length, options));
}

function feetAndInches(n: number): string {
  const { count: feet, rest } = splitBy(decimalOf(Math.abs(n)), 12n);
  const negative = n < 0 ? "-" : "";
  const withFeet = feet > 0n || n < 0;
  return withFeet ? `${negative}${feet}'-${inchText(rest, true)}"` : `${inchText(rest, false)}"`;
}

function inchText(rest: ExactDecimal, afterFeet: boolean): string {
  const { count: whole, rest: part } = splitBy(rest, 1n);
  const parts = toNumber(part) * FINEST;
  if (parts === 0) return `${whole}`;
  if (!Number.isInteger(parts)) return writeDecimal(rest);
  let [top, bottom] = [parts, FINEST];
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return whole === 0n && !afterFeet ? `${top}/${bottom}` : `${whole} ${top}/${bottom}`;
}

/** The fewest digits of millimetres that come back as the same inches. */
function inMillimetres(length: Inches, options: FormatOptions): number {
  const exact = (length * (MM_PER_INCH * 10)) / 10;
  if (options.nearest !== undefined) return step(Number(exact.toPrecision(14)), options);
  for (let digits = 1; digits < 17; digits++) {
    const short = Number(exact.toPrecision(digits));
    if (toInches({ value: short, unit: "mm" }) === length) return short;
  }
  return exact;
}

function step(n: number, { nearest, round = "nearest" }: FormatOptions): number {
  if (nearest === undefined) return n;
  if (!(nearest > 0)) throw new RangeError(`Not a step: ${nearest}`);
  const steps = n / nearest;
  // A value that is a step but for rounding error stays on it, whichever way it is being rounded.
  const near = Math.round(steps);
  const whole =
    Math.abs(steps - near) <= 1e-9 * Math.max(1, Math.abs(steps))
      ? near
      : round === "down"
        ? Math.floor(steps)
        : round === "up"
          ? Math.ceil(steps)
          : Math.floor(steps + 0.5);
  return Number((whole * nearest).toPrecision(14)) + 0;
}
