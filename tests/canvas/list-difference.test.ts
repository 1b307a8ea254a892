import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { listDifference } from "../../src/canvas/list-difference.ts";

interface Item {
  readonly key: string;
}

/** The same items, what came between them replaced: at each place some taken out and others put in. */
const edited = (most: number) =>
  fc
    .array(
      fc.record({
        taken: fc.oneof(fc.nat({ max: most }), fc.constantFrom(0, most)),
        put: fc.oneof(fc.nat({ max: most }), fc.constantFrom(0, most)),
        kept: fc.integer({ min: 1, max: 5 }),
      }),
      { maxLength: 12 },
    )
    .map((stretches) => {
      let count = 0;
      const items = (n: number): Item[] => Array.from({ length: n }, () => ({ key: `item ${count++ % 7}` }));
      const [before, after]: [Item[], Item[]] = [[], []];
      for (const { taken, put, kept } of stretches) {
        const both = items(kept);
        before.push(...items(taken), ...both);
        after.push(...items(put), ...both);
      }
      return { before, after };
    });

/** Two lists of items out of one hoard, each at most once, in any order. */
const shuffled = fc
  .uniqueArray(fc.nat({ max: 120 }), { maxLength: 90 })
  .chain((before) =>
    fc.tuple(
      fc.constant(before),
      fc.shuffledSubarray(before),
      fc.uniqueArray(fc.integer({ min: 121, max: 140 }), { maxLength: 9 }),
    ),
  )
  .chain(([before, kept, others]) => fc.tuple(fc.constant(before), fc.shuffledSubarray([...kept, ...others])))
  .map(([before, after]) => {
    const hoard = Array.from({ length: 141 }, (_, i): Item => ({ key: `item ${i}` }));
    return { before: before.map((i) => hoard[i]!), after: after.map((i) => hoard[i]!) };
  });

/** What is in the first list and not in the second, looked for one by one. */
const without = (items: readonly Item[], others: readonly Item[]) =>
  items.filter((item) => !others.some((other) => other === item));

/** Compares objects, not what they say. */
const same = (a: readonly unknown[], b: readonly unknown[]) => a.length === b.length && a.every((x, i) => x === b[i]);

describe("the difference of two lists", () => {
  test("makes the later of the earlier one: what stays is the same in both, in the same order", () => {
    fc.assert(
      fc.property(fc.oneof(shuffled, edited(50)), ({ before, after }) => {
        const { gone, come } = listDifference(before, after);
        expect(same(without(before, gone), without(after, come))).toBe(true);
        expect(without(gone, before)).toEqual([]);
        expect(
          same(
            come,
            after.filter((item) => come.includes(item)),
          ),
        ).toBe(true);
        expect(new Set(gone).size).toBe(gone.length);
        expect(without(without(before, after), gone)).toEqual([]);
        expect(without(without(after, before), come)).toEqual([]);
      }),
    );
  });

  test("is the least there is where up to 32 items in one place are replaced, whatever their keys", () => {
    fc.assert(
      fc.property(edited(32), ({ before, after }) => {
        const { gone, come } = listDifference(before, after);
        expect(same(gone, without(before, after))).toBe(true);
        expect(same(come, without(after, before))).toBe(true);
      }),
    );
  });

  test("says for each that has come what stands before it, and what comes next of those that were there", () => {
    fc.assert(
      fc.property(fc.oneof(shuffled, edited(40)), ({ before, after }) => {
        const { come, following } = listDifference(before, after);
        expect(following.length).toBe(come.length);
        for (const [i, item] of come.entries()) {
          const at = after.indexOf(item);
          const next = after.slice(at + 1).find((other) => !come.includes(other));
          expect(same(following[i]!, [after[at - 1], next])).toBe(true);
        }
      }),
    );
  });

  test("is nothing for the same items in another array, and one for an equal item that is another object", () => {
    const items = ["a", "b", "c"].map((key): Item => ({ key }));
    expect(listDifference(items, [...items])).toEqual({ gone: [], come: [], following: [] });
    const other = { key: "b" };
    const { gone, come } = listDifference(items, [items[0]!, other, items[2]!]);
    expect(same(gone, [items[1]])).toBe(true);
    expect(same(come, [other])).toBe(true);
  });
});
