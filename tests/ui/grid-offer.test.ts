import { describe, expect, it } from "vitest";
import { registerViewport } from "../../src/editor/edits/registration.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import type { FoundGrid } from "../../src/pdf/read/find-grid.ts";
import { gridOffer } from "../../src/ui/grid-offer.ts";
import { sheetUnits } from "../../src/units/quantity.ts";
import { twoSheets } from "../editor/sample-job.ts";
import { applyChecked } from "../job/apply-checked.ts";

/** Bays of the invented building, in feet, uneven. */
const BAYS = { "1": 0, "2": 24, "3": 50, "4": 78, A: 0, B: 31, C: 60 };

/** The grid as a sheet shows it: points a foot, and where its corner A/1 stands; mirrored with `flip` -1. */
const shown = (scale: number, [x, y]: Point2, bays: Record<string, number> = BAYS, flip = 1): FoundGrid => ({
  axes: Object.entries(bays).map(([label, bay]) => {
    const line: [Point2, Point2] = /^\d/.test(label)
      ? [
          [x + flip * scale * bay, y - 20],
          [x + flip * scale * bay, y + 70 * scale],
        ]
      : [
          [x - 20, y + scale * bay],
          [x + 90 * scale, y + scale * bay],
        ];
    return { label, line, bubbles: [{ centre: line[0], radius: sheetUnits(9) }] };
  }),
});
const job = twoSheets();
const roof = shown(3, [100, 100]);
const answer = (here: FoundGrid, there: FoundGrid[] = [roof]) => gridOffer(job, "v-ceiling", "v-roof", [here], there);
const offer = (here: FoundGrid, there: FoundGrid[] = [roof]) => {
  const found = answer(here, there);
  if (found.is !== "offer") throw new Error(found.is);
  return found.offer;
};

describe("laying a sheet on another by its grid", () => {
  it("offers the shared lines with nothing off, and pairs that register at the ratio of the two scales", () => {
    const { labels, fits, pairs, onlyHere, onlyThere } = offer(shown(9, [150, 200], { ...BAYS, "5": 90 }));
    expect(labels.map(({ label }) => label).sort()).toEqual(["1", "2", "3", "4", "A", "B", "C"]);
    expect(Math.max(...labels.map(({ off }) => off))).toBeLessThan(1e-9);
    expect([fits, onlyHere, onlyThere, pairs.length]).toEqual([true, ["5"], [], 6]);
    const corners = pairs.map(({ label }) => label);
    for (const corner of ["1/A", "4/A", "4/C", "1/C"]) expect(corners).toContain(corner);
    const laid = applyChecked(job, registerViewport(job, "v-ceiling", "v-roof", pairs));
    expect(laid.viewports["v-ceiling"]?.registration?.pairs[0]).toEqual({
      label: corners[0],
      here: expect.anything(),
      there: expect.anything(),
    });
  });

  it("names a line that is another one there, and offers the rest without it", () => {
    const { suspects, fits, labels, pairs } = offer(shown(9, [150, 200], { ...BAYS, "3": 61 }));
    expect([suspects, fits]).toEqual([["3"], true]);
    expect(labels.find(({ label }) => label === "3")?.suspect).toBe(true);
    expect(pairs.some(({ label }) => label.startsWith("3/"))).toBe(false);
  });

  it("offers nothing to record where one is mirrored or a bay is missing", () => {
    expect(offer(shown(9, [900, 200], BAYS, -1))).toMatchObject({ mirrored: true, pairs: [] });
    expect(offer(shown(9, [150, 200], { "1": 0, "2": 26, "3": 54, "4": 54.5, A: 0, B: 29, C: 60 }))).toMatchObject({
      fits: false,
      pairs: [],
    });
  });

  it("takes the grid of several that fits, and says where there is none", () => {
    const stranger = shown(2, [10, 900], { "1": 0, "2": 9, A: 0, B: 40 });
    expect(offer(shown(9, [150, 200]), [stranger, roof])).toMatchObject({ fits: true, pairs: { length: 6 } });
    expect(gridOffer(job, "v-ceiling", "v-roof", [], [roof]).is).toBe("no-grid-here");
    expect(gridOffer(job, "v-ceiling", "v-roof", [roof], []).is).toBe("no-grid-there");
    expect(answer(shown(9, [0, 0], { "7": 0, X: 10 })).is).toBe("too-few-shared");
  });
});
