import { describe, expect, it } from "vitest";
import type { Point2 } from "../../../src/geometry/point.ts";
import { closedRegion, MOST_LOOKED } from "../../../src/pdf/read/closed-region.ts";
import { followLine, MOST_STEPS } from "../../../src/pdf/read/follow-line.ts";
import { gatherLinework } from "../../../src/pdf/read/gather-linework.ts";
import { type Linework, SEGMENT } from "../../../src/pdf/read/linework.ts";
import { markHatching } from "../../../src/pdf/read/mark-hatching.ts";
import { snapTo } from "../../../src/pdf/read/snap-to.ts";
import { sheetUnits } from "../../../src/units/quantity.ts";
import { INK, madeLinework } from "./made-linework.ts";

/* What searching costs on pages made to be slow, counted in segments asked of the index: a count is the same on every machine. */

/** The same linework with its index counted: how often it is searched, and how many segments that offers. */
function counted(linework: Linework) {
  const asked = { searches: 0, offered: 0 };
  const filtered = (filter?: (segment: number) => boolean) => (segment: number) => {
    asked.offered++;
    return filter ? filter(segment) : true;
  };
  const index = Object.assign(Object.create(linework.index), {
    search(x0: number, y0: number, x1: number, y1: number, filter?: (segment: number) => boolean) {
      asked.searches++;
      return linework.index.search(x0, y0, x1, y1, filtered(filter));
    },
    neighbors(x: number, y: number, most: number, reach: number, filter?: (segment: number) => boolean) {
      asked.searches++;
      return linework.index.neighbors(x, y, most, reach, filtered(filter));
    },
  });
  return { linework: { ...linework, index } as Linework, asked };
}

const places: readonly Point2[] = [
  [500.3, 500.2],
  [10.1, 990.7],
  [250.05, 250.6],
];

/** 200 by 200 short strokes, as of a pattern. */
const hatched = (): Linework =>
  madeLinework(
    Array.from({ length: 40_000 }, (_, i) => {
      const [x, y] = [5 + 4.9 * (i % 200), 5 + 4.9 * Math.floor(i / 200)];
      return {
        points: [
          [x, y],
          [x + 4.9, y + 4.9],
        ] as Point2[],
      };
    }),
  );

/** 40,000 lines across the whole page, all of which cross all others of the other direction. */
const woven = (): Linework =>
  madeLinework(
    Array.from({ length: 40_000 }, (_, i) => {
      const at = 1 + (998 * Math.floor(i / 2)) / 20_000;
      return {
        points: (i % 2 === 0
          ? [
              [0, at],
              [1000, at],
            ]
          : [
              [at, 0],
              [at, 1000],
            ]) as Point2[],
      };
    }),
  );

/** Lines of 5,000 layers, a cross of each. */
const layered = (): Linework =>
  madeLinework(
    Array.from({ length: 10_000 }, (_, i) => {
      const at = 10 + (980 * Math.floor(i / 2)) / 5000;
      const style = { ...INK, layer: `layer ${Math.floor(i / 2)}` };
      return {
        points: (i % 2 === 0
          ? [
              [at - 5, at],
              [at + 5, at],
            ]
          : [
              [at, at - 5],
              [at, at + 5],
            ]) as Point2[],
        style,
      };
    }),
  );

/** A page of a thousand million units a side, with lines all over it. */
const enormous = (): Linework => {
  const view = [-1e9, -1e9, 1e9, 1e9] as const;
  const gatherer = gatherLinework({ page: 1, view, rotate: 0, userUnit: 1 });
  const style = gatherer.styleOf(INK);
  for (let i = 0; i < 2000; i++) {
    gatherer.part();
    gatherer.add(-1e9 + 1e6 * i, -1e9, 1e9 - 1e6 * i, 1e9, style, 0, view);
    gatherer.part();
    gatherer.add(1000 * i - 1e6, 0, 1000 * i - 1e6, 1000 * (i % 7), style, 0, view);
  }
  return gatherer.finish();
};

describe.each([
  ["40,000 strokes of a hatch", hatched],
  ["40,000 lines that all cross", woven],
  ["5,000 layers", layered],
  ["coordinates of a thousand million", enormous],
] as const)("on a page with %s", (_, made) => {
  const page = made();

  it("snapping looks at a limited number of lines", () => {
    for (const at of places) {
      const { linework, asked } = counted(page);
      snapTo(linework, at, sheetUnits(8));
      expect(asked.searches).toBe(1);
      expect(asked.offered).toBeLessThan(20_000);
    }
  });

  it("following a line takes a limited number of steps", () => {
    for (const at of places) {
      const { linework, asked } = counted(page);
      followLine(linework, at, { reach: sheetUnits(8), atTees: "straight" });
      // Up to three searches a step, both ways, and one for the first line.
      expect(asked.searches).toBeLessThanOrEqual(6 * MOST_STEPS + 1);
    }
  });

  it("a region is looked for no longer than stated", () => {
    for (const at of places) {
      const { linework, asked } = counted(page);
      closedRegion(linework, at, { without: 0 });
      // One more line may be parted than the limit lets through, and that meets all others at most.
      expect(asked.offered).toBeLessThan(3 * MOST_LOOKED + 4 * page.count);
    }
  });

  it("hatching is told once for each line", () => {
    const before = page.flags.slice();
    markHatching(page);
    const again = page.flags.slice();
    markHatching(page);
    expect(page.flags).toEqual(again);
    expect(before.every((bits) => (bits & SEGMENT.hatch) === 0)).toBe(true);
    page.flags.set(before);
  });
});
