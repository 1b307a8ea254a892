import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { fastenerAdvice } from "../../src/check/fastener-reach.ts";
import type { Reason } from "../../src/check/finding.ts";
import { NO_ROOFING, type Roofing } from "../../src/job/roofing.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { inches } from "../../src/units/quantity.ts";
import { check, inch, inchJob, roof, run, withParts } from "./inch-job.ts";

const CODE = { required: inches(1.5), source: "300.4(E)" };
/** A 6 in. screw through 1/2 in. of cover board and 3 in. of insulation into a 0.036 in. sheet. */
const SCREW: Roofing = {
  fastener: inch(6),
  layers: [
    { name: "cover board", thickness: inch(0.5) },
    { name: "insulation", thickness: inch(3) },
  ],
  deckThickness: inch(0.036),
  flange: "bottom",
  margin: null,
};
const area = (more: Partial<Roofing>, rest: Partial<Area> = {}): Area =>
  roof(144, { ...rest, roofing: { ...SCREW, ...more } });
const advice = (more: Partial<Roofing>, rest: Partial<Area> = {}) =>
  fastenerAdvice(area(more, rest), "imperial", CODE)!;
const lines = (r: Reason): string[] => [`${r.text} | ${r.value ?? ""}`, ...r.children.flatMap(lines)];

