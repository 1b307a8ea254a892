import { expect, it } from "vitest";
import { findingsOf, rectangle, roof, run } from "./inch-job.ts";

/*
 * Outlines nothing can be told under: that of the deck or of one of its holes crosses itself, or a hole reaches out of the deck, where what
 * is outside would count as deck.
 */
type Ring = readonly (readonly [x: number, y: number])[];
const SQUARE: Ring = rectangle(0, 0, 600, 600);
/** A U, open upwards between x = 200 and x = 400 from y = 200 on. */
const U: Ring = [
  [0, 0],
  [600, 0],
  [600, 600],
  [400, 600],
  [400, 200],
  [200, 200],
  [200, 600],
  [0, 600],
];
const mirrored = (ring: Ring): Ring => ring.map(([x, y]) => [600 - x, y] as const);
const STRAYS = "a hole that lies within its outline";
const CROSSES = "an outline that does not cross itself";

it.each<readonly [string, Ring, Ring, string | undefined]>([
  ["a hole well within", SQUARE, rectangle(300, 300, 400, 400), undefined],
  ["a hole along the edge, out of it by less than a hundredth", SQUARE, rectangle(500, 300, 600.9, 400), undefined],
  ["a hole half outside", SQUARE, rectangle(550, 300, 650, 400), STRAYS],
  ["a hole wholly outside", SQUARE, rectangle(700, 300, 800, 400), STRAYS],
  ["a hole a tenth of which is outside", SQUARE, rectangle(510, 300, 610, 400), STRAYS],
  ["a hole round the whole deck", rectangle(100, 0, 500, 400), rectangle(50, -50, 550, 450), STRAYS],
  ["a hole in one arm of a U", U, rectangle(50, 300, 150, 400), undefined],
  ["a hole in the opening of a U", U, rectangle(250, 300, 350, 400), STRAYS],
  ["a hole from arm to arm of a U, all its corners in the deck", U, rectangle(100, 300, 500, 400), STRAYS],
  ["a hole below the opening of a U", U, rectangle(100, 120, 500, 180), undefined],
  [
    "a hole that crosses itself",
    SQUARE,
    [
      [300, 300],
      [400, 400],
      [400, 300],
      [300, 400],
    ],
    CROSSES,
  ],
  [
    "an outline that crosses itself",
    [
      [0, 0],
      [600, 0],
      [0, 600],
      [600, 600],
    ],
    rectangle(500, 290, 520, 310),
    CROSSES,
  ],
])("%s", (_, outline, hole, missing) => {
  for (const way of [(ring: Ring) => ring, (ring: Ring) => [...ring].reverse(), mirrored]) {
    const deck = roof(144, { outline: [...way(outline)], holes: [[...way(hole)]] });
    const found = findingsOf(
      { a: deck },
      run([
        [100, 50, 140],
        [500, 50, 140],
      ]),
    );
    if (missing === undefined) expect(found.map(({ verdict }) => verdict)).toEqual(["clear"]);
    else {
      expect(found.map(({ verdict }) => verdict)).not.toContain("clear");
      const of = found.find(({ areas }) => areas.includes("a"));
      expect(of).toMatchObject({ verdict: "cannot-tell" });
      expect(JSON.stringify(of!.reasons)).toContain(missing);
      expect(of!.remedies).not.toEqual([]);
    }
  }
});
