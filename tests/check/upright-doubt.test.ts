import { describe, expect, test } from "vitest";
import type { Tag } from "../../src/job/fields.ts";
import type { Area } from "../../src/job/schema.ts";
import { box, findingOf, findingsOf, inch, rectangle, roof, run, tag } from "./inch-job.ts";

/* A deck that may be off by 1/4 in. each way, and tags that may be off by 1/8 in. */
const loose = (z: number, more: Partial<Area> = {}): Area => {
  const plain = roof(z, more);
  return { ...plain, elevation: { ...plain.elevation, plusMinus: inch(0.25) } };
};
const off = { plusMinus: inch(0.125) } as const;
const below = (length: number): Tag => tag(length, "top", { ...off, datum: { from: "below-deck" } });
const level = (z: number): Tag => tag(z, "top", off);
const along = (one: Tag, other: Tag) =>
  run([
    [10, 50, one],
    [500, 50, other],
  ]);
const width = (areas: Record<string, Area>, element: Parameters<typeof findingOf>[1]): number => {
  const [lo, hi] = findingOf(areas, element).intervalIn!;
  return (hi - lo) / 2;
};

describe("a tag counted from a deck", () => {
  test("under that deck the deck's own doubt cancels: the tag's alone is left", () => {
    expect(width({ a: loose(144) }, along(below(4), below(4)))).toBeCloseTo(0.125, 9);
    expect(width({ a: loose(144) }, along(level(140), level(140)))).toBeCloseTo(0.375, 9);
    expect(width({ a: loose(144) }, box(100, 100, below(4)))).toBeCloseTo(0.125, 9);
  });

  test("it decides: 1 5/8 in. below a loose deck is clear so counted, borderline from the datum", () => {
    expect(findingOf({ a: loose(144) }, along(below(1.625), below(1.625))).verdict).toBe("clear");
    expect(findingOf({ a: loose(144) }, along(level(142.375), level(142.375))).verdict).toBe("borderline");
  });

  test("where only one end is counted from it, the doubts add up", () => {
    expect(width({ a: loose(144) }, along(below(4), level(140)))).toBeCloseTo(0.125 + 0.25 + 0.25, 9);
  });

  test("against another deck both decks are in doubt", () => {
    // Beside the lower deck, level with its edge, 1 in. off it: the other deck, 40 in. up, is what the tags are counted from.
    const areas = {
      a: loose(184, { label: "High", outline: rectangle(0, 0, 600, 600) }),
      b: loose(144, { label: "Low", outline: rectangle(601, 0, 900, 600) }),
    };
    const element = run([
      [400, 50, below(42)],
      [599, 50, below(42)],
    ]);
    const low = findingsOf(areas, element).find((finding) => finding.areas[0] === "b");
    const [lo, hi] = low!.intervalIn!;
    // From (599, 141.539) to (601, 144): so much of the way is up.
    const up = (144 - 141.539) / Math.hypot(2, 144 - 141.539);
    expect((hi - lo) / 2).toBeCloseTo(up * (0.125 + 0.25 + 0.25), 9);
  });

  test("the reasons say so", () => {
    const said = JSON.stringify(findingOf({ a: loose(144) }, along(below(1), below(1))).reasons);
    expect(said).toContain("Tag, counted from this deck, up or down");
  });
});