describe("how far fasteners reach, by hand", () => {
  // 6 - (0.5 + 3 + 0.036) = 2.464 in. below the bottom flange: beyond 1 1/2 in.
  it("through the bottom flange: the length less layers and sheet", () => {
    const found = advice({});
    expect(found.says).toBe("beyond");
    expect(found.reach?.most).toBeCloseTo(2.464, 9);
    expect(found.reach?.least).toBeCloseTo(2.464, 9);
    expect(found.text).toMatch(/beyond the code distance of 1 1\/2"/);
  });

  // Below the top flange's underside 2.464 in. as well; the deck is 1 1/2 in. deep, so 1.464 in. of flute lie below that flange:
  // 2.464 - 1.464 = 1 in., within 1 1/2 in. Checked the other way: 6 in. less 3 1/2 in. of layers less 1 1/2 in. of deck is 1 in.
  it("through the top flange: less what is left of the flute", () => {
    const found = advice({ flange: "top" });
    expect(found.reach?.most).toBeCloseTo(6 - 3.5 - 1.5, 9);
    expect(found.says).toBe("within");
  });

  // 1 in. and a margin of 1/2 in. are exactly 1 1/2 in., which is within; 1/1000 in. more is not.
  it("counts the margin, and exactly the code distance is within", () => {
    expect(advice({ flange: "top", margin: inch(0.5) }).says).toBe("within");
    expect(advice({ flange: "top", margin: inch(0.501) }).says).toBe("beyond");
    expect(advice({ flange: "top", margin: inch(0.501) }).text).toMatch(/with a margin of 0\.501", 1\.501" \(about/);
  });

  it("takes the depth recorded for the area before the table's", () => {
    const deep = { deck: { profile: "wide-rib-1-1/2", depth: inch(2), concreteCover: { is: "none" } } } as const;
    expect(advice({ flange: "top" }, deep).reach?.most).toBeCloseTo(6 - 3.5 - 2, 9);
  });

  // A 2 in. nail through a 1/4 in. shingle layer into 3/4 in. boards comes out 1 in. below them.
  it("through a wood deck, whose own thickness is taken where none is given", () => {
    const wood = (depth: number | null): Partial<Area> => ({
      deck: { profile: "wood", depth: depth === null ? null : inch(depth), concreteCover: { is: "none" } },
    });
    const nail = { fastener: inch(2), layers: [{ name: "shingles", thickness: inch(0.25) }] };
    expect(advice({ ...nail, deckThickness: inch(0.75) }, wood(null)).reach?.most).toBeCloseTo(1, 9);
    expect(advice({ ...nail, deckThickness: null }, wood(0.75)).reach?.most).toBeCloseTo(1, 9);
    expect(advice({ ...nail, deckThickness: null }, wood(null)).missing).toEqual(["the thickness of its deck"]);
    // It ends inside 3 in. planks: 2 - 0.25 - 3 = -1.25.
    const planks = advice({ ...nail, deckThickness: inch(3) }, wood(null));
    expect([planks.says, planks.reach?.most]).toEqual(["within", -1.25]);
    expect(planks.text).toBe("The fasteners of A-1 end inside its deck.");
    // 1 3/4 in. into the wood: more than the customary inch.
    expect(lines(planks.reasons)).toContain('It goes into the deck by | 1 3/4"');
  });
});

describe("what is not recorded", () => {
  it("is named, all at once, and never counts as a short fastener", () => {
    const found = advice({
      fastener: null,
      layers: [{ name: "insulation", thickness: null }],
      deckThickness: null,
      flange: "not-recorded",
    });
    expect(found.says).toBe("cannot-tell");
    expect(found.reach).toBeUndefined();
    expect(found.missing).toEqual([
      "the length of the fastener",
      "the thickness of insulation",
      "the thickness of its sheet",
    ]);
    expect(found.text).toMatch(/cannot be told\. Missing: the length of the fastener; the thickness of insulation; /);
    expect(fastenerAdvice(roof(144, { roofing: NO_ROOFING }), "imperial", CODE)?.says).toBe("cannot-tell");
    expect(advice({}, { deck: { ...roof(0).deck, profile: "" } }).missing).toContain("what its deck is made of");
  });

  it("of the flange matters only where it decides: between 1 in. and 2.464 in. it does", () => {
    const between = advice({ flange: "not-recorded" });
    expect(between.says).toBe("cannot-tell");
    expect(between.missing).toEqual(["which flange the fasteners go through"]);
    expect(between.reach?.least).toBeCloseTo(1, 9);
    expect(between.reach?.most).toBeCloseTo(2.464, 9);
    // 8 in. reach 3 in. at least; 4 in. reach 0.464 in. at most.
    expect(advice({ flange: "not-recorded", fastener: inch(8) }).says).toBe("beyond");
    expect(advice({ flange: "not-recorded", fastener: inch(4) }).says).toBe("within");
  });

  it("of the deck's depth is asked for where the flute counts", () => {
    const other = { deck: { profile: "steel-other", depth: null, concreteCover: { is: "none" } } } as const;
    expect(advice({ flange: "top" }, other).missing).toEqual(["the depth of its deck"]);
    expect(advice({ flange: "not-recorded" }, other).missing).toEqual([
      "the depth of its deck",
      "which flange the fasteners go through",
    ]);
    expect(advice({ flange: "bottom" }, other).says).toBe("beyond");
    // Through whichever flange, 4 in. reach no further than 0.464 in.
    expect(advice({ flange: "not-recorded", fastener: inch(4) }, other).says).toBe("within");
  });

  it("says when a fastener goes less far past the deck than is customary", () => {
    // 4 in.: 0.464 in. past the sheet, less than 3/4 in. (common practice, from memory).
    expect(lines(advice({ fastener: inch(4) }).reasons)).toContain(
      "That is less than is customary: check the length recorded | ",
    );
    expect(lines(advice({}).reasons).join("\n")).not.toMatch(/less than is customary/);
    expect(lines(advice({}).reasons)).toContain('Customary least, by common practice | 3/4"');
  });
});

describe("advice in a check", () => {
  // Outside diameter of 3/4 EMT: 0.922 in. (ANSI C80.3).
  const emtAt = (gap: number, label: string) =>
    run(
      [10, 200].map((x) => [x, 10, 144 - gap - 0.461] as const),
      { label },
    );
  const elements = { e1: emtAt(1.75, "R-1"), e2: emtAt(3, "R-2") };

  it("stands beside the findings, changes none of them, and names the elements within reach", () => {
    const plain = check({ a: roof(144) }, elements);
    const found = check({ a: area({}) }, elements);
    expect(found.findings).toEqual(plain.findings);
    expect(found.counts).toEqual(plain.counts);
    expect(plain.advisories).toEqual([]);
    expect(found.advisories).toHaveLength(1);
    expect(found.advisories[0]).toMatchObject({
      kind: "fastener-reach",
      says: "beyond",
      areaId: "a",
      area: "A-1",
      marginIn: 0,
      requiredIn: 1.5,
      missing: [],
      elements: ["R-1"],
    });
    expect(found.advisories[0]?.reachIn).toBeCloseTo(2.464, 9);
  });

  it("is silent where the reach is within the code distance, and where a floor is above", () => {
    expect(check({ a: area({ flange: "top" }) }, elements).advisories).toEqual([]);
    const floor = { is: "floor-above", reason: "", by: "" } as const;
    expect(check({ a: area({}, { classification: floor }) }, elements).advisories).toEqual([]);
  });

  it("measures against the clearance as amended, and in metric against 38 mm", () => {
    const job = withParts(inchJob(), { a: area({}) }, elements);
    const with_ = (settings: Partial<Job["settings"]["job"]>): Job => ({
      ...job,
      settings: { job: { ...job.settings.job, ...settings } },
    });
    const clearance = { imperial: inch(2.5), metric: { value: 64, unit: "mm" as const } };
    const amendments = [{ kind: "larger-clearance" as const, clearance, reason: "Ordinance 7", authority: "The AHJ" }];
    expect(checkJob(with_({ amendments })).advisories).toEqual([]);
    const [metric] = checkJob(with_({ system: "metric" })).advisories;
    expect(metric?.text).toMatch(/reach 62\.59 mm below its deck: beyond the code distance of 38 mm/);
    expect(checkJob(with_({ edition: "us-1899" })).advisories).toEqual([]);
  });

  it("says where the edition does not speak of the deck", () => {
    const wood = { deck: { profile: "wood", depth: inch(0.75), concreteCover: { is: "none" } } } as const;
    const [found] = check({ a: area({ deckThickness: null }, wood) }, elements).advisories;
    expect(JSON.stringify(found?.reasons)).toMatch(/does not speak of this deck: a yardstick only/);
  });

  it("refuses a roofing record with an unknown key or flange", () => {
    expect(() => check({ a: area({ flange: "side" as never }) }, elements)).toThrow(/areas\/a\/roofing\/flange/);
    expect(() => check({ a: area({ screws: 4 } as never) }, elements)).toThrow(/areas\/a\/roofing\/screws/);
  });
});
