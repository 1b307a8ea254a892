import { describe, expect, it } from "vitest";
import { conductorDiameter, findInsulation } from "../../src/trade/conductors.ts";
import { deckProfiles, findDeckProfile } from "../../src/trade/decks.ts";
import { findPenetration } from "../../src/trade/penetrations.ts";
import { findRacewaySize } from "../../src/trade/raceways.ts";
import { findSupport } from "../../src/trade/supports.ts";
import { parseSlope } from "../../src/units/slope.ts";
import { findingOf, roof, run } from "../check/inch-job.ts";

/* Values as others have published them, beside the checks that use them; what has no source says so. */
const outside = (kind: string, size: string) => findRacewaySize(kind, size)?.outside.value;

describe("outside diameters", () => {
  // Goodheart-Willcox, "Modern Commercial Wiring" (2015), figure 5-12: rigid steel conduit and EMT side by side.
  it.each([
    ["1/2", 0.84, 0.706],
    ["3/4", 1.05, 0.922],
    ["1", 1.315, 1.163],
    ["2", 2.375, 2.197],
    ["3", 3.5, 3.5],
    ["4", 4.5, 4.5],
  ])("%s: rigid %d in., EMT %d in.", (size, rigid, emt) => {
    expect(outside("rmc", size)).toBe(rigid);
    expect(outside("emt", size)).toBe(emt);
  });

  // A maker's table for PVC conduit, schedule 40, average outside diameter (quoted at ponderingem.com).
  it.each([
    ["1/2", 0.84],
    ["3/4", 1.05],
    ["1", 1.315],
    ["1-1/4", 1.66],
  ])("%s: PVC schedule 40 %d in.", (size, inch) => expect(outside("pvc40", size)).toBe(inch));

  // The Engineering ToolBox, "Conduit Size" (engineeringtoolbox.com): EMT in inches and in millimetres beside them. A misprint of one
  // column does not agree with the other: 0.992 in. is 25.2 mm, 1.503 in. is 38.2 mm, 1.500 in. for rigid 4 is 38.1 mm.
  it.each([
    ["emt", "3/4", 23.4, 0.992],
    ["emt", "1-1/4", 38.4, 1.503],
    ["rmc", "4", 114.3, 1.5],
  ])("%s %s is %d mm: %d in. would be a misprint", (kind, size, mm, misprint) => {
    expect(Math.abs(outside(kind, size)! * 25.4 - mm)).toBeLessThan(0.06);
    expect(Math.abs(misprint * 25.4 - mm)).toBeGreaterThan(0.06);
  });
});

describe("wire gauges (ASTM B258-02, as described at liquisearch.com, American Wire Gauge)", () => {
  const d = (size: string): number => conductorDiameter(size)!;
  it("4/0 is 0.4600 in. across, and 39 steps of the 39th root of 92 lie between it and 0.0050 in.", () => {
    expect(d("4/0")).toBeCloseTo(0.46, 12);
    // 1.1229322 a step; from 4/0 (n = -3) to 18 there are 21.
    expect(d("4/0") / d("18")).toBeCloseTo(1.1229322 ** 21, 4);
    expect(d("3/0") / d("1/0")).toBeCloseTo(1.1229322 ** 2, 6);
    expect(d("1/0") / d("1")).toBeCloseTo(1.1229322, 6);
  });
  it("six gauges are nearly half, ten nearly a third", () => {
    expect(d("10") / d("4")).toBeCloseTo(0.5, 1);
    expect(d("14") / d("4")).toBeCloseTo(1 / 3, 1);
  });
});

describe("insulations", () => {
  // Data sheet "Type THHN / MTW / THWN-2 / T90 copper conductor" (iusawire.com): THHN 90 C dry, THWN 75 C wet, THWN-2 90 C.
  it.each([
    ["THHN", 90],
    ["THWN", 75],
    ["THWN-2", 90],
  ])("%s %d C", (type, rating) => expect(findInsulation(type)?.ratingC.value).toBe(rating));
  // From memory of the trade.
  it.each([
    ["TW", 60],
    ["THW", 75],
    ["RHW", 75],
    ["XHHW", 75],
    ["THW-2", 90],
    ["XHHW-2", 90],
    ["RHW-2", 90],
    ["USE-2", 90],
  ])("%s %d C (from memory)", (type, rating) => expect(findInsulation(type)?.ratingC.value).toBe(rating));
});

