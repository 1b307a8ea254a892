import { describe, expect, test } from "vitest";
import { ABOVE_BUILD_UP_IN, buildUp } from "../../src/check/lower-deck.ts";
import { checkMessages } from "../../src/check/messages.ts";
import type { Area } from "../../src/job/schema.ts";
import { check, findingOf, findingsOf, inch, inchJob, rectangle, roof, run, tag } from "./inch-job.ts";

type Vertex = Parameters<typeof run>[0][number];

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

  test("layers count where the elevation is given above them, and nowhere else", () => {
    const given = (basis: Area["elevation"]["basis"]) => {
      const deck = mezzanine();
      return buildUp({ ...deck, elevation: { ...deck.elevation, basis } });
    };
    expect([given("top-of-slab"), given("top-of-roofing")]).toEqual([5, 5]);
    expect([given("bottom-of-deck"), given("top-of-deck"), given("top-of-steel")]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });

  test("has nothing to say of a run that goes on where nothing is outlined", () => {
    const half = { outline: rectangle(0, 0, 300, 600) };
    for (const way of [
      [50, 500],
      [500, 50],
    ]) {
      const element = run(way.map((x) => [x, 50, 280] as const));
      const found = findingsOf({ m: mezzanine(half), r: roof(288, { label: "Roof", ...half }) }, element);
      expect(found.map(({ verdict, areas }) => [verdict, areas])).toEqual([["cannot-tell", []]]);
    }
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
      const found = findingsOf(areas, at(280));
      const all = found.map(({ verdict }) => verdict);
      expect(found.flatMap((one) => one.areas)).toContain("m");
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

  test.each([2, 10])("%d in. beside it, and not above it, its edge is as near as any", (away) => {
    // Level with its lowest surface; the roof above is much farther.
    const half = mezzanine({ outline: rectangle(0, 0, 300, 600) });
    const x = 300 + away + 0.461;
    const beside = run([
      [x, 100, 144],
      [x, 500, 144],
    ]);
    const found = findingOf({ m: half, r: roof(288, { label: "Roof", outline: rectangle(300, 0, 600, 600) }) }, beside);
    expect(found).toMatchObject({ verdict: "clear", areas: ["m", "r"] });
    expect(found.leastIn).toBeCloseTo(away, 9);
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

describe("how far above a lower deck is well above it", () => {
  const verdicts = (areas: Record<string, Area>, element: ReturnType<typeof run>, job = inchJob()) =>
    findingsOf(areas, element, job).map(({ verdict }) => verdict);

  // Depth and concrete 5 in., 12 in. allowed for, and all that readings may be off by: the run, the deck, and the plan.
  test.each([
    [0, 0, 0],
    [0.25, 0, 0],
    [0, 0.5, 0],
    [0, 0, 1],
    [0.25, 0.5, 1],
  ])("readings off by %d, %d and %d in. count on top of it", (tags, decks, plan) => {
    const base = inchJob();
    const tolerances = { tags: inch(tags), decks: inch(0), plan: inch(plan) };
    const job = { ...base, settings: { job: { ...base.settings.job, tolerances } } };
    const open = mezzanine();
    const areas = { m: { ...open, elevation: { ...open.elevation, plusMinus: inch(decks) } }, r: above };
    const bottom = (z: number) =>
      run([
        [50, 50, tag(z, "bottom")],
        [500, 50, tag(z, "bottom")],
      ]);
    const limit = 144 + 5 + ABOVE_BUILD_UP_IN + tags + decks + plan;
    expect(verdicts(areas, bottom(limit + 1e-3), job)).toEqual(["clear"]);
    expect(verdicts(areas, bottom(limit - 1e-3), job)).toEqual(["cannot-tell"]);
  });

  test("the lowest of a run that climbs counts, whichever way it was traced", () => {
    const climbing = (z: number): Vertex[] => [
      [50, 50, z + 0.461],
      [500, 50, 270],
    ];
    const limit = 144 + 5 + ABOVE_BUILD_UP_IN;
    // A run that climbs by so much hangs a little lower than its axis less half its diameter says.
    for (const way of [(all: Vertex[]) => all, (all: Vertex[]) => [...all].reverse()]) {
      expect(verdicts({ m: mezzanine(), r: above }, run(way(climbing(limit + 0.05))))).toEqual(["clear"]);
      expect(verdicts({ m: mezzanine(), r: above }, run(way(climbing(limit - 1e-3))))).toEqual(["cannot-tell"]);
    }
  });

  // Square to a deck that falls by 1 in 4, a height of h is h / sqrt(1 + 1/16).
  test("over a slope it is measured square to it", () => {
    const open = mezzanine();
    const shape = { is: "slope", at: inch(149), point: [0, 0], towards: [0, 100], rise: 1 / 4, text: "" } as const;
    const areas = { m: { ...open, elevation: { ...open.elevation, shape } }, r: above };
    const along = (h: number) =>
      run([
        [50, 100, 144 - 25 + h],
        [500, 100, 144 - 25 + h],
      ]);
    const needed = (5 + ABOVE_BUILD_UP_IN + 0.461) * Math.sqrt(1 + 1 / 16);
    const exact = inchJob();
    const { job } = exact.settings;
    const none = { ...exact, settings: { job: { ...job, tolerances: { ...job.tolerances, tags: inch(0) } } } };
    expect(verdicts(areas, along(needed + 1e-3), none)).toEqual(["clear"]);
    expect(verdicts(areas, along(needed - 1e-3), none)).toEqual(["cannot-tell"]);
  });

  test("what the run lies under elsewhere does not matter to it", () => {
    const half = rectangle(0, 0, 300, 600);
    const areas = { m: mezzanine({ outline: half }), r: roof(288, { label: "Roof", outline: half }) };
    const [found, ...more] = findingsOf(areas, at(280));
    expect(more).toEqual([]);
    expect(found).toMatchObject({ verdict: "cannot-tell", areas: [] });
    expect(found!.stretches.map(({ fromIn, toIn }) => [fromIn, toIn])).toEqual([[250, 450]]);
  });
});
