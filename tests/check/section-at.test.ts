import { describe, expect, it } from "vitest";
import { SECTION_REACH_IN, sectionAt } from "../../src/check/section-at.ts";
import type { Area } from "../../src/job/schema.ts";
import { box, findingOf, inch, inchJob, rectangle, roof, run, withParts } from "./inch-job.ts";

/** Falls 3 in 12 towards +x: 200 at x = 0, 50 at x = 600. */
const steep: Area = {
  ...roof(null),
  elevation: {
    ...roof(null).elevation,
    shape: { is: "slope", at: inch(200), point: [0, 300], towards: [600, 300], rise: 1 / 4, text: "" },
  },
};
const section = (areas: Record<string, Area>, element: Parameters<typeof findingOf>[1], station: number) =>
  sectionAt(withParts(inchJob(), areas, { e1: element }), "e1", station)!;

/** Along y at x = 240, where the deck is 140: 5 in. below it. */
const level = run([
  [240, 100, 135],
  [240, 300, 135],
]);

describe("a section through wiring", () => {
  it("goes the way the deck is nearest, and has the least distance in it, worked by hand", () => {
    const cut = section({ a: steep }, level, 80);
    // Square to 3 in 12: 5 cos(14.036 deg) = 5 x 4 / sqrt(17), less 0.461 for 3/4 EMT; its foot lies 5 sin cos = 5 x 4/17 lower down the slope.
    expect(cut.nearest?.leastIn).toBeCloseTo((5 * 4) / Math.sqrt(17) - 0.461, 9);
    expect(Math.abs(cut.nearest!.u)).toBeCloseTo((5 * 4) / 17, 9);
    expect(cut.nearest?.z).toBeCloseTo(140 - 5 / 17, 9);
    expect(cut.gapIn).toBeCloseTo(5 - 0.461, 9);
    expect(cut.wiring).toEqual({ z: 135, radiusIn: 0.461 });
    const [deck, another] = cut.decks;
    expect(another).toBeUndefined();
    const [a, b] = deck!.line;
    expect([a.u, b.u]).toEqual([-SECTION_REACH_IN, SECTION_REACH_IN]);
    expect(Math.abs(a.z - b.z)).toBeCloseTo((2 * SECTION_REACH_IN) / 4, 9);
    expect(deck!.ends).toEqual([false, false]);
  });

  it("has the distance of the finding where that is nearest", () => {
    const finding = findingOf({ a: steep }, level);
    expect(section({ a: steep }, level, 0).nearest?.leastIn).toBeCloseTo(finding.leastIn!, 9);
  });

  it("ends a deck at its edge: beside a lower roof, under a higher one", () => {
    const areas = {
      low: roof(135, { label: "Low", outline: rectangle(0, 0, 238, 600) }),
      high: roof(200, { label: "High", outline: rectangle(238, 0, 600, 600) }),
    };
    const cut = section(areas, level, 100);
    // Level with the low deck, 2 in. beside its edge.
    expect(cut.nearest).toEqual({ u: 2, z: 135, leastIn: expect.closeTo(2 - 0.461, 9) });
    expect(cut.gapIn).toBeCloseTo(65 - 0.461, 9);
    const low = cut.decks.find(({ label }) => label === "Low")!;
    expect(low.line.map(({ u }) => u)).toEqual([expect.closeTo(2, 9), SECTION_REACH_IN]);
    expect(low.ends).toEqual([true, false]);
  });

  it("looks for no distance to a floor, and says where it knows none", () => {
    const floor = roof(144, { classification: { is: "floor-above", reason: "", by: "" } });
    const cut = section({ a: floor }, level, 10);
    expect(cut.nearest).toBeUndefined();
    expect(cut.decks.map(({ is }) => is)).toEqual(["floor-above"]);
    expect(section({ a: roof(null) }, level, 10)).toMatchObject({ decks: [] });
  });

  it("is not there for a box, beside the ends, or without an elevation", () => {
    const job = (element: Parameters<typeof findingOf>[1]) => withParts(inchJob(), { a: steep }, { e1: element });
    expect(sectionAt(job(box(100, 100, null)), "e1", 0)).toBeUndefined();
    expect(sectionAt(job(level), "e1", 201)).toBeUndefined();
    expect(sectionAt(job(level), "e9", 0)).toBeUndefined();
    const bare = run([
      [240, 100, null],
      [240, 300, null],
    ]);
    expect(sectionAt(job(bare), "e1", 10)).toBeUndefined();
  });
});
