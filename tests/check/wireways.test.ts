import { describe, expect, it } from "vitest";
import type { Element } from "../../src/job/elements/element.ts";
import type { Area } from "../../src/job/schema.ts";
import { findingOf, findingsOf, inch, rectangle, roof, run, tag } from "./inch-job.ts";

/* A wireway of rectangular section, its width level: 8 in. wide and 6 in. high unless said otherwise. Expectations by plane geometry of its section. */
type Place = readonly [x: number, y: number, bottom: number];
const wireway = (places: readonly Place[], width = 8, height = 6): Element =>
  run(
    places.map(([x, y, z]) => [x, y, tag(z, "bottom")] as const),
    {
      wiring: {
        type: "wireway",
        tradeSize: "4x4",
        outsideDiameter: null,
        section: { width: inch(width), height: inch(height) },
      },
    },
  );
const high = roof(300, { label: "High", outline: rectangle(-500, -500, 1500, 1500) });
const of = (areas: Record<string, Area>, element: Element, area: string) =>
  findingsOf(areas, element).find((found) => found.areas[0] === area);

describe("a wireway", () => {
  it("is too close where its top is, station by station, round its corner", () => {
    const areas = { a: roof(144, { outline: rectangle(0, 0, 300, 600) }), h: high };
    const places: readonly Place[] = [
      [500, 100, 137],
      [500, 300, 137],
      [100, 300, 137],
    ];
    // Its top is 1 in. below the deck, and within 1 1/2 in. of its edge for sqrt(1.5^2 - 1) beyond it.
    const past = Math.sqrt(1.5 ** 2 - 1);
    const there = of(areas, wireway(places), "a")!;
    expect(there.verdict).toBe("too-close");
    expect(there.leastIn).toBeCloseTo(1, 9);
    expect(there.verticalIn).toBeCloseTo(1, 9);
    expect(there.stretches).toHaveLength(1);
    expect(there.stretches[0]!.fromIn).toBeCloseTo(200 + 200 - past, 6);
    expect(there.stretches[0]!.toIn).toBeCloseTo(600, 6);
    const back = of(areas, wireway([...places].reverse()), "a")!;
    expect(back.stretches[0]!.fromIn).toBeCloseTo(0, 6);
    expect(back.stretches[0]!.toIn).toBeCloseTo(200 + past, 6);
    expect(there.remedies.find(({ kind }) => kind === "lower")).toMatchObject({ byIn: 0.5 });
  });

  // Its end is square to it: the upper edge of that is half the height, times the cosine, above the end of its axis.
  it("that climbs by 1 in 4 is nearest with the upper edge of its end", () => {
    const found = findingOf(
      { a: roof(144, { outline: rectangle(-500, -500, 1500, 1500) }) },
      wireway([
        [100, 100, 30],
        [500, 100, 130],
      ]),
    );
    expect(found.leastIn).toBeCloseTo(144 - 133 - (3 * 4) / Math.sqrt(17), 9);
    expect(found.at[0]).toBeCloseTo(500, 6);
  });

  // Below the deck its highest is the upper edge of its end; above it, what is said is how far its upper side is over its axis, 3 in. / cos, as if it went on.
  it("that climbs is marked and told straight up at its upper end, and so where it reaches into the deck", () => {
    for (const [low, high, least] of [
      [30, 130, 144 - 133 - (3 * 4) / Math.sqrt(17)],
      [40.5, 140.5, 144 - 143.5 - (3 * 4) / Math.sqrt(17)],
      [45, 145, 144 - 148 - 3 * Math.hypot(1, 1 / 4)],
    ] as const) {
      const vertices: readonly Place[] = [
        [100, 100, low],
        [500, 100, high],
      ];
      for (const way of [vertices, [...vertices].reverse()]) {
        const [found] = findingsOf({ a: roof(144, { outline: rectangle(-500, -500, 1500, 1500) }) }, wireway(way));
        expect(found!.at[0]).toBeCloseTo(500, 6);
        expect(found!.verticalIn).toBeCloseTo(least, 9);
      }
    }
  });

  it("that goes on where nothing is outlined cannot be told from there", () => {
    const areas = { a: roof(144, { outline: rectangle(0, 0, 300, 600) }) };
    const vertices: readonly Place[] = [
      [100, 100, 100],
      [200, 100, 100],
      [500, 100, 100],
    ];
    for (const [way, from, to] of [
      [vertices, 200, 400],
      [[...vertices].reverse(), 0, 200],
    ] as const) {
      const found = findingOf(areas, wireway(way));
      expect(found.verdict).toBe("cannot-tell");
      expect(found.stretches).toHaveLength(1);
      expect(found.stretches[0]!.fromIn).toBeCloseTo(from, 6);
      expect(found.stretches[0]!.toIn).toBeCloseTo(to, 6);
    }
  });

  it.each([
    [100, 0, 300],
    [500, 300, 600],
  ])("at x = %d is told by the roof above it alone where the other is farther", (x, from, to) => {
    const areas = {
      a: roof(144, { outline: rectangle(0, 0, 300, 600) }),
      b: roof(144, { label: "Other", outline: rectangle(300, 0, 600, 600) }),
    };
    const found = findingOf(
      areas,
      wireway([
        [x, 100, 130],
        [x, 500, 130],
      ]),
    );
    expect(found.areas.map((id) => areas[id as "a" | "b"].outline)).toEqual([rectangle(from, 0, to, 600)]);
  });

  it("that reaches into the deck is told by how far its top is above the lowest surface", () => {
    const found = findingOf(
      { a: roof(144, { outline: rectangle(-500, -500, 1500, 1500) }) },
      wireway([
        [100, 100, 140.5],
        [500, 100, 140.5],
      ]),
    );
    expect(found.verdict).toBe("too-close");
    expect(found.leastIn).toBeCloseTo(144 - 146.5, 9);
  });

  it.each([
    [30, 60],
    [10, 22],
  ])("is %d in. from the edge of a deck beside it by its side, not by its axis, under one %d in. up", (away, up) => {
    const areas = {
      a: roof(140 + up, { outline: rectangle(0, 0, 300, 600) }),
      b: roof(140, { label: "Beside", outline: rectangle(301, 0, 600, 600) }),
    };
    const found = findingOf(
      areas,
      wireway([
        [301 - 4 - away, 50, 137],
        [301 - 4 - away, 250, 137],
      ]),
    );
    expect(found.verdict).toBe("clear");
    expect(found.leastIn).toBeCloseTo(away, 9);
  });

  // Level on one side of a fold at x = 300, falling at 45 degrees on the other: its corner on that side comes nearest.
  it("under a fold is told by its corner", () => {
    const spots = (
      [
        [200, 0, 44],
        [600, 0, 144],
        [600, 600, 144],
        [200, 600, 44],
        [300, 0, 144],
        [300, 600, 144],
      ] as const
    ).map(([x, y, z]) => ({ at: [x, y] as [number, number], elevation: inch(z) }));
    const lines = [{ between: [5, 6] as [number, number], kind: "ridge" as const }];
    const { elevation } = roof(144);
    const deck = roof(144, {
      outline: rectangle(200, 0, 600, 600),
      elevation: { ...elevation, shape: { is: "spots", spots, lines } },
    });
    for (const [beside, below] of [
      [4.5, 5],
      [6, 4],
      [20, 3],
      [200, 3],
    ] as const) {
      const x = 300 + beside;
      const element = wireway([
        [x, 100, 144 - below - 6],
        [x, 500, 144 - below - 6],
      ]);
      const steep = (beside - 4 + below) / Math.SQRT2;
      expect(findingOf({ a: deck }, element).leastIn).toBeCloseTo(Math.min(below, steep), 9);
    }
  });
});

