import { describe, expect, it } from "vitest";
import { changedList, inPortions, type ListChange, listChange } from "../../src/check/list-change.ts";
import { seeded } from "../geometry/random-scenes.ts";

const item = (n: number) => ({ n });
const freshIn = (change: ListChange<object>): number =>
  change.reduce((sum, part) => sum + ("fresh" in part ? part.fresh.length : 0), 0);

describe("a list said by what is kept of the one before", () => {
  it("says only what is new", () => {
    const before = Array.from({ length: 10 }, (_, n) => item(n));
    const after = [before[0]!, item(10), ...before.slice(2)];
    const change = listChange(before, after);
    expect(change).toEqual([{ from: 0, count: 1 }, { fresh: [{ n: 10 }] }, { from: 2, count: 8 }]);
    expect(changedList(before, change)).toEqual(after);
  });
  it("gives the same list after random changes, in portions or not", () => {
    const random = seeded(7);
    let list: { n: number }[] = [];
    for (let round = 0; round < 200; round++) {
      const kept = list.filter(() => random() < 0.9);
      const after = kept.flatMap((one) => (random() < 0.1 ? [one, item(round)] : [one]));
      if (random() < 0.5) after.push(item(round));
      if (random() < 0.1) after.reverse();
      const change = listChange(list, after);
      const made = changedList(list, change);
      expect(made.length).toBe(after.length);
      expect(made.every((one, place) => one === after[place])).toBe(true);
      const portions = inPortions(change, 3);
      expect(portions.every((portion) => freshIn(portion) <= 3)).toBe(true);
      expect(changedList(list, portions.flat())).toEqual(after);
      list = after;
    }
  });
});
