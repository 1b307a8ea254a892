import { describe, expect, test } from "vitest";
import type { Area } from "../../src/job/schema.ts";
import { check, findingsOf, inch, rectangle, roof, run, tag } from "./inch-job.ts";

/* Two decks over one place whose surfaces cross: one level at 144, the other falling along x from 150 by 1 in 50, so they cross at x = 300. */
const level = roof(144, { label: "Level" });
const falling = (more: Partial<Area> = {}): Area => {
  const plain = roof(0, { label: "Falling", ...more });
  const shape = {
    is: "slope" as const,
    at: inch(150),
    point: [0, 0] as const,
    towards: [50, 0] as const,
    rise: 1 / 50,
    text: "",
  };
  return { ...plain, elevation: { ...plain.elevation, shape } };
};
const unsettled: Partial<Area> = { classification: { is: "not-settled", reason: "", by: "" } };
const floor: Partial<Area> = { classification: { is: "floor-above", reason: "", by: "" } };
const along = (from: number, to: number, z = 100) =>
  run([
    [from, 50, tag(z)],
    [to, 50, tag(z)],
  ]);

describe("which deck is next above where the surfaces of two cross", () => {
  test("each is, on its side of the crossing", () => {
    // The middle lies under the level deck; beyond x = 300 the unsettled one is lower.
    const [only, ...more] = findingsOf({ l: level, f: falling(unsettled) }, along(10, 400));
    expect(more).toEqual([]);
    expect(only).toMatchObject({ verdict: "cannot-tell", areas: ["f"] });
    expect(only!.stretches).toHaveLength(1);
    expect(only!.stretches[0]!.fromIn).toBeCloseTo(290, 9);
    expect(only!.stretches[0]!.toIn).toBeCloseTo(390, 9);
  });

  test("a vertex in the middle changes nothing", () => {
    const cut = run([
      [10, 50, tag(100)],
      [205, 50, null],
      [400, 50, tag(100)],
    ]);
    const told = (element: typeof cut) =>
      findingsOf({ l: level, f: falling(unsettled) }, element).map(({ verdict, areas, stretches }) => [
        verdict,
        areas,
        stretches.map(({ fromIn, toIn }) => [fromIn.toFixed(6), toIn.toFixed(6)]),
      ]);
    expect(told(cut)).toEqual(told(along(10, 400)));
  });

  test("wholly on one side only that one is", () => {
    expect(findingsOf({ l: level, f: falling(unsettled) }, along(10, 290)).map((f) => f.verdict)).toEqual(["clear"]);
    expect(findingsOf({ l: level, f: falling(unsettled) }, along(310, 500)).map((f) => f.verdict)).toEqual([
      "cannot-tell",
    ]);
  });

  test("a floor that is lower on one side leaves the roof to the other", () => {
    const { findings } = check({ l: level, f: falling(floor) }, { e1: along(10, 320) });
    expect(findings.map(({ verdict, areas }) => [verdict, areas])).toEqual([["clear", ["l", "f"]]]);
  });

  test("a deck that comes down below the run is the next above it no more", () => {
    // With its 1 1/2 in. of depth the falling deck comes to the bottom of the run, 142.5 - 0.461, where it is at 140.539: x = 473.05.
    const found = findingsOf(
      { l: roof(200, { label: "High", ...floor }), f: falling(unsettled) },
      along(450, 590, 142.5),
    );
    const stretch = found.flatMap(({ stretches }) => stretches);
    expect(found.map(({ verdict }) => verdict)).toEqual(["cannot-tell"]);
    expect(stretch[0]!.fromIn).toBeCloseTo(0, 9);
    expect(stretch[0]!.toIn).toBeCloseTo(473.05 - 450, 6);
  });
});

/* A deck in three planes over (0, 0) to (600, 600): its elevations at x = 0, 200, 400 and 600, level along y. */
const folded = (heights: readonly [number, number, number, number], more: Partial<Area> = {}): Area => {
  const at = (x: number, y: number, z: number) => ({ at: [x, y] as [number, number], elevation: inch(z) });
  const xs = [0, 200, 400, 600];
  const spots = xs.flatMap((x, i) => [at(x, 0, heights[i]!), at(x, 600, heights[i]!)]);
  const line = (a: number, b: number) => ({ between: [a, b] as [number, number], kind: "ridge" as const });
  const plain = roof(0, { label: "Folded", ...more });
  const shape = { is: "spots" as const, spots, lines: [line(3, 4), line(5, 6)] };
  return { ...plain, elevation: { ...plain.elevation, shape } };
};

describe("which deck is next above where one of two is folded", () => {
  const lower = (deck: Area, from: number, to: number, over: Area = level) =>
    findingsOf({ l: over, f: deck }, along(from, to))
      .filter(({ areas }) => areas[0] === "f")
      .flatMap(({ stretches }) => stretches.map(({ fromIn, toIn }) => [fromIn, toIn].map((s) => Number(s.toFixed(6)))));

  // Below 144 where it says; a run from x = 10 to 590, and the same back.
  test.each<readonly [string, readonly [number, number, number, number], readonly (readonly [number, number])[]]>([
    ["crosses on its way down and on its way up", [184, 124, 124, 184], [[133 + 1 / 3, 466 + 2 / 3]]],
    [
      "crosses twice, on one side and on the other",
      [124, 164, 164, 124],
      [
        [10, 100],
        [500, 590],
      ],
    ],
    ["crosses at the fold itself, and goes down more steeply", [164, 144, 104, 184], [[200, 500]]],
    ["crosses at both folds", [164, 144, 144, 124], [[400, 590]]],
    ["crosses in the middle plane alone", [184, 164, 124, 104], [[300, 590]]],
  ])("%s", (_, heights, spans) => {
    const deck = folded(heights, unsettled);
    const there = spans.map(([a, b]) => [a - 10, b - 10].map((s) => Number(s.toFixed(6))));
    expect(lower(deck, 10, 590)).toEqual(there);
    const back = [...spans].reverse().map(([a, b]) => [590 - b, 590 - a].map((s) => Number(s.toFixed(6))));
    expect(lower(deck, 590, 10)).toEqual(back);
  });

  test("and the other covers a part of the run alone", () => {
    const part = roof(144, { label: "Level", outline: rectangle(50, 0, 550, 600), ...floor });
    // Outside the level one it is the only one; inside, next where it is lower.
    expect(lower(folded([124, 164, 164, 124], unsettled), 10, 590, part)).toEqual([
      [0, 90],
      [490, 580],
    ]);
  });
});

test("under two floors of which no elevation is known there is a floor", () => {
  const upper = (label: string) => roof(null, { label, ...floor });
  const found = findingsOf({ one: upper("F-1"), other: upper("F-2") }, along(10, 400));
  expect(found.map(({ verdict }) => verdict)).toEqual(["not-governed"]);
});

test("of three decks one over another the lowest is the next, whichever was outlined first", () => {
  const decks = [
    roof(200, { label: "High" }),
    roof(144, { label: "Low", ...unsettled }),
    roof(180, { label: "Middle" }),
  ];
  for (const order of [
    [0, 1, 2],
    [1, 0, 2],
    [0, 2, 1],
    [1, 2, 0],
    [2, 0, 1],
    [2, 1, 0],
  ]) {
    const areas = Object.fromEntries(order.map((n, i) => [`a${i}`, decks[n]!]));
    const found = findingsOf(areas, along(10, 400));
    expect(
      found.map(({ verdict, areas: [first] }) => [verdict, areas[first!]!.label]),
      order.join(),
    ).toEqual([["cannot-tell", "Low"]]);
  }
});
