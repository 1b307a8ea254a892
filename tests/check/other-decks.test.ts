import { describe, expect, it } from "vitest";
import type { Area } from "../../src/job/schema.ts";
import { box, facts, findingOf, findingsOf, inch, inchJob, rectangle, roof, run } from "./inch-job.ts";

const level = (z: number) =>
  run([
    [10, 50, z],
    [500, 50, z],
  ]);
const deck = (profile: string, depth: number | null, cover: number | null = null): Area["deck"] => ({
  profile,
  depth: depth === null ? null : inch(depth),
  concreteCover: cover === null ? { is: "none" } : { is: "thickness", thickness: inch(cover) },
});

describe("which decks the rule speaks of, and where nothing may be concealed", () => {
  /*
   * Elevations of the axis under a lowest surface at 144 in. Through 2023 the rule speaks of metal-corrugated decking alone; in 2026 of any;
   * the ban on concealment is one of the corrugations, so what lies within the depth of boards or of a slab is too close and no more.
   */
  const AXES = { "far below": 140, near: 143, "within its depth": 144.3 };
  it.each([
    ["wide-rib-1-1/2", null, "us-2023", ["clear", "too-close", "concealed"]],
    ["wide-rib-1-1/2", null, "us-2026", ["clear", "too-close", "concealed"]],
    ["wood", 0.75, "us-2023", ["not-governed", "not-governed", "not-governed"]],
    ["wood", 0.75, "us-2026", ["clear", "too-close", "too-close"]],
    ["concrete", 6, "us-2023", ["not-governed", "not-governed", "not-governed"]],
    ["concrete", 6, "us-2026", ["clear", "too-close", "too-close"]],
  ] as const)("%s, %s in. deep, by %s", (profile, depth, edition, verdicts) => {
    const bare = roof(144, { deck: deck(profile, depth) });
    const open = facts({ inConcrete: false });
    const got = Object.values(AXES).map(
      (z) => findingOf({ a: bare }, { ...level(z), facts: open } as ReturnType<typeof level>, inchJob(edition)).verdict,
    );
    expect(got).toEqual(verdicts);
  });

  it("a box is held to it like a run: within the depth of a wood deck it is too close", () => {
    const inDeck = box(100, 100, { length: inch(144.2), datum: { from: "project" }, basis: "bottom", plusMinus: null });
    const of = (own: Area["deck"]) => findingsOf({ a: roof(144, { deck: own }) }, inDeck, inchJob("us-2026"));
    expect(of(deck("wide-rib-1-1/2", null)).map(({ verdict }) => verdict)).toEqual(["concealed"]);
    expect(of(deck("wood", 2)).map(({ verdict }) => verdict)).toEqual(["too-close"]);
  });
});

describe("an exception under one deck of several", () => {
  const covered = (more: Partial<Area>): Area => roof(144, { deck: deck("wide-rib-1-1/2", null, 2.5), ...more });

  // 0.539 in. below a deck with 2 1/2 in. of concrete, then well below a bare one: nothing is wrong, but not because it is far enough.
  it("is not passed off as clear: not governed, though the rest of the run is clear", () => {
    const areas = {
      a: covered({ label: "Covered", outline: rectangle(0, 0, 300, 600) }),
      b: roof(150, { label: "Bare", outline: rectangle(300, 0, 600, 600) }),
    };
    const found = findingOf(areas, level(143));
    expect([found.verdict, found.areas]).toEqual(["not-governed", ["a", "b"]]);
    expect(findingOf({ ...areas, a: { ...areas.a, deck: areas.b.deck } }, level(143)).verdict).toBe("too-close");
  });

  it("covers a riser through that deck: the concrete lifts the distance that is asked for below it", () => {
    const riser = run([
      [10, 50, 100],
      [100, 50, 100],
      [100, 50, 200],
    ]);
    const [only, second] = findingsOf({ a: covered({}) }, riser);
    expect([only?.verdict, second]).toEqual(["not-governed", undefined]);
    expect(only?.reasons.text).toContain("passes through the deck of A-1, and an exception applies");
    expect(findingsOf({ a: roof(144) }, riser).map(({ verdict }) => verdict)).toEqual(["cannot-tell"]);
  });
});

describe("wiring in concrete, by the 2026 edition", () => {
  /** A run or a box whose axis is 1 in. above the lowest surface of a deck. */
  const recorded = (more: Parameters<typeof facts>[0]) => ({ facts: facts(more) });
  const inSlab = (more: Parameters<typeof facts>[0]) =>
    ({ ...level(145), ...recorded(more) }) as ReturnType<typeof level>;
  const boxInSlab = (more: Parameters<typeof facts>[0]) =>
    box(100, 100, { length: inch(145), datum: { from: "project" }, basis: "bottom", plusMinus: null }, recorded(more));
  const slab = { a: roof(144, { deck: deck("concrete", 6) }) };
  const verdicts = (areas: Record<string, Area>, element: ReturnType<typeof level>) =>
    findingsOf(areas, element, inchJob("us-2026")).map(({ verdict }) => verdict);

  // 2 in. of it lift the distance; boxes in it have to stay accessible besides (314.29).
  it.each([
    ["a run, nobody says whether it is cast in", inSlab({}), "cannot-tell"],
    ["a run that is not", inSlab({ inConcrete: false }), "too-close"],
    ["a run in nobody says how much", inSlab({ inConcrete: true }), "cannot-tell"],
    ["a run in 2 in.", inSlab({ inConcrete: true, concreteThickness: inch(2) }), "not-governed"],
    ["a run in 1.99 in.", inSlab({ inConcrete: true, concreteThickness: inch(1.99) }), "too-close"],
    [
      "a box in 3 in., accessible",
      boxInSlab({ inConcrete: true, concreteThickness: inch(3), accessible: true }),
      "not-governed",
    ],
    [
      "a box in 3 in., buried",
      boxInSlab({ inConcrete: true, concreteThickness: inch(3), accessible: false }),
      "too-close",
    ],
    ["a box in 3 in., nobody says", boxInSlab({ inConcrete: true, concreteThickness: inch(3) }), "cannot-tell"],
  ] as const)("%s", (_, element, verdict) => {
    expect(verdicts(slab, element)).toEqual([verdict]);
  });

  it("under a deck without any it is not asked for; under one with a thin cover it is", () => {
    expect(verdicts({ a: roof(144, { deck: deck("wood", 2) }) }, inSlab({}))).toEqual(["too-close"]);
    expect(verdicts({ a: roof(144) }, inSlab({}))).toEqual(["concealed"]);
    expect(verdicts({ a: roof(144, { deck: deck("wide-rib-1-1/2", null, 1) }) }, inSlab({}))).toEqual(["cannot-tell"]);
  });
});
