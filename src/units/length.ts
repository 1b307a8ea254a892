import type { Inches } from "./quantity.ts";
import { MM_PER_INCH } from "./quantity.ts";

/** A length as a person gave it and as it is stored: a value with its unit, never bare. */
export interface Length {
  readonly value: number;
  readonly unit: LengthUnit;
}
/** The units a stored length may have. */
export type LengthUnit = "in" | "ft" | "mm" | "m";
/** The two ways a job writes lengths. */
export type UnitSystem = "imperial" | "metric";

/**
 * The length in inches, by 1 in. = 25.4 mm exactly (NIST SP 811, B.8). Where a short decimal lies within the rounding
 * error of the division, that decimal is the answer: 3810 mm is 150 in., 9.525 mm is 0.375 in.
 */
export function toInches(length: Length): Inches {
  switch (length.unit) {
    case "in":
      return length.value as Inches;
    case "ft":
      return settle(length.value * 12) as Inches;
    case "mm":
      return settle((length.value * 10) / (MM_PER_INCH * 10)) as Inches;
    case "m":
      return settle((length.value * 10_000) / (MM_PER_INCH * 10)) as Inches;
  }
}

/** The nearest decimal of 14 digits when it is within rounding error of `n`, else `n` itself. */
export function settle(n: number): number {
  const short = Number(n.toPrecision(14));
  return Math.abs(short - n) <= Math.abs(n) * 4.5e-16 ? short : n;
}
