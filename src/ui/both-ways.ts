import { type Length, settle, toInches } from "../units/length.ts";
import { MM_PER_INCH } from "../units/quantity.ts";

/** A length as it was given, and the same in the other system: an amendment is seldom stated in both. */
export function bothWays(length: Length): { imperial: Length; metric: Length } {
  const isMetric = length.unit === "mm" || length.unit === "m";
  const inch: Length = { value: toInches(length), unit: "in" };
  const mm: Length = { value: settle(toInches(length) * MM_PER_INCH), unit: "mm" };
  return isMetric ? { imperial: inch, metric: length } : { imperial: length, metric: mm };
}
