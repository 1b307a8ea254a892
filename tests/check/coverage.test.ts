import { describe, expect, test } from "vitest";
import type { Area } from "../../src/job/schema.ts";
import { check, findingsOf, inch, roof, run, tag } from "./inch-job.ts";

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
