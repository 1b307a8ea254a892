import { describe, expect, it, test } from "vitest";
import { measurePlans, PLAN_COUNTS } from "./measure-plans.ts";
import { frames } from "./measure-reading.ts";

const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);

describe(`random plans of the seeds ${SEEDS[0]} to ${SEEDS.at(-1)}, drawn by another library`, () => {
  // Two lines that lie in one line closer together than a break is wide cannot be told apart, nor can a place between two dashes that a
  // grid line passes. Where two lines are as near to a text it is tied to neither.
  const least = { runs: { found: 0.98, true: 0.98 }, ties: { found: 0.98, true: 1 } } as const;

  it("give up what is written and drawn on them, and nothing else", async () => {
    const tallies = await measurePlans(SEEDS);
    for (const name of PLAN_COUNTS) {
      const { drawn, found, right, notes } = tallies[name];
      const told = [name, ...notes].join("\n");
      expect(drawn, told).toBeGreaterThanOrEqual(SEEDS.length);
      const wanted = name === "runs" || name === "ties" ? least[name] : { found: 1, true: 1 };
      expect(right / drawn, told).toBeGreaterThanOrEqual(wanted.found);
      expect(right / found, told).toBeGreaterThanOrEqual(wanted.true);
    }
  }, 120_000);
});

// Plans on which nothing is doubtful: with grid lines A and A.1, text set glyph by glyph, one view or two.
test.each(frames.map((frame) => [frame.rotate, frame.corner, frame.userUnit, frame] as const))(
  "plans on a page turned by %d with its crop box at %j and a user unit of %d give all of it in sheet space",
  async (_rotate, _corner, _unit, frame) => {
    const tallies = await measurePlans([5, 9, 14], [frame]);
    for (const name of PLAN_COUNTS) {
      const { drawn, found, right, notes } = tallies[name];
      expect({ name, notes, found, right }).toEqual({ name, notes: [], found: drawn, right: drawn });
    }
  },
);
