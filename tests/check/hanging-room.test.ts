import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type AreaRoom, hangingRoom } from "../../src/check/hanging-room.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { check, inch, inchJob, rectangle, roof, run, tag, withParts } from "./inch-job.ts";

/** A job whose tags, decks and plan may be off by so much. */
function withTolerances(tags: number, decks: number, plan: number, edition?: string): Job {
  const job = inchJob(edition);
  const tolerances = { tags: inch(tags), decks: inch(decks), plan: inch(plan) };
  return { ...job, settings: { job: { ...job.settings.job, tolerances } } };
}

const room = (base: Job, area: Area, elements: Parameters<typeof withParts>[2] = {}): AreaRoom =>
  hangingRoom(withParts(base, { a: area }, elements))[0]!;
function known(of: AreaRoom) {
  if (of.is !== "room") throw new Error(`expected room, got ${of.is}`);
  return of.room;
}

const sloped = (at: number, rise: number): Area => ({
  ...roof(null),
  elevation: {
    ...roof(null).elevation,
    shape: { is: "slope", at: inch(at), point: [0, 300], towards: [600, 300], rise, text: "" },
  },
});

describe("hanging room", () => {
  // 3/4 EMT is 0.922 in. across (ANSI C80.3); the clearance is 1 1/2 in.
  test("under a level deck is the clearance and the diameter", () => {
    const { drops, topDrop, slopeDeg, deckSlack } = known(room(withTolerances(0, 0, 0), roof(144)));
    const emt = drops.find(({ wiring }) => wiring.label === "EMT 3/4")!;
    expect([topDrop, slopeDeg, deckSlack]).toEqual([1.5, 0, 0]);
    expect(emt.top).toBeCloseTo(1.5, 12);
    expect(emt.centre).toBeCloseTo(1.5 + 0.461, 12);
    expect(emt.bottom).toBeCloseTo(1.5 + 0.922, 12);
  });

  // By hand, 3 in 12: square to the deck 1.961, straight down 1.961 x sqrt(1 + 1/16) = 2.021353.
  test("under a slope is measured straight down, and is more", () => {
    const { drops, corners, slopeDeg } = known(room(withTolerances(0, 0, 0), sloped(200, 1 / 4)));
    expect(drops.find(({ wiring }) => wiring.label === "EMT 3/4")?.centre).toBeCloseTo(2.021353, 5);
    expect(slopeDeg).toBeCloseTo(14.036, 3);
    expect(corners.map(({ deck }) => deck)).toEqual([200, 50, 50, 200]);
  });

  // Level at 144 up to x = 300, then falling at 45 degrees: square to that 1.961, straight down 1.961 x sqrt 2 = 2.773273.
  test("under a folded deck is that under its steepest face, and its fold is among the lines it is told along", () => {
    for (const steepFirst of [true, false]) {
      const spot = (x: number, y: number, z: number) => ({
        at: [steepFirst ? 600 - x : x, y] as [number, number],
        elevation: inch(z),
      });
      const spots = [
        spot(0, 0, 144),
        spot(600, 0, -156),
        spot(600, 600, -156),
        spot(0, 600, 144),
        spot(300, 0, 144),
        spot(300, 600, 144),
      ];
      const lines = [{ between: [5, 6] as [number, number], kind: "ridge" as const }];
      const { elevation } = roof(144);
      const deck = roof(144, { elevation: { ...elevation, shape: { is: "spots", spots, lines } } });
      const { drops, topDrop, slopeDeg, corners, edges, deckSlack } = known(room(withTolerances(0, 0.25, 2), deck));
      expect(slopeDeg).toBeCloseTo(45, 9);
      expect(drops.find(({ wiring }) => wiring.label === "EMT 3/4")?.centre).toBeCloseTo(2.773273, 5);
      expect(topDrop).toBeCloseTo(1.5 * Math.SQRT2, 9);
      expect(deckSlack).toBeCloseTo(0.25 + 2, 9);
      const at = (n: number): string => corners[n]!.at.map((c) => Math.round(c)).join();
      const told = edges.map(([a, b]) => [at(a), at(b)].sort().join(" to "));
      expect(told).toContain("300,0 to 300,600");
      expect(new Set(told).size).toBe(told.length);
      for (const {
        at: [x],
        deck: z,
      } of corners)
        expect(z).toBeCloseTo(144 - Math.max(0, (steepFirst ? 600 - x : x) - 300), 6);
    }
  });

  test("counts placing in what the top of anything needs", () => {
    expect(known(room(withTolerances(1 / 8, 0, 0), sloped(200, 1 / 4))).topDrop).toBeCloseTo(
      1.5 * Math.sqrt(1 + 1 / 16) + 1 / 8,
      9,
    );
  });

  test("leaves tolerance for placing in the drop, for deck and plan in the elevation", () => {
    const { drops, deckSlack } = known(room(withTolerances(1 / 8, 1 / 4, 2), sloped(200, 1 / 4)));
    expect(drops.find(({ wiring }) => wiring.label === "EMT 3/4")?.centre).toBeCloseTo(2.021353 + 0.125, 5);
    expect(deckSlack).toBeCloseTo(0.25 + 2 / 4, 12);
  });

  test("is for the sizes of the job's runs, each once, in the order of the tables", () => {
    const at = [
      [10, 10, 100],
      [50, 10, 100],
    ] as const;
    const wiring = (type: string, tradeSize: string, own: number | null = null) => ({
      wiring: { type, tradeSize, outsideDiameter: own === null ? null : inch(own) },
    });
    const elements = {
      a: run(at, wiring("rmc", "1")),
      b: run(at, wiring("emt", "1")),
      c: run(at, wiring("emt", "3/4")),
      d: run(at, wiring("emt", "1")),
      e: run(at, wiring("emt", "1", 1.3)),
      f: run(at, wiring("emt", "no such size")),
    };
    const { drops } = known(room(inchJob(), roof(144), elements));
    expect(drops.map(({ wiring: each }) => [each.label, each.outside])).toEqual([
      ["EMT 3/4", 0.922],
      ["EMT 1", 1.163],
      ["EMT 1", 1.3],
      ["RMC 1", 1.315],
    ]);
  });

  test("is not told where it cannot be, and never made up", () => {
    const base = inchJob();
    const reason = { reason: "said so", by: "" };
    expect(room(base, roof(null))).toMatchObject({ is: "not-known", missing: [expect.stringMatching(/elevation/)] });
    expect(room(base, { ...roof(144), classification: { is: "not-settled", ...reason } })).toMatchObject({
      is: "not-settled",
      reason: "said so",
    });
    expect(room(base, { ...roof(144), classification: { is: "floor-above", ...reason } })).toMatchObject({
      is: "floor-above",
    });
    const wood: Area = { ...roof(144), deck: { profile: "wood", depth: inch(1), concreteCover: { is: "none" } } };
    expect(room(base, wood)).toMatchObject({ is: "outside-the-rule" });
    expect(room(inchJob("us-2026"), wood)).toMatchObject({ is: "room" });
    expect(hangingRoom(withParts(inchJob("us-1899"), { a: roof(144) }, {}))).toEqual([]);
  });

  test("agrees with the check: clear at the height it gives, not a thousandth of an inch above", () => {
    const few = fc.integer({ min: 0, max: 8 }).map((n) => n / 16);
    fc.assert(
      fc.property(
        few,
        few,
        few,
        fc.integer({ min: 0, max: 16 }),
        fc.integer({ min: 150, max: 450 }),
        (tags, decks, plan, slope, x) => {
          const base = withTolerances(tags, decks, plan);
          const area = sloped(400, slope / 48);
          const { drops, deckSlack } = known(room(base, area));
          const { centre } = drops.find(({ wiring }) => wiring.label === "EMT 3/4")!;
          const deck = 400 - (x * slope) / 48;
          // Along the contour, so that it is equally near all along.
          const verdictAt = (z: number) =>
            check(
              { a: area },
              {
                e: run([
                  [x, 200, tag(z)],
                  [x, 400, tag(z)],
                ]),
              },
              base,
            ).findings[0]?.verdict;
          expect(verdictAt(deck - centre - deckSlack)).toBe("clear");
          expect(verdictAt(deck - centre - deckSlack + 0.001)).not.toBe("clear");
        },
      ),
      { numRuns: 60 },
    );
  });

  test("lists areas by their labels", () => {
    const areas = {
      z: { ...roof(144), label: "A-1" },
      a: { ...roof(100), label: "B-1", outline: rectangle(700, 0, 900, 100) },
    };
    expect(hangingRoom(withParts(inchJob(), areas, {})).map(({ label }) => label)).toEqual(["A-1", "B-1"]);
  });
});