// Level on one side of a fold through (300, 300), falling at 45 degrees on the other.
it.each([
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
])("a wireway along a fold, the level side to (%d, %d), is told by the corner beside the other", (ux, uy) => {
  const at = (off: number, by: number): [number, number] => [300 + off * ux - by * uy, 300 + off * uy + by * ux];
  const spot = (off: number, by: number, z: number) => ({ at: at(off, by), elevation: inch(z) });
  const spots = [
    spot(-100, -300, 44),
    spot(300, -300, 144),
    spot(300, 300, 144),
    spot(-100, 300, 44),
    spot(0, -300, 144),
    spot(0, 300, 144),
  ];
  const lines = [{ between: [5, 6] as [number, number], kind: "ridge" as const }];
  const { elevation } = roof(144);
  const deck = roof(144, {
    outline: [at(-100, -300), at(300, -300), at(300, 300), at(-100, 300)],
    elevation: { ...elevation, shape: { is: "spots", spots, lines } },
  });
  for (const [beside, below] of [
    [4.5, 1.6],
    [4.2, 1.4],
    [7, 2],
  ] as const) {
    const element = wireway([
      [...at(beside, -200), 144 - below - 6],
      [...at(beside, 200), 144 - below - 6],
    ]);
    const steep = (beside - 4 + below) / Math.SQRT2;
    const [found] = findingsOf({ a: deck }, element);
    expect(found!.leastIn).toBeCloseTo(Math.min(below, steep), 9);
    expect(found!.verdict).toBe(Math.min(below, steep) < 1.5 ? "too-close" : "clear");
    if (found!.verdict === "too-close") expect(found!.stretches).toEqual([{ fromIn: 0, toIn: 400 }]);
  }
});

