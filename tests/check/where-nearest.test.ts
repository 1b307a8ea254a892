import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/check/finding.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { box, findingOf, findingsOf, inch, inchJob, rectangle, roof, run, tag } from "./inch-job.ts";

/* What is told of the place where an element is nearest: the gap straight up, the doubt, the mark on the sheet. Half of 3/4 EMT is 0.461 in. (ANSI C80.3). */
const R = 0.461;
const low = (more: Partial<Area> = {}) => roof(144, { label: "Low", outline: rectangle(0, 0, 300, 600), ...more });
const high = roof(400, { label: "High", outline: rectangle(300, 0, 600, 600) });
/** Rising out from under the edge of the lower deck, at x = 300, where its axis is 14 in. below that edge; and the other way along. */
const rising = [
  [100, 300, 100],
  [500, 300, 160],
] as const;
const WAYS = [rising, [...rising].reverse()] as const;
const of = (found: readonly Finding[], area: string) => found.find(({ areas }) => areas[0] === area)!;

describe("a run that rises out from under the edge of a deck", () => {
  it("is nearest to that edge beyond it, square to its way, and no gap is told straight up", () => {
    for (const way of WAYS) {
      const found = of(findingsOf({ a: low(), b: high }, run(way)), "a");
      expect(found.leastIn).toBeCloseTo((14 * 400) / Math.hypot(400, 60) - R, 9);
      expect(found.verticalIn).toBeNull();
      expect(found.at[0]).toBeCloseTo(300 + (14 * 60 * 400) / (400 ** 2 + 60 ** 2), 6);
    }
  });

  it("is marked half way along what lies under the deck where it is that deck that cannot be told", () => {
    const unsettled = low({ classification: { is: "not-settled", reason: "", by: "" } });
    for (const way of WAYS) {
      const found = of(findingsOf({ a: unsettled, b: high }, run(way)), "a");
      expect(found.verdict).toBe("cannot-tell");
      expect(found.at[0]).toBeCloseTo(200, 6);
    }
  });
});

it("a run too close at both ends is marked at the one that is nearer", () => {
  for (const [from, to, x] of [
    [143, 143.1, 500],
    [143.1, 143, 100],
  ] as const) {
    const found = findingOf(
      { a: roof(144) },
      run([
        [100, 300, from],
        [300, 300, 100],
        [500, 300, to],
      ]),
    );
    expect(found.stretches).toHaveLength(2);
    expect(found.at).toEqual([x, 300]);
  }
});

/** A deck that falls by 3 in 4 along (0.6, 0.8), 144 in. at (300, 300): square to it is 0.6 aside for 0.8 down. */
const steep: Area = {
  ...roof(null),
  elevation: {
    ...roof(null).elevation,
    shape: { is: "slope", at: inch(144), point: [300, 300], towards: [360, 380], rise: 3 / 4, text: "" },
  },
};
const doubtful = (decks: number, plan: number): Job => {
  const job = inchJob();
  const tolerances = { tags: inch(0), decks: inch(decks), plan: inch(plan) };
  return { ...job, settings: { job: { ...job.settings.job, tolerances } } };
};

it("a run through a steep deck may be off, square to the deck, where it reaches farthest above it", () => {
  // The deck is 150 in. lower at the end of the run, 200 in. straight down the slope; the end of the tube is upright, R above its axis.
  const through = run([
    [300 - 60, 300 - 80, 144],
    [300 + 120, 300 + 160, 144],
  ]);
  const least = -(150 + R) * 0.8;
  for (const [decks, plan] of [
    [1, 0],
    [0, 1],
    [0.5, 0.25],
  ] as const) {
    const found = findingOf({ a: steep }, through, doubtful(decks, plan));
    expect(found.penetration).toBe(true);
    expect(found.leastIn).toBeCloseTo(least, 9);
    expect(found.intervalIn![0]).toBeCloseTo(least - 0.8 * decks - 0.6 * plan, 9);
    expect(found.intervalIn![1]).toBeCloseTo(least + 0.8 * decks + 0.6 * plan, 9);
  }
});

