import { describe, expect, test } from "vitest";
import { boxToFace, segmentToFace } from "../../src/geometry/clearance.ts";
import { makeFace } from "../../src/geometry/face.ts";
import { makeFaceIndex } from "../../src/geometry/face-index.ts";
import { planeLevel } from "../../src/geometry/plane.ts";
import { inches } from "../../src/units/quantity.ts";
import { randomBox, randomFace, randomSegment, seeded } from "./random-scenes.ts";

const seed = 20;
const random = seeded(seed);
const faces = Array.from({ length: 60 }, () => randomFace(random, 3000 * random(), 3000 * random()));
const index = makeFaceIndex(faces);

describe(`an index over faces (seed ${seed})`, () => {
  test("the query holds every face within reach, in order", () => {
    for (let i = 0; i < 300; i++) {
      const [p, q] = randomSegment(random, 3000 * random(), 3000 * random());
      const reach = 200 * random();
      const hits = index.query({ p, q, radius: inches(2) }, inches(reach));
      expect(hits).toEqual([...new Set(hits)].sort((a, b) => a - b));
      faces.forEach((face, number) => {
        if (segmentToFace(p, q, face).distance - 2 <= reach) expect(hits).toContain(number);
      });
    }
  });

  test("the query leaves out what is far above", () => {
    const one = makeFaceIndex([
      makeFace(
        {
          outline: [
            [0, 0],
            [9, 0],
            [0, 9],
          ],
          holes: [],
        },
        planeLevel(inches(100)),
      ),
    ]);
    expect(one.query({ min: [1, 1, 0], max: [2, 2, 90] }, inches(9))).toEqual([]);
    expect(one.query({ min: [1, 1, 0], max: [2, 2, 90] }, inches(10))).toEqual([0]);
  });

  test("the nearest face is the nearest of all, near and far", () => {
    for (let i = 0; i < 500; i++) {
      const far = i % 5 === 0 ? 1e5 : 0;
      const [p, q] = randomSegment(random, 3000 * random() + far, 3000 * random());
      const least = Math.min(...faces.map((face) => segmentToFace(p, q, face).distance));
      const found = index.nearestToSegment(p, q)!;
      expect(Math.abs(found.distance - least)).toBeLessThan(1e-9);
      expect(segmentToFace(p, q, faces[found.face]!).distance).toBeCloseTo(least, 9);
    }
  });

  test("the nearest face among bays side by side, with a deck over one of them and a strip across another", () => {
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
    const bays = Array.from({ length: 16 }, (_, i) => slab(100 * (i % 4), 100 * Math.floor(i / 4), 100, 100, 120));
    const all = [...bays, slab(120, 120, 50, 50, 100), slab(310, 210, 80, 0.01, 118)];
    const mixed = makeFaceIndex(all);
    for (let i = 0; i < 2000; i++) {
      const p = [400 * random(), 400 * random(), 80 + 60 * random()] as const;
      const q = [p[0] + 80 * (random() - 0.5), p[1] + 80 * (random() - 0.5), 80 + 60 * random()] as const;
      const least = Math.min(...all.map((face) => segmentToFace(p, q, face).distance));
      expect(Math.abs(mixed.nearestToSegment(p, q)!.distance - least)).toBeLessThan(1e-9);
    }
  });

  test("the nearest face to a box", () => {
    for (let i = 0; i < 200; i++) {
      const box = randomBox(random, 3000 * random(), 3000 * random());
      const least = Math.min(...faces.map((face) => boxToFace(box, face).distance));
      expect(Math.abs(index.nearestToBox(box)!.distance - least)).toBeLessThan(1e-9);
    }
  });

  test("only faces that are accepted", () => {
    for (let i = 0; i < 100; i++) {
      const [p, q] = randomSegment(random, 3000 * random(), 3000 * random());
      const even = faces.filter((_, number) => number % 2 === 0);
      const least = Math.min(...even.map((face) => segmentToFace(p, q, face).distance));
      expect(index.nearestToSegment(p, q, (number) => number % 2 === 0)!.distance).toBeCloseTo(least, 9);
      expect(index.nearestToSegment(p, q, () => false)).toBeUndefined();
    }
  });

  test("of equally near faces the first, whatever was asked before", () => {
    const bays = [0, 100, 200, 300].map((x) =>
      makeFace(
        {
          outline: [
            [x, 0],
            [x + 100, 0],
            [x + 100, 100],
            [x, 100],
          ],
          holes: [],
        },
        planeLevel(inches(144)),
      ),
    );
    for (const list of [bays, [...bays].reverse()]) {
      const level = makeFaceIndex(list);
      for (const start of [50, 150, 250, 350]) {
        level.nearestToSegment([start, 50, 140], [start, 60, 140]);
        const nearest = level.nearestToSegment([50, 50, 140], [350, 50, 140])!;
        expect(nearest.face).toBe(0);
        expect(nearest).toEqual({ face: 0, ...segmentToFace([50, 50, 140], [350, 50, 140], list[0]!) });
        expect(level.nearestToSegment([350, 50, 140], [50, 50, 140])!.face).toBe(0);
        expect(level.nearestToSegment([150, 50, 140], [250, 50, 140])!.face).toBe(1);
      }
    }
  });

  test("no faces, or none with corners", () => {
    expect(makeFaceIndex([]).nearestToSegment([0, 0, 0], [1, 1, 1])).toBeUndefined();
    expect(makeFaceIndex([]).query({ min: [0, 0, 0], max: [1, 1, 1] }, inches(5))).toEqual([]);
    const hollow = makeFace({ outline: [], holes: [] }, planeLevel(inches(1)));
    expect(makeFaceIndex([hollow]).nearestToSegment([0, 0, 0], [1, 1, 1])).toBeUndefined();
    const mixed = makeFaceIndex([hollow, faces[0]!]);
    expect(mixed.nearestToSegment([0, 0, 0], [1, 1, 1])!.face).toBe(1);
  });
});