/** Directions a run comes along, as (x, y) of length 1. */
const WAYS: readonly (readonly [number, number])[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
  [0.6, 0.8],
  [-0.8, 0.6],
];

describe.each(WAYS)("a wireway 8 in. wide and 6 in. high that goes along (%d, %d)", (ux, uy) => {
  /** So far ahead and so far to the left of (300, 300). */
  const at = (ahead: number, left: number): [number, number] => [
    300 + ahead * ux - left * uy,
    300 + ahead * uy + left * ux,
  ];
  const plot = (a0: number, a1: number, l0: number, l1: number) => [at(a0, l0), at(a1, l0), at(a1, l1), at(a0, l1)];
  const places = (all: readonly (readonly [ahead: number, z: number])[]): Place[] =>
    all.map(([ahead, z]) => [...at(ahead, 0), z]);
  // Then straight up: its width stays across the way it came, so that it reaches 4 in. to either side and 3 in. ahead.
  const riser = [
    [-100, 97],
    [0, 97],
    [0, 127],
  ] as const;

  it.each([
    ["ahead", plot(3 + 1, 103, -50, 50)],
    ["to the left", plot(-2, 2, 4 + 1, 104)],
    ["to the right", plot(-2, 2, -104, -4 - 1)],
  ])("and up is 1 in. from the edge of a deck %s of its riser", (_, outline) => {
    const areas = { a: roof(120, { outline }), h: high };
    for (const way of [riser, [...riser].reverse()]) {
      const found = of(areas, wireway(places(way)), "a")!;
      expect(found.verdict).toBe("too-close");
      expect(found.leastIn).toBeCloseTo(1, 9);
    }
  });

  // Along, to the left, and straight up: its width lies across the way it came last, 3 in. on to the left and 4 in. to either side.
  it.each([
    ["on to the left", plot(-2, 2, 100 + 3 + 1, 204)],
    ["ahead", plot(4 + 1, 105, 98, 102)],
    ["back", plot(-105, -4 - 1, 98, 102)],
  ])(
    "and round a corner and up is 1 in. from the edge of a deck %s of its riser, in one piece or in two",
    (_, outline) => {
      const areas = { a: roof(120, { outline }), h: high };
      const corner = (rises: readonly number[]): Place[] => [
        [...at(-100, 0), 97],
        [...at(0, 0), 97],
        [...at(0, 100), 97],
        ...rises.map((z): Place => [...at(0, 100), z]),
      ];
      for (const places of [corner([127]), corner([110, 127])]) {
        const found = of(areas, wireway(places), "a")!;
        expect(found.verdict).toBe("too-close");
        expect(found.leastIn).toBeCloseTo(1, 9);
      }
    },
  );

  it.each([
    [1.4, true],
    [1.6, false],
  ])("speaks of a deck of unknown elevation %d in. beside it: %s", (away, speaks) => {
    const level = places([
      [-100, 97],
      [100, 97],
    ]);
    for (const outline of [plot(-20, 20, 4 + away, 50), plot(-20, 20, -50, -4 - away), plot(100 + away, 150, -20, 20)])
      expect(of({ a: roof(null, { outline }), h: high }, wireway(level), "a") !== undefined).toBe(speaks);
  });
});
