import { describe, expect, it } from "vitest";
import { boxOfBar, makeBar } from "../../src/geometry/bar.ts";
import { barToFace } from "../../src/geometry/bar-clearance.ts";
import { boxToFace, segmentToFace } from "../../src/geometry/clearance.ts";
import { makeFace } from "../../src/geometry/face.ts";
import { makeFaceIndex } from "../../src/geometry/face-index.ts";
import { planeLevel } from "../../src/geometry/plane.ts";
import type { Point3 } from "../../src/geometry/point.ts";
import { inches, radians } from "../../src/units/quantity.ts";
import { randomBox, seeded } from "./random-scenes.ts";

const SEED = 59;

const slab = (x: number, y: number, w: number, d: number, z: number) =>
  makeFace(
    {
      outline: [
        [x, y],
        [x + w, y],
        [x + w, y + d],
        [x, y + d],
      ],
      holes: [],
    },
    planeLevel(inches(z)),
  );
/** Bays of a roof at several levels about the origin, decks under their corners and under the middle of two, and one far off. */
const faces = [
  slab(-130, -30, 40, 60, 108),
  ...Array.from({ length: 16 }, (_, i) =>
    slab(100 * (i % 4) - 200, 100 * Math.floor(i / 4) - 200, 100, 100, 120 + ((i * 7) % 5)),
  ),
  slab(80, 80, 40, 40, 111),
  slab(35, 40, 30, 20, 112),
  slab(-165, -155, 30, 20, 113),
  slab(900, 900, 10, 10, 60),
];

describe("the nearest of many faces", () => {
  it(`is the nearest of them all, in whatever order they are listed and whatever was asked before (seed ${SEED})`, () => {
    const random = seeded(SEED);
    for (let first = 0; first < faces.length; first++) {
      const list = [...faces.slice(first), ...faces.slice(0, first)];
      const index = makeFaceIndex(list);
      for (let n = 0; n < 20; n++) {
        // Anywhere, or short and close about the middle of a bay with a deck under it.
        const [x, y, wide] = n % 3 === 0 ? [50, 50, 30] : n % 3 === 1 ? [-150, -145, 30] : [0, 0, 480];
        const p: Point3 = [x + wide * (random() - 0.5), y + wide * (random() - 0.5), 95 + (wide / 12) * random()];
        const q: Point3 = [
          p[0] + (wide / 8) * (random() - 0.5),
          p[1] + (wide / 8) * (random() - 0.5),
          p[2] + 9 * (random() - 0.5),
        ];
        const apart = list.map((face) => segmentToFace(p, q, face).distance);
        const found = index.nearestToSegment(p, q)!;
        expect(found.distance, `${first} ${n}`).toBeCloseTo(Math.min(...apart), 9);
        expect(apart[found.face], `${first} ${n}`).toBeCloseTo(found.distance, 9);
        const box = randomBox(random);
        const low = { ...box, centre: [box.centre[0], box.centre[1], 105] as const };
        const boxes = list.map((face) => boxToFace(low, face).distance);
        const byBox = index.nearestToBox(low)!;
        expect(byBox.distance, `${first} ${n}`).toBeCloseTo(Math.min(...boxes), 9);
        expect(byBox.face, `${first} ${n}`).toBe(boxes.indexOf(byBox.distance));
        const bar = makeBar(p, q, inches(4), inches(2));
        const bars = list.map((face) => barToFace(bar, face).distance);
        const byBar = index.nearestBy(boxOfBar(bar), (face) => barToFace(bar, face).distance)!;
        expect(bars[byBar], `${first} ${n}`).toBeCloseTo(Math.min(...bars), 9);
      }
    }
  });

  it("is the deck close under a bay, straight after the bay itself was the answer, in whatever order they are listed", () => {
    for (let first = 0; first < faces.length; first++) {
      const list = [...faces.slice(first), ...faces.slice(0, first)];
      const index = makeFaceIndex(list);
      // Over the middle of two decks, 30 in. and more from the sides of the bay over them; before that, at its corner.
      for (const [x, y, deck] of [
        [50, 50, 112],
        [-150, -145, 113],
      ] as const) {
        index.nearestToSegment([x - 35, y - 35, 110], [x - 34, y - 35, 110]);
        const { face, distance } = index.nearestToSegment([x, y, 106], [x + 2, y, 106])!;
        expect(distance, `${first}`).toBe(deck - 106);
        expect(list[face]!.box.min[2], `${first}`).toBe(deck);
      }
    }
  });

  it("is none where none is accepted or there are none, by any way of asking", () => {
    const box = { centre: [0, 0, 0] as Point3, half: [1, 1, 1] as Point3, rotation: radians(0) };
    for (const index of [makeFaceIndex([]), makeFaceIndex(faces)]) {
      expect(index.nearestToSegment([0, 0, 0], [1, 1, 1], () => false)).toBeUndefined();
      expect(index.nearestToBox(box, () => false)).toBeUndefined();
      expect(
        index.nearestBy(
          { min: [0, 0, 0], max: [1, 1, 1] },
          () => 1,
          () => false,
        ),
      ).toBeUndefined();
    }
    expect(makeFaceIndex(faces).nearestToBox(box, (face) => face === 0)!.face).toBe(0);
    expect(
      makeFaceIndex(faces).nearestBy(
        { min: [0, 0, 0], max: [1, 1, 1] },
        () => 1,
        (face) => face === 0,
      ),
    ).toBe(0);
  });
});

describe("a query", () => {
  const one = makeFaceIndex([slab(0, 0, 64, 64, 144)]);
  // A box 2 in. wide, 16 in. off the face on each of its sides in turn: within reach at 16, not below.
  it.each<[string, Point3]>([
    ["left", [-17, 32, 144]],
    ["right", [81, 32, 144]],
    ["before", [32, -17, 144]],
    ["behind", [32, 81, 144]],
    ["below", [32, 32, 127]],
    ["above", [32, 32, 161]],
  ])("holds a face just within reach: %s", (_, [x, y, z]) => {
    const box = { min: [x - 1, y - 1, z - 1], max: [x + 1, y + 1, z + 1] } as const;
    expect(one.query(box, inches(16))).toEqual([0]);
    expect(one.query(box, inches(15.999))).toEqual([]);
  });

  it("names many faces in rising order", () => {
    const many = Array.from({ length: 60 }, (_, i) => slab(10 * ((i * 37) % 60), 0, 10, 10, 144));
    const index = makeFaceIndex(many);
    for (const n of [31, 32, 33, 60]) {
      const hits = index.query({ min: [0, 0, 144], max: [10 * n - 11, 10, 144] }, inches(0));
      const wanted = many.flatMap((face, i) => (face.box.min[0] <= 10 * n - 11 ? [i] : []));
      expect(hits).toEqual(wanted);
      expect(hits.length).toBe(n - 1);
    }
  });
});