describe("decks and supports", () => {
  // EngineerFix, "What is B deck? Specifications, uses, and comparisons": 1.5 in. deep, ribs six inches apart.
  it("a wide-rib deck is 1 1/2 in. deep at 6 in.", () =>
    expect(findDeckProfile("wide-rib-1-1/2")).toMatchObject({ depth: { value: 1.5 }, pitch: { value: 6 } }));
  // From memory of the trade.
  it("a deep-rib deck is 3 in. deep at 8 in.; form and composite decks are 9/16 to 3 in. (from memory)", () => {
    expect(findDeckProfile("deep-rib-3")).toMatchObject({ depth: { value: 3 }, pitch: { value: 8 } });
    for (const { id, depth } of deckProfiles.filter((deck) => /^(form|composite)-/.test(deck.id))) {
      expect(depth?.value, id).toBeGreaterThanOrEqual(9 / 16);
      expect(depth?.value, id).toBeLessThanOrEqual(3);
    }
  });
  // Encyclopaedia article "Strut channel" (wikimili.com): 1 5/8 in. square, and half height at 13/16 in.
  it("strut channel is 1 5/8 in., or 13/16 in. at half height", () => {
    expect(findSupport("deep-strut")?.leaves.value).toBe(1.625);
    expect(findSupport("shallow-strut")?.leaves.value).toBe(0.8125);
  });
  // Common practice, no source.
  it("a screw goes 3/4 in. past a steel deck, 1 in. into wood; a strap tight to the deck leaves nothing (common practice, no source)", () => {
    expect(findPenetration("metal-corrugated")).toMatchObject({ counted: "past", least: { value: 0.75 } });
    expect(findPenetration("wood")).toMatchObject({ counted: "into", least: { value: 1 } });
    expect(findSupport("strapped-tight")?.leaves.value).toBe(0);
  });
});

describe("slopes and the distance square to them", () => {
  const rise = (text: string): number => {
    const slope = parseSlope(text);
    if (!slope.ok) throw new Error(text);
    return slope.value.rise;
  };
  const base = roof(144);
  const deck = (text: string) => {
    const shape = {
      is: "slope",
      at: { value: 144, unit: "in" },
      point: [0, 0],
      towards: [9, 0],
      rise: rise(text),
      text,
    } as const;
    return { ...base, elevation: { ...base.elevation, shape } };
  };
  const under = (text: string, vertical: number) => {
    const z = 144 - 300 * rise(text) - vertical;
    return findingOf(
      { a: deck(text) },
      run([
        [300, 100, z],
        [300, 400, z],
      ]),
    );
  };

  // Roof pitch table with angles and slope factors (zenkankakufes.com, "4/12 roof pitch in degrees"). A slope factor is length along the
  // slope by length in plan, 1 / cos: the distance square to the slope is the vertical gap divided by it.
  it.each([
    ["1:12", 4.76, 1.0035],
    ["2:12", 9.46, 1.0138],
    ["3:12", 14.04, 1.0308],
    ["4:12", 18.43, 1.0541],
    ["5:12", 22.62, 1.0833],
  ])("%s is %d degrees; square to it a gap is %d times less", (text, degrees, factor) => {
    expect((Math.atan(rise(text)) * 180) / Math.PI).toBeCloseTo(degrees, 1);
    const found = under(text, 20);
    expect(found.leastIn! + 0.461).toBeCloseTo(20 / factor, 2);
    expect(found.verticalIn! + 0.461).toBeCloseTo(20, 9);
  });

  // Arithmetic: arctan(1/48) is 1.1935 degrees, its cosine 0.999783. That 1/4 in. per foot is the usual least slope: common practice, no source.
  it("1/4 in. per foot is 1.19 degrees, and takes 0.0217 % off a vertical gap", () => {
    expect((Math.atan(rise('1/4" per foot')) * 180) / Math.PI).toBeCloseTo(1.1935, 4);
    const found = under('1/4" per foot', 10);
    expect(found.leastIn! + 0.461).toBeCloseTo(9.99783, 5);
    expect(JSON.stringify(found.reasons)).toContain("sloped 1.19°");
  });

  it("the vertical gap can be kept where the distance is not: 3 in 12", () => {
    // 1.53 in. straight up, 1.484 in. square to the deck (0.461 is the radius of 3/4 EMT).
    const found = under("3:12", 1.53 + 0.461);
    expect(found.verticalIn).toBeCloseTo(1.53, 9);
    expect(found.leastIn).toBeCloseTo((1.53 + 0.461) / 1.0308 - 0.461, 3);
    expect(found.verdict).toBe("too-close");
  });
});
