import { describe, expect, it } from "vitest";
import type { Point2 } from "../../../src/geometry/point.ts";
import { signedArea } from "../../../src/geometry/polygon.ts";
import { closedRegion, type RegionOptions } from "../../../src/pdf/read/closed-region.ts";
import { SEGMENT } from "../../../src/pdf/read/linework.ts";
import { madeLinework } from "./made-linework.ts";

type Lines = Parameters<typeof madeLinework>[0];

const box = (x0: number, y0: number, x1: number, y1: number): Lines[number] => ({
  points: [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
    [x0, y0],
  ],
});
const region = (lines: Lines, at: Point2, options: RegionOptions = {}) => {
  const found = closedRegion(madeLinework(lines), at, options);
  if (!found.found) return found.why;
  return {
    area: Math.round(signedArea(found.outline)),
    corners: found.outline.length,
    holes: found.holes.map((hole) => Math.round(signedArea(hole))),
  };
};

describe("the closed region round a place", () => {
  it("is the outline about it, counter-clockwise, however large", () => {
    expect(region([box(100, 100, 140, 130)], [120, 110])).toEqual({ area: 1200, corners: 4, holes: [] });
    expect(region([box(70, 70, 990, 990)], [120, 110])).toEqual({ area: 920 * 920, corners: 4, holes: [] });
  });

  it("is made by lines that cross, drawn apart, longer than the region", () => {
    const lines: Lines = [
      {
        points: [
          [90, 100],
          [310, 100],
        ],
      },
      {
        points: [
          [90, 200],
          [310, 200],
        ],
      },
      {
        points: [
          [100, 90],
          [100, 210],
        ],
      },
      {
        points: [
          [300, 210],
          [300, 90],
        ],
      },
    ];
    expect(region(lines, [150, 150])).toEqual({ area: 20_000, corners: 4, holes: [] });
  });

  it("is the smallest: a wall parts it, a line that ends inside it does not", () => {
    expect(
      region(
        [
          box(100, 100, 300, 200),
          {
            points: [
              [200, 100],
              [200, 200],
            ],
          },
        ],
        [150, 150],
      ),
    ).toMatchObject({ area: 10_000 });
    expect(
      region(
        [
          box(100, 100, 300, 200),
          {
            points: [
              [200, 100],
              [200, 180],
            ],
          },
        ],
        [150, 150],
      ),
    ).toEqual({
      area: 20_000,
      corners: 4,
      holes: [],
    });
  });

  it("has holes where something stands free in it", () => {
    const lines: Lines = [
      box(100, 100, 300, 200),
      box(200, 120, 220, 130),
      box(250, 150, 260, 160),
      box(500, 500, 600, 600),
    ];
    expect(region(lines, [150, 150])).toEqual({ area: 20_000, corners: 4, holes: expect.arrayContaining([200, 100]) });
    expect(region(lines, [210, 125])).toEqual({ area: 200, corners: 4, holes: [] });
  });

  it("closes over ends that miss each other by a hair, and over no more than that", () => {
    const gap = (wide: number): Lines => [
      {
        points: [
          [100, 100],
          [300, 100],
          [300, 200],
          [100, 200],
          [100, 100 + wide],
        ],
      },
    ];
    expect(region(gap(0.2), [150, 150])).toMatchObject({ corners: 4 });
    expect(region(gap(3), [150, 150])).toBe("open");
    expect(region(gap(3), [150, 150], { touch: 4 as RegionOptions["touch"] & number })).toMatchObject({ corners: 4 });
  });

  it("is bounded by a curve as by a line, and not by hatching", () => {
    const ring = Array.from(
      { length: 65 },
      (_, i): Point2 => [500 + 100 * Math.cos((i * Math.PI) / 32), 500 + 100 * Math.sin((i * Math.PI) / 32)],
    );
    const lines: Lines = [
      { points: ring, flags: SEGMENT.curved },
      ...Array.from({ length: 30 }, (_, i) => ({
        points: [
          [400, 405 + 6 * i],
          [600, 405 + 6 * i],
        ] as Point2[],
        flags: SEGMENT.hatch,
      })),
    ];
    // A regular polygon of 64 corners has the area 32 r2 sin(2 pi / 64).
    const found = region(lines, [510, 520]);
    expect(found).toMatchObject({ area: Math.round(32 * 10_000 * Math.sin(Math.PI / 32)) });
  });

  it("is said to be missing when nothing closes round the place, or the place is on a line", () => {
    expect(region([box(100, 100, 140, 130)], [500, 500])).toBe("open");
    expect(region([], [500, 500])).toBe("open");
    expect(region([box(100, 100, 140, 130)], [120, 100])).toBe("on-a-line");
  });

  it("is not what the border of the sheet holds, with a title block or without", () => {
    const strip: Lines[number] = {
      points: [
        [880, 10],
        [880, 985],
      ],
    };
    const room = box(300, 300, 500, 420);
    expect(region([box(30, 10, 990, 985), room], [700, 800])).toBe("frame");
    expect(region([box(30, 10, 990, 985), strip, room], [700, 800])).toBe("frame");
    expect(region([box(30, 10, 990, 985), strip, room], [400, 400])).toMatchObject({ area: 24_000 });
    // A building that fills a sheet keeps away from its edge on two sides at least.
    expect(region([box(30, 10, 880, 900)], [400, 400])).toMatchObject({ corners: 4 });
  });

  /** A row of teeth along the top of the page, each on its own bar, all hanging together. */
  const comb = (teeth: number): Lines =>
    Array.from({ length: teeth }, (_, i): Lines => {
      const x = 100 + (800 * i) / teeth;
      const next = 100 + (800 * (i + 1)) / teeth;
      return [
        {
          points: [
            [x, 500],
            [next, 500],
            [next, 500 + 300 / (1 + (i % 7))],
          ],
        },
      ];
    }).flat();

  it("is looked for no longer than so many steps", () => {
    expect(region(comb(1000), [500, 499])).toBe("open");
    expect(region(comb(1000), [99, 600])).toBe("open");
    // Below, no line is crossed by the ray to the right; from the left, all of them hang together.
    expect(region(comb(40_000), [99, 500.5], { touch: 0.001 as never })).toBe("too-dense");
  });
});
