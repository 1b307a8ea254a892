import fc from "fast-check";

/**
 * Numbers spread evenly from `min` to `max`. `fc.double` spreads over the numbers there are, half of which are smaller than any that is drawn: a turn, a
 * shift or a slope from it is nearly always none.
 */
export const evenly = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 2 ** 30 }).map((n) => min + ((max - min) * n) / 2 ** 30);
