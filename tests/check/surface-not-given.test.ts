import { expect, it } from "vitest";
import type { Area } from "../../src/job/schema.ts";
import { findingsOf, inch, roof, run } from "./inch-job.ts";

/* Decks of which too little is recorded to say where their lowest surface is: nothing is told under them, and what is missing is named. */
type Shape = Area["elevation"]["shape"];
const slope = (at: number | null, towards: readonly [number, number], rise: number): Shape => ({
  is: "slope",
  at: at === null ? null : inch(at),
  point: [100, 100],
  towards: [...towards],
  rise,
  text: "",
});
const spots = (...all: readonly (readonly [x: number, y: number, z: number | null])[]): Shape => ({
  is: "spots",
  spots: all.map(([x, y, z]) => ({ at: [x, y], elevation: z === null ? null : inch(z) })),
});

it.each<readonly [string, Shape, string | undefined]>([
  ["a level one", { is: "level", at: inch(144) }, undefined],
  ["a level one without its elevation", { is: "level", at: null }, "the elevation of its"],
  ["a slope", slope(144, [200, 100], 1 / 100), undefined],
  ["a slope without its elevation", slope(null, [200, 100], 1 / 100), "at the point the slope starts from"],
  ["a slope that falls nowhere", slope(144, [100, 100], 1 / 100), "the direction in which it falls"],
  ["a slope of nothing, which needs no direction", slope(144, [100, 100], 0), undefined],
  ["three spots", spots([0, 0, 144], [600, 0, 144], [0, 600, 144]), undefined],
  [
    "three spots on one line",
    spots([0, 0, 144], [300, 0, 144], [600, 0, 144]),
    "three spots that do not lie on one line",
  ],
  [
    "three spots, one without its elevation",
    spots([0, 0, 144], [600, 0, null], [0, 600, 144]),
    "three spots, each with an elevation",
  ],
  [
    "four spots, the second without its elevation",
    spots([0, 0, 144], [600, 0, null], [600, 600, 144], [0, 600, 144]),
    "the elevation of spot 2",
  ],
  ["four spots on one line", spots([0, 0, 144], [200, 0, 144], [400, 0, 144], [600, 0, 144]), ""],
])("%s", (_, shape, missing) => {
  const { elevation } = roof(144);
  const deck = roof(144, { elevation: { ...elevation, shape } });
  const found = findingsOf(
    { a: deck },
    run([
      [100, 50, 100],
      [300, 50, 100],
    ]),
  );
  expect(found.map(({ verdict }) => verdict)).toEqual([missing === undefined ? "clear" : "cannot-tell"]);
  if (missing === undefined) return;
  expect(JSON.stringify(found[0]!.reasons)).toContain(missing);
  expect(found[0]).toMatchObject({ stretches: [{ fromIn: 0, toIn: 200 }], at: [200, 50] });
});
