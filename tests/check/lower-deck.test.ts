import { describe, expect, test } from "vitest";
import { ABOVE_BUILD_UP_IN, buildUp } from "../../src/check/lower-deck.ts";
import { checkMessages } from "../../src/check/messages.ts";
import type { Area } from "../../src/job/schema.ts";
import { check, findingOf, findingsOf, inch, rectangle, roof, run, tag } from "./inch-job.ts";

/* A mezzanine under a roof: a composite deck 2 in. deep with 3 in. of concrete, lowest surface at 144; the roof's lowest surface at 288. */
const mezzanine = (more: Partial<Area> = {}): Area => {
  const plain = roof(0, { label: "Mezzanine" });
  return {
    ...plain,
    deck: { ...plain.deck, profile: "composite-2" },
    elevation: {
      ...plain.elevation,
      basis: "top-of-slab",
      layers: [{ name: "concrete", thickness: inch(3) }],
      shape: { is: "level", at: inch(149) },
      plusMinus: inch(0),
    },
    ...more,
  };
};
const above = roof(288, { label: "Roof" });
const at = (z: number) =>
  run([
    [50, 50, tag(z, "centre", { plusMinus: inch(0) })],
    [500, 50, tag(z, "centre", { plusMinus: inch(0) })],
  ]);
const bottomAt = (z: number) => at(z + 0.461);

describe("wiring above one deck and under another", () => {
  test("a deck's build-up is its depth and what is recorded on it, or not known", () => {
    expect(buildUp(mezzanine())).toBe(5);
    expect(buildUp(roof(144))).toBeUndefined();
    const open = mezzanine();
    expect(
      buildUp({ ...open, elevation: { ...open.elevation, layers: [{ name: "concrete", thickness: null }] } }),
    ).toBeUndefined();
  });

  test("is judged under the next, and the reasons say so", () => {
    const finding = findingOf({ m: mezzanine(), r: above }, at(280));
    expect(finding).toMatchObject({ verdict: "clear", areas: ["r"] });
    expect(finding.leastIn).toBeCloseTo(288 - 280 - 0.461, 9);
    const said = finding.reasons.children.find(({ text }) => text.includes("lies above the deck of Mezzanine"));
    expect(said?.text).toContain("judged under the next above it: Roof");
    expect(findingOf({ m: mezzanine(), r: above }, at(287))).toMatchObject({ verdict: "too-close", areas: ["r"] });
  });

  test("the allowance above the build-up, to a hair", () => {
    const limit = 144 + 5 + ABOVE_BUILD_UP_IN;
    expect(findingOf({ m: mezzanine(), r: above }, bottomAt(limit + 1e-6)).verdict).toBe("clear");
    expect(findingOf({ m: mezzanine(), r: above }, bottomAt(limit - 1e-6)).verdict).toBe("cannot-tell");
  });

  test.each([
    ["in the flutes of the lower deck", 145, "concealed"],
    ["in its concrete", 147, "cannot-tell"],
    ["on its concrete", 150, "cannot-tell"],
  ])("%s it is held", (_name, z, verdict) => {
    expect(findingsOf({ m: mezzanine(), r: above }, at(z)).map((one) => one.verdict)).toContain(verdict);
  });

  test("with no other deck above, or one that is lower, not known or over a part of it only, it cannot be told", () => {
    const cannot = (areas: Record<string, Area>) => {
      const all = findingsOf(areas, at(280)).map(({ verdict }) => verdict);
      expect(all).toContain("cannot-tell");
      expect(all).not.toContain("clear");
    };
    cannot({ m: mezzanine() });
    cannot({ m: mezzanine(), r: roof(200, { label: "Between" }) });
    cannot({ m: mezzanine(), r: roof(null, { label: "Roof" }) });
    cannot({ m: mezzanine(), r: roof(288, { label: "Roof", outline: rectangle(0, 0, 300, 600) }) });
  });

  test("where nothing is recorded of what lies on the lower deck, it cannot be told, and what is missing is named", () => {
    const finding = findingOf({ m: roof(144, { label: "Lower" }), r: above }, at(280));
    expect(finding.verdict).toBe("cannot-tell");
    expect(JSON.stringify(finding.reasons)).toContain("Missing: what lies on the deck of Lower");
    expect(finding.remedies.map(({ text }) => text).join()).toContain("thickness of everything that lies on it");
  });

  test("an unsettled lower deck holds nothing well above it", () => {
    const open = mezzanine({ classification: { is: "not-settled", reason: "", by: "" } });
    expect(findingOf({ m: open, r: above }, at(280)).verdict).toBe("clear");
    expect(findingOf({ m: open, r: above }, at(150)).verdict).toBe("cannot-tell");
  });

  test("its edge still counts for what comes down beside it", () => {
    const down = run([
      [500, 50, tag(280)],
      [601.5, 50, tag(280)],
      [601.5, 50, tag(100)],
    ]);
    const wide = roof(288, { label: "Roof", outline: rectangle(0, 0, 900, 600) });
    const verdicts = findingsOf({ m: mezzanine(), r: wide }, down).map(({ verdict, areas }) => [verdict, areas[0]]);
    expect(verdicts).toContainEqual(["too-close", "m"]);
  });

  test("two decks a storey apart are said to be two levels, not a contradiction", () => {
    const { notices } = check({ m: mezzanine(), r: above }, {});
    expect(notices).toMatchObject([
      { code: "area.stacked", params: { upper: "Roof", lower: "Mezzanine", apart: `12'-0"` } },
    ]);
    expect(checkMessages["area.stacked"]!(notices[0]!.params, "")).toContain("two levels of the building");
  });
});

describe("holes", () => {
  const hole = rectangle(200, 0.5, 300, 100);
  test("under a recorded hole the answer names the hole", () => {
    const finding = findingOf({ a: roof(144, { holes: [hole] }) }, at(120));
    expect(finding.verdict).toBe("cannot-tell");
    expect(finding.reasons.text).toContain("a hole is recorded there in A-1");
    expect(finding.reasons.text).toContain("its rim counts");
  });
  test("beside all areas it does not", () => {
    const finding = findingOf({ a: roof(144, { outline: rectangle(0, 0, 300, 600) }) }, at(120));
    expect(finding.reasons.text).toContain("no deck area is outlined there");
  });
  test("a hole that reaches beyond its outline is noticed, and nothing under it can be told", () => {
    const out = roof(144, { holes: [rectangle(200, -80, 300, 100)] });
    const result = check({ a: out }, { e1: at(120) });
    expect(result.notices.map(({ code, where }) => [code, where])).toEqual([["area.hole-outside", "areas/a/holes/0"]]);
    expect(result.findings.map(({ verdict }) => verdict)).toEqual(["cannot-tell"]);
    expect(check({ a: roof(144, { holes: [hole] }) }, {}).notices).toEqual([]);
  });
});
