import { describe, expect, it } from "vitest";
import { findingOf, findingsOf, inch, roof, run, tag } from "./inch-job.ts";

describe("readings that are off together", () => {
  it("tag and deck each add to the most the distance can be: 4 + 1/4 + 1/2 in.", () => {
    const deck = roof(144, { elevation: { ...roof(144).elevation, plusMinus: inch(0.5) } });
    const given = tag(140, "top", { plusMinus: inch(0.25) });
    const found = findingOf(
      { a: deck },
      run([
        [100, 50, given],
        [400, 50, given],
      ]),
    );
    expect(found.leastIn).toBeCloseTo(4, 9);
    expect(found.intervalIn?.[1]).toBeCloseTo(4.75, 9);
  });
});

describe("a riser through a deck at 144 in.", () => {
  const verdicts = (heights: readonly number[]) =>
    findingsOf({ a: roof(144) }, run(heights.map((z) => [100, 50, z] as const))).map(({ verdict }) => verdict);

  it("traced in several pieces is one riser", () => {
    expect(verdicts([100, 150])).toEqual(["cannot-tell"]);
    // The piece that ends 1/2 in. below the deck leads up to it, and is not too close by itself.
    expect(verdicts([100, 143.5, 150])).toEqual(["cannot-tell"]);
    expect(verdicts([150, 143.5, 143, 100])).toEqual(["cannot-tell"]);
    expect(verdicts([100, 143, 143.5, 150])).toEqual(["cannot-tell"]);
  });
});