it("straight up from a wireway under a steep deck the gap is that of its lower side", () => {
  // Level, across the slope: 8 in. wide, the deck over its lower side is 4 in. times 3/4 lower than over its middle.
  for (const ends of [
    [-100, 100],
    [100, -100],
  ]) {
    const wireway = run(
      ends.map((s) => [300 - s * 0.8, 300 + s * 0.6, tag(120, "top")] as const),
      {
        wiring: {
          type: "wireway",
          tradeSize: "4x4",
          outsideDiameter: null,
          section: { width: inch(8), height: inch(6) },
        },
      },
    );
    const found = findingOf({ a: steep }, wireway);
    expect(found.leastIn).toBeCloseTo((24 - 3) * 0.8, 9);
    expect(found.verticalIn).toBeCloseTo(24 - 3, 9);
  }
});

describe("beside the foot of a slope", () => {
  // Level at 144 in. on one side of x = 300, going up at 45 degrees on the other.
  const spots = (
    [
      [0, 0, 144],
      [500, 0, 344],
      [500, 600, 344],
      [0, 600, 144],
      [300, 0, 144],
      [300, 600, 144],
    ] as const
  ).map(([x, y, z]) => ({ at: [x, y] as [number, number], elevation: inch(z) }));
  const lines = [{ between: [5, 6] as [number, number], kind: "valley" as const }];
  const valley = roof(144, {
    outline: rectangle(0, 0, 500, 600),
    elevation: { ...roof(144).elevation, shape: { is: "spots", spots, lines } },
  });
  const square = { item: "other", size: { width: inch(6), length: inch(6), depth: inch(4) } } as const;

  // Square to the slope from its nearer upper edge, the deck would be there only if the slope went on below its foot.
  it.each([
    [5, 10, Math.hypot(2, 10)],
    [23, 10, 30 / Math.SQRT2],
  ])("a box %d in. up it, its top %d in. below the foot, is told by the deck there is", (beside, below, least) => {
    const found = findingOf({ a: valley }, box(300 + beside, 300, tag(144 - below, "top"), square));
    expect(found.leastIn).toBeCloseTo(least, 9);
  });
});

it("a box tagged above a floor is read by that floor, whatever decks lie over it", () => {
  const base: Job = { ...inchJob(), storeys: { "level-1": { name: "Level 1", floor: inch(40) } } };
  const aboveFloor = tag(96, "top", { datum: { from: "storey", storey: "level-1" } });
  const found = findingOf(
    { a: roof(144, { label: "A-1" }), b: roof(200, { label: "A-2" }) },
    box(300, 300, aboveFloor),
    base,
  );
  expect(found.verdict).toBe("clear");
  expect(found.leastIn).toBeCloseTo(144 - 136, 9);
});

describe("straight up from the upper end of a steep run", () => {
  const four = { type: "emt", tradeSize: "4", outsideDiameter: null };
  const wireway = {
    type: "wireway",
    tradeSize: "4x4",
    outsideDiameter: null,
    section: { width: inch(8), height: inch(6) },
  };
  // 50 in. up in so much of plan. Tube 4.5 in. across (ANSI C80.3) ends round; a wireway ends square to its way, its upper edge over its axis.
  it.each([0, 0.5, 3, 10, 50])(
    "that goes %d in. sideways there is what there is, however long the run is below it",
    (aside) => {
      const vertices = [
        [300, 300, 50],
        [300 + aside, 300, 100],
      ] as const;
      for (const way of [vertices, [...vertices].reverse()]) {
        const round = findingOf({ a: roof(144) }, run(way, { wiring: four }));
        expect(round.leastIn).toBeCloseTo(144 - 100 - 2.25, 9);
        expect(round.verticalIn).toBeCloseTo(144 - 100 - 2.25, 9);
        const square = findingOf({ a: roof(144) }, run(way, { wiring: wireway }));
        expect(square.verticalIn).toBeCloseTo(144 - 100 - (3 * aside) / Math.hypot(aside, 50), 9);
        expect(square.verticalIn).toBeCloseTo(square.leastIn!, 9);
      }
    },
  );
});
