import fc from "fast-check";
import { expect, test } from "vitest";
import { type Interval, intersect, normalise, subtract, totalLength, unite } from "../../src/geometry/interval-set.ts";

const seed = 31;
/** Small whole ends, so that intervals often touch and coincide. */
const anyList = fc.array(
  fc.tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: 0, max: 20 })).map(([a, b]): Interval => [a, b]),
  { maxLength: 8 },
);
const anySet = anyList.map(normalise);
const has = (set: readonly Interval[], x: number) => set.some(([from, to]) => from <= x && x <= to);
/** Half and quarter points tell inside from outside without touching an end. */
const between = Array.from({ length: 20 }, (_, i) => i + 0.5);
const ends = Array.from({ length: 21 }, (_, i) => i);

test(`set algebra agrees with membership point by point (seed ${seed})`, () => {
  fc.assert(
    fc.property(anySet, anySet, (a, b) => {
      for (const set of [unite(a, b), intersect(a, b), subtract(a, b)]) {
        set.forEach(([from, to], i) => {
          expect(from).toBeLessThanOrEqual(to);
          if (i > 0) expect(from).toBeGreaterThan(set[i - 1]![1]);
        });
      }
      for (const x of [...between, ...ends]) {
        expect(has(unite(a, b), x)).toBe(has(a, x) || has(b, x));
        expect(has(intersect(a, b), x)).toBe(has(a, x) && has(b, x));
      }
      for (const x of between) expect(has(subtract(a, b), x)).toBe(has(a, x) && !has(b, x));
      expect(totalLength(subtract(a, b)) + totalLength(intersect(a, b))).toBe(totalLength(a));
    }),
    { numRuns: 500, seed },
  );
});
