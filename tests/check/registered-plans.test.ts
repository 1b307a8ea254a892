import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/check/finding.ts";
import { hangingRoom } from "../../src/check/hanging-room.ts";
import type { Element } from "../../src/job/elements/element.ts";
import { NO_FACTS } from "../../src/job/fields.ts";
import type { Area, Job, Viewport } from "../../src/job/schema.ts";
import { plainSheet, plainViewport } from "../job/plain-records.ts";
import { box, findingsOf, inch, inchJob, rectangle, roof, run, withParts } from "./inch-job.ts";

/*
 * Sheets laid over one another by shared points that do not quite agree: what is left between a point and its partner is how far that
 * sheet may be off in plan. Each sheet is drawn at 1 in. to the inch. Its two points are `apart` inches nearer each other in all than on the
 * sheet it is laid over, so each is left half of that away, whichever way they are fitted, and nothing is turned or shifted.
 */
const laidOver = (to: string, off: number): Viewport["registration"] => ({
  to,
  pairs: [
    { label: "A", here: [off, 300], there: [0, 300] },
    { label: "B", here: [600 - off, 300], there: [600, 300] },
  ],
});

/** Sheets v1, v2 (off by 2 in. against v1) and v3 (off by 1 in. against v2), tags and decks exact, the plan off by `plan`. */
function jobOf(plan = 0): Job {
  const job = inchJob();
  const sheet = plainSheet({ view: [0, 0, 1000, 1000] });
  const viewport = (id: string, registration: Viewport["registration"]) =>
    plainViewport(id, 72, { name: id, storey: "level-1", registration });
  return {
    ...job,
    settings: { job: { ...job.settings.job, tolerances: { tags: inch(0), decks: inch(0), plan: inch(plan) } } },
    sheets: { s1: sheet, s2: sheet, s3: sheet },
    viewports: {
      v1: viewport("s1", null),
      v2: viewport("s2", laidOver("v1", 2)),
      v3: viewport("s3", laidOver("v2", 1)),
    },
  };
}

/** How far each sheet may be off against the first, inches. */
const OFF = { v1: 0, v2: 2, v3: 3 } as const;
type View = keyof typeof OFF;
const CASES: readonly (readonly [deck: View, wiring: View, plan: number])[] = [
  ["v1", "v1", 0],
  ["v1", "v1", 0.5],
  ["v2", "v1", 0],
  ["v1", "v2", 0],
  ["v3", "v1", 0.5],
  ["v1", "v3", 0.5],
  ["v2", "v3", 0.25],
];

const along = (x: number, viewport: View, to = x): Element =>
  run(
    [
      [x, 50, 140],
      [to, 250, 140],
    ],
    { viewport },
  );
/** Half of 3/4 EMT, 0.922 in. across (ANSI C80.3). */
const R = 0.461;

