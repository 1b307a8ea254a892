import { describe, expect, it } from "vitest";
import type { Area } from "../../src/job/schema.ts";
import { findingsOf, rectangle, roof, run } from "./inch-job.ts";

/*
 * Runs that go through a deck whose lowest surface is at 144 in., 1 1/2 in. deep: what each comes to, and whether that is said of its passage. Upright is what goes
 * sideways by no more than a tenth of what it rises.
 */
type Place = readonly [x: number, y: number, z: number];
const deck = roof(144);
const told = (places: readonly Place[], areas: Record<string, Area> = { a: deck }): string[] =>
  findingsOf(areas, run(places))
    .map(({ verdict, penetration }) => (penetration ? `${verdict}, passing` : verdict))
    .sort();

const PASSES: readonly (readonly [name: string, places: readonly Place[], told: readonly string[]])[] = [
  [
    "straight up out of a level stretch that is far enough",
    [
      [300, 50, 100],
      [100, 50, 100],
      [100, 50, 200],
    ],
    ["cannot-tell, passing"],
  ],
  [
    "at a slope",
    [
      [100, 100, 100],
      [300, 250, 190],
    ],
    ["too-close, passing"],
  ],
  [
    "straight up at one place, down at a slope at another",
    [
      [100, 50, 100],
      [100, 50, 200],
      [300, 50, 200],
      [500, 50, 100],
    ],
    ["too-close, passing"],
  ],
  [
    // Its top comes within 1 1/2 in., but it leads up to the passage and is as upright: 4.3 over 43.5.
    "up through a riser that is set off a little just below the deck",
    [
      [100, 50, 100],
      [104.3, 50, 143.5],
      [104.3, 50, 200],
    ],
    ["cannot-tell, passing"],
  ],
  [
    "up through a riser of three pieces, each set off a little",
    [
      [100, 50, 100],
      [104, 50, 143],
      [104.05, 50.03, 143.6],
      [104.05, 50.03, 200],
    ],
    ["cannot-tell, passing"],
  ],
  [
    // 8.7 over 43.5: no riser, and its upper end is 0.039 in. below the deck at most.
    "straight up from the end of a stretch that climbs to the deck at a slope",
    [
      [100, 50, 100],
      [108.7, 50, 143.5],
      [108.7, 50, 200],
    ],
    ["cannot-tell, passing", "too-close"],
  ],
  [
    "at a slope, after a stretch that nears the deck and turns in plan",
    [
      [100, 100, 130],
      [200, 100, 143.5],
      [200, 200, 157],
    ],
    ["too-close", "too-close, passing"],
  ],
  [
    "at a slope, after a stretch in the same line of plan that climbs less",
    [
      [100, 100, 140],
      [200, 100, 143.5],
      [300, 100, 160],
    ],
    ["too-close", "too-close, passing"],
  ],
  [
    "straight up, and on over the deck",
    [
      [100, 50, 100],
      [100, 50, 147],
      [300, 50, 147],
    ],
    ["cannot-tell, passing"],
  ],
];

describe("a run that goes through a deck", () => {
  it.each(PASSES)("%s", (_, places, verdicts) => {
    expect(told(places)).toEqual(verdicts);
    expect(told([...places].reverse())).toEqual(verdicts);
  });

  it.each(PASSES)("%s: a vertex more within a straight changes nothing", (_, places, verdicts) => {
    for (const part of [0.1, 0.45, 0.5, 0.9])
      for (let i = 0; i + 1 < places.length; i++) {
        const [p, q] = [places[i]!, places[i + 1]!];
        const between = [0, 1, 2].map((k) => p[k]! + part * (q[k]! - p[k]!)) as unknown as Place;
        const cut = [...places.slice(0, i + 1), between, ...places.slice(i + 1)];
        expect(told(cut), `after vertex ${i + 1}, at ${part}`).toEqual(verdicts);
      }
  });

  it("a vertex where it meets the surface, or within the depth of the deck, changes nothing either", () => {
    // From 100 to 190: at 144 after 44 / 90 of the way, at 144.7 after 44.7 / 90.
    for (const z of [143.9, 144, 144.7, 145.5, 146]) {
      const part = (z - 100) / 90;
      const cut: Place = [100 + 200 * part, 100 + 150 * part, z];
      expect(told([[100, 100, 100], cut, [300, 250, 190]]), `${z}`).toEqual(["too-close, passing"]);
    }
  });

  it.each(PASSES)("%s: a vertex given twice changes nothing", (_, places, verdicts) => {
    for (let i = 0; i < places.length; i++)
      expect(told([...places.slice(0, i + 1), ...places.slice(i)])).toEqual(verdicts);
  });

  it("and has a riser elsewhere that ends below the deck: that one is too close as any", () => {
    const places: readonly Place[] = [
      [100, 50, 200],
      [100, 50, 100],
      [300, 50, 100],
      [300, 50, 143.5],
    ];
    expect(told(places)).toEqual(["cannot-tell, passing", "too-close"]);
    expect(told([...places].reverse())).toEqual(["cannot-tell, passing", "too-close"]);
  });

  it("is told by how far its round end reaches above the lowest surface", () => {
    for (const way of [
      [100, 200],
      [200, 100],
    ])
      expect(findingsOf({ a: deck }, run(way.map((z) => [100, 50, z] as const)))[0]!.leastIn).toBeCloseTo(
        144 - 200 - 0.461,
        9,
      );
  });

  it("and comes up beside it: what lies above it has not gone through", () => {
    const half = roof(144, { outline: rectangle(0, 0, 300, 600) });
    const high = roof(300, { label: "A-2", outline: rectangle(0, 0, 600, 600) });
    const over: readonly Place[] = [
      [400, 50, 100],
      [400, 50, 200],
      [100, 50, 200],
    ];
    for (const way of [over, [...over].reverse()]) {
      const [found, ...more] = findingsOf({ a: half, h: high }, run(way));
      expect(more).toEqual([]);
      expect(found).toMatchObject({ verdict: "cannot-tell", areas: ["a"] });
      expect(found!.penetration).toBeUndefined();
      expect(found!.leastIn).toBeCloseTo(144 - 200 - 0.461, 9);
    }
  });

  it("of a deck whose depth is not recorded, what is above its lowest surface is above it", () => {
    const unknown = roof(144, { deck: { profile: "steel-other", depth: null, concreteCover: { is: "none" } } });
    const up: readonly Place[] = [
      [100, 50, 100],
      [100, 50, 145.2],
      [300, 50, 145.2],
    ];
    expect(told(up, { a: unknown })).toEqual(["cannot-tell, passing"]);
  });

  it("goes round its edge: nothing passes, and what lies above it cannot be told", () => {
    const half = roof(144, { outline: rectangle(0, 0, 300, 600) });
    const high = roof(300, { label: "A-2", outline: rectangle(0, 0, 600, 600) });
    const round: readonly Place[] = [
      [100, 50, 100],
      [400, 50, 100],
      [400, 50, 200],
      [100, 50, 200],
    ];
    expect(told(round, { a: half, h: high })).toEqual(["cannot-tell"]);
  });
});
