import { describe, expect, it } from "vitest";
import { overlap } from "../../src/geometry/overlap.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { area, type Ring } from "../../src/geometry/polygon.ts";
import { sharesInTurn } from "../../src/geometry/shares-in-turn.ts";
import { splitPolygon } from "../../src/geometry/split-polygon.ts";
import { seeded } from "./random-scenes.ts";

const polygon = (outline: Ring) => ({ outline, holes: [] });

describe("edges within rounding of each other", () => {
  // Found by random jobs: an outline of the storey above, and the part of a deck under it.
  const storey: Point2[] = [
    [2815.6892055935336, -550.1619847615575],
    [2633.4272707170912, -550.1619847615557],
    [2633.4272707170917, -910.1619847615557],
    [2815.689205593533, -910.1619847615557],
  ];
  const part: Point2[] = [
    [2633.4272707170912, -620.1619847615556],
    [2633.4272707170917, -860.1619847615556],
    [2765.6892055935327, -860.1619847615555],
    [2765.6892055935327, -620.1619847615555],
  ];

  it("do not keep outlines from being laid over each other", () => {
    expect(overlap(polygon(storey), polygon(part)).area).toBeCloseTo(area(polygon(part)), 6);
    expect(overlap(polygon(part), polygon(storey)).area).toBeCloseTo(area(polygon(part)), 6);
    const { within, beyond } = splitPolygon(polygon(part), [polygon(storey)]);
    expect(within.reduce((sum, each) => sum + area(each), 0)).toBeCloseTo(area(polygon(part)), 6);
    expect(beyond.reduce((sum, each) => sum + area(each), 0)).toBeCloseTo(0, 6);
    expect(sharesInTurn(part, [polygon(storey)])[0]).toBeCloseTo(area(polygon(part)), 6);
  });

  it("do not in 1,000 pairs whose edges are off by single bits, at any place", () => {
    const random = seeded(31);
    for (let i = 0; i < 1000; i++) {
      const [x, y] = [1e4 * (random() - 0.5), 1e4 * (random() - 0.5)];
      const bit = (n: number): number => n * (1 + (Math.floor(5 * random()) - 2) * 2 ** -52);
      const [w, h] = [50 + 300 * random(), 50 + 300 * random()];
      const rectangle = (x0: number, y0: number, x1: number, y1: number): Point2[] => [
        [bit(x0), bit(y0)],
        [bit(x1), bit(y0)],
        [bit(x1), bit(y1)],
        [bit(x0), bit(y1)],
      ];
      const whole = rectangle(x, y, x + w, y + h);
      const inner = rectangle(x, y + 0.2 * h, x + 0.5 * w, y + 0.7 * h);
      expect(overlap(polygon(whole), polygon(inner)).area, `${i}`).toBeCloseTo(0.25 * w * h, 5);
      const { within, beyond } = splitPolygon(polygon(whole), [polygon(inner)]);
      const sum = (parts: typeof within) => parts.reduce((all, each) => all + area(each), 0);
      expect(sum(within) + sum(beyond), `${i}`).toBeCloseTo(w * h, 5);
    }
  });
});