describe("sheets that do not quite fit each other", () => {
  const falling = (viewport: View): Area => ({
    ...roof(null, { viewport }),
    elevation: {
      ...roof(null).elevation,
      shape: { is: "slope", at: inch(300), point: [0, 300], towards: [600, 300], rise: 1 / 4, text: "" },
    },
  });
  const rack = (viewport: View): Element => ({
    kind: "rack",
    label: "K-1",
    viewport,
    raceways: [{ label: "", wiring: { type: "emt", tradeSize: "3/4", outsideDiameter: null }, facts: NO_FACTS }],
    spacing: { is: "centres", apart: inch(4) },
    vertices: [
      { at: [200, 50], tag: null },
      { at: [200, 250], tag: null },
    ].map(({ at, tag: _ }) => ({
      at: at as [number, number],
      tag: { length: inch(140), datum: { from: "project" }, basis: "bottom", plusMinus: null },
    })),
  });
  const wiring: readonly (readonly [string, (viewport: View) => Element])[] = [
    ["a run", (viewport) => along(200, viewport)],
    [
      "a box",
      (viewport) =>
        box(
          200,
          100,
          { length: inch(140), datum: { from: "project" }, basis: "bottom", plusMinus: null },
          { viewport },
        ),
    ],
    ["a rack", rack],
  ];

  // Being off in plan counts by how much of the way to the deck goes sideways: under a slope of g, g / sqrt(1 + g^2) of it.
  it.each(wiring)("under a slope of 3 in 12 the distance of %s may be off by so much of it", (_, element) => {
    for (const [deck, view, plan] of CASES) {
      const [found] = findingsOf({ a: falling(deck) }, element(view), jobOf(plan));
      const off = ((OFF[deck] + OFF[view] + plan) * 0.25) / Math.hypot(1, 0.25);
      expect(found!.intervalIn![1] - found!.leastIn!, `${deck} ${view} ${plan}`).toBeCloseTo(off, 9);
    }
  });

  it("heights to hang at leave room for it, straight down: slope times how far off", () => {
    for (const [deck, , plan] of CASES) {
      const [room] = hangingRoom(withParts(jobOf(plan), { a: falling(deck) }, {}));
      expect(room?.is === "room" && room.room.deckSlack).toBeCloseTo(0.25 * (OFF[deck] + plan), 9);
    }
  });

  // The surface of the run is R from its axis; a deck of unknown elevation that far off, or nearer, might be too near it.
  it.each([
    ["straight beside it", 0],
    ["nearing it with one segment of two", 100],
  ])("a deck of unknown elevation beside the run speaks within reach: %s", (_, aside) => {
    for (const [deck, view, plan] of CASES) {
      const areas = {
        a: roof(200, { label: "Known", outline: rectangle(0, 0, 300, 600) }),
        b: roof(null, { label: "Unknown", outline: rectangle(300, 0, 600, 600), viewport: deck }),
      };
      const reach = 1.5 + OFF[deck] + OFF[view] + plan;
      const told = (away: number): Finding | undefined => {
        const x = 300 - R - away;
        const element = run(
          [
            [x - aside - 100, 50, 140],
            [x - aside, 250, 140],
            [x, 250, 140],
          ],
          { viewport: view },
        );
        return findingsOf(areas, element, jobOf(plan)).find((f: Finding) => f.areas.includes("b"));
      };
      expect(told(reach + 0.01), `${deck} ${view} ${plan}`).toBeUndefined();
      const found = told(reach - 0.01);
      expect(found, `${deck} ${view} ${plan}`).toBeDefined();
      // Told of what comes so near, and marked there: not along the segment that is still nearing it.
      if (aside > 0) expect(found!.at[1], `${deck} ${view} ${plan}`).toBeCloseTo(250, 0);
    }
  });

  // What is traced twice may be off on both sides.
  it("a gap between two decks that tracing may have left is none; a wider one is told", () => {
    for (const [, view, plan] of CASES) {
      const told = (width: number): boolean => {
        const areas = {
          a: roof(144, { label: "A-1", outline: rectangle(0, 0, 300, 600) }),
          b: roof(144, { label: "A-2", outline: rectangle(300 + width, 0, 600, 600) }),
        };
        const across = run(
          [
            [100, 50, 140],
            [500, 50, 140],
          ],
          { viewport: view },
        );
        return findingsOf(areas, across, jobOf(plan)).some(({ verdict }) => verdict === "cannot-tell");
      };
      const most = 2 * (OFF[view] + plan);
      if (most > 0) expect(told(most - 0.01), `${view} ${plan}`).toBe(false);
      expect(told(most + 0.01), `${view} ${plan}`).toBe(true);
    }
  });

  // The storey above ends so far from the edge of the deck below it; what is left between is traced twice.
  it("a strip beside a storey above that tracing may have left is not settled; a wider one is roof", () => {
    for (const [deck, view, plan] of CASES) {
      const beside = (width: number): string => {
        const base = jobOf(plan);
        const job: Job = {
          ...base,
          storeyOutlines: {
            above: {
              label: "S-1",
              viewport: view,
              outline: rectangle(-50, -50, 300 - width, 650),
              holes: [],
              above: { is: "occupied-storey" },
              reason: "",
              by: "",
            },
          },
        };
        const area = roof(144, {
          viewport: deck,
          outline: rectangle(0, 0, 300, 600),
          classification: { is: "from-outline", outlines: ["above"], reason: "", by: "" },
        });
        const [found, ...more] = findingsOf({ a: area }, along(300 - width / 2, "v1"), job);
        expect(more).toEqual([]);
        return found!.verdict;
      };
      // Each outline may be off by what the sheets are, and by the plan twice: once for either.
      const most = 2 * plan + Math.max(OFF[deck], OFF[view]) + OFF[deck];
      expect(beside(most + 0.1), `${deck} ${view} ${plan}`).toBe("clear");
      if (most > 0.2) expect(beside(most - 0.1), `${deck} ${view} ${plan}`).toBe("cannot-tell");
    }
  });

  // A composite deck 2 in. deep with 3 in. of concrete on it, lowest surface at 100 in., and 12 in. allowed for: at 117 in. and what the plan may be off by.
  it("well above a lower deck is so much farther above it", () => {
    for (const [deck, view, plan] of CASES) {
      const plain = roof(0, { label: "Lower", viewport: deck });
      const lower: Area = {
        ...plain,
        deck: { ...plain.deck, profile: "composite-2" },
        elevation: {
          ...plain.elevation,
          basis: "top-of-slab",
          layers: [{ name: "concrete", thickness: inch(3) }],
          shape: { is: "level", at: inch(105) },
        },
      };
      const above = (bottom: number) => {
        const level = (x: number) => [x, 50, bottom + R] as const;
        const element = run([level(100), level(500)], { viewport: view });
        return findingsOf({ m: lower, r: roof(300, { label: "Roof" }) }, element, jobOf(plan)).map(
          (one) => one.verdict,
        );
      };
      const limit = 117 + OFF[deck] + OFF[view] + plan;
      expect(above(limit + 0.01), `${deck} ${view} ${plan}`).toEqual(["clear"]);
      expect(above(limit - 0.01), `${deck} ${view} ${plan}`).toEqual(["cannot-tell"]);
    }
  });
});
