import { describe, expect, it } from "vitest";
import { findingOf, findingsOf, inch, inchJob, rectangle, roof, run, tag } from "./inch-job.ts";

/** Half of 3/4 EMT, 0.922 in. across (ANSI C80.3). */
const R = 0.461;
type Given = NonNullable<ReturnType<typeof tag>>;
const level = (given: Given) =>
  run([
    [100, 50, given],
    [400, 50, given],
  ]);
const below = (value: number, basis: Given["basis"]) => tag(value, basis, { datum: { from: "below-deck" } });

describe("what an elevation tag is counted from, under a roof at 144 in.", () => {
  const at = (given: Given, base = inchJob()) => findingOf({ a: roof(144) }, level(given), base);

  it.each([
    ["centre", 4 - R],
    ["top", 4],
    ["bottom", 4 - 2 * R],
  ] as const)("140 in. above the project datum, to the %s", (basis, least) =>
    expect(at(tag(140, basis)).leastIn).toBeCloseTo(least, 9),
  );

  it.each([
    ["centre", 6 - R],
    ["top", 6],
    ["bottom", 6 - 2 * R],
  ] as const)("6 in. below the deck, to the %s", (basis, least) => {
    expect(at(below(6, basis)).leastIn).toBeCloseTo(least, 9);
  });

  it("104 in. above a floor at 36 in. is 140 in.", () => {
    const base = inchJob();
    const [[id, storey]] = Object.entries(base.storeys) as [[string, (typeof base.storeys)[string]]];
    const job = { ...base, storeys: { ...base.storeys, [id]: { ...storey, floor: inch(36) } } };
    const given = tag(104, "top", { datum: { from: "storey", storey: id } });
    expect(at(given, job).leastIn).toBeCloseTo(4, 9);
  });

  it("its own plus-minus comes before the job's", () => {
    const exact = { a: roof(144, { elevation: { ...roof(144).elevation, plusMinus: inch(0) } }) };
    const base = inchJob();
    const { tolerances } = base.settings.job;
    const job = {
      ...base,
      settings: { job: { ...base.settings.job, tolerances: { ...tolerances, tags: inch(0.5) } } },
    };
    const interval = (given: Given) => findingOf(exact, level(given), job).intervalIn ?? [0, 0];
    // Couplings may stand out below the least, and never change the most.
    expect(interval(tag(140, "top"))[1]).toBeCloseTo(4.5, 9);
    expect(interval(tag(140, "top", { plusMinus: inch(0.25) }))[1]).toBeCloseTo(4.25, 9);
  });
});

describe("a tag counted from the deck", () => {
  const half = (x0: number, x1: number, z: number | null, label: string) =>
    roof(z, { label, outline: rectangle(x0, 0, x1, 600) });

  it("follows a deck that falls by 1/48: at x 0 the deck is at 144 in., at x 480 at 134 in.", () => {
    const { elevation } = roof(144);
    const shape = { is: "slope", at: inch(144), point: [0, 0], towards: [480, 0], rise: 1 / 48, text: "" } as const;
    const hung = (basis: Given["basis"]) =>
      run([
        [0, 50, below(6, basis)],
        [480, 50, below(6, basis)],
      ]);
    const found = findingOf({ a: roof(144, { elevation: { ...elevation, shape } }) }, hung("centre"));
    expect(found.leastIn).toBeCloseTo(6 / Math.sqrt(1 + 1 / 48 ** 2) - R, 9);
    const level134 = run([
      [0, 50, 128],
      [480, 50, below(6, "centre")],
    ]);
    // Level at 128 in., its far end 6 in. under the deck there.
    const flat = findingOf({ a: roof(144, { elevation: { ...elevation, shape } }) }, level134);
    expect(flat.leastIn).toBeCloseTo(6 / Math.sqrt(1 + 1 / 48 ** 2) - R, 9);
  });

  it("is read from the one deck over it, of two side by side", () => {
    const two = { a: half(0, 250, 144, "A-1"), b: half(250, 600, 150, "A-2") };
    const within = (x: number) =>
      run([
        [x, 50, below(6, "top")],
        [x + 100, 50, below(6, "top")],
      ]);
    expect(findingOf(two, within(20)).leastIn).toBeCloseTo(6, 9);
    expect(findingOf(two, within(400)).leastIn).toBeCloseTo(6, 9);
  });

  it("cannot be read where no deck, two decks, or one of unknown elevation lies over it", () => {
    const verdicts = (areas: Parameters<typeof findingsOf>[0]) =>
      findingsOf(areas, level(below(6, "top"))).map(({ verdict }) => verdict);
    for (const areas of [
      { a: half(0, 350, 144, "A-1") },
      { a: half(0, 600, 144, "A-1"), b: half(50, 600, 150, "A-2") },
      { a: half(0, 600, null, "A-1") },
    ])
      expect(verdicts(areas)).toContain("cannot-tell");
    expect(verdicts({ a: half(0, 600, 144, "A-1") })).toEqual(["clear"]);
  });

  // Two storeys of roof drawn as an L and the block in its notch: over every place of the plan lies one of them, and one only.
  it("is read from the deck that lies over it, not from one whose outline goes round it", () => {
    const corner: [number, number][] = [
      [0, 0],
      [600, 0],
      [600, 200],
      [200, 200],
      [200, 600],
      [0, 600],
    ];
    const areas = {
      l: roof(144, { label: "L", outline: corner }),
      b: roof(170, { label: "Block", outline: rectangle(200, 200, 600, 600) }),
      s: roof(150, { label: "Shaft", outline: rectangle(700, 0, 900, 200), holes: [rectangle(750, 50, 850, 150)] }),
    };
    const hung = (x: number, y: number) =>
      findingsOf(
        areas,
        run([
          [x, y, below(6, "top")],
          [x + 40, y, below(6, "top")],
        ]),
      ).map(({ verdict, leastIn, areas: [over] }) => [
        verdict,
        over,
        leastIn === null ? null : Number(leastIn.toFixed(9)),
      ]);
    expect(hung(400, 400)).toEqual([["clear", "b", 6]]);
    expect(hung(100, 400)).toEqual([["clear", "l", 6]]);
    // In the hole there is nothing to hang from.
    expect(hung(780, 100).map(([verdict]) => verdict)).toEqual(["cannot-tell"]);
  });
});
