import { describe, expect, it } from "vitest";
import type { Point2 } from "../../../src/geometry/point.ts";
import { applyTo, type Similarity } from "../../../src/geometry/similarity.ts";
import type { FoundGrid } from "../../../src/pdf/read/find-grid.ts";
import { matchGrids } from "../../../src/pdf/read/match-grids.ts";
import { radians, sheetUnits } from "../../../src/units/quantity.ts";

/** Bays of the invented building, in feet: uneven, so that no shift by a bay fits. */
const columns = { "1": 0, "2": 24, "2.5": 33, "3": 50, "4": 78 };
const rows = { A: 0, B: 31, "B.1": 44, C: 60 };

/** The building's grid as a sheet shows it: the given lines, at a place, scale and turn of its own. */
const shown = (
  sim: Similarity,
  {
    without = [],
    places = { ...columns, ...rows } as Record<string, number>,
    flip = 1,
  }: { without?: string[]; places?: Record<string, number>; flip?: 1 | -1 } = {},
): FoundGrid => ({
  axes: Object.entries(places)
    .filter(([label]) => !without.includes(label))
    .map(([label, at]) => {
      const isColumn = /^\d/.test(label);
      const ends: [Point2, Point2] = isColumn
        ? [
            [flip * at, -10],
            [flip * at, 70],
          ]
        : [
            [-10 * flip, at],
            [88 * flip, at],
          ];
      const [from, to] = ends.map((p) => applyTo(sim, p)) as [Point2, Point2];
      return { label, line: [from, to], bubbles: [{ centre: from, radius: sheetUnits(3) }] };
    }),
});
const at = (scale: number, degrees: number, dx: number, dy: number): Similarity => ({
  scale,
  angle: radians((degrees * Math.PI) / 180),
  dx,
  dy,
});
const match = (here: FoundGrid, there: FoundGrid) => {
  const result = matchGrids(here, there);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
};
const roof = shown(at(3.375, 90, 1900, 400));

describe("two sheets with one grid", () => {
  it("lie on each other by their shared crossings, whatever scale, turn and place each has", () => {
    const ceiling = shown(at(13.5, 0, 120, 200));
    const { fits, sim, crossings, suspects, misfit } = match(ceiling, roof);
    expect([fits, suspects, crossings.length]).toEqual([true, [], 5 * 4]);
    expect(misfit).toBeLessThan(1e-12);
    expect(sim.scale).toBeCloseTo(3.375 / 13.5, 12);
    expect(sim.angle).toBeCloseTo(Math.PI / 2, 12);
  });

  it("also where one of them lacks a line, or shows only some bays", () => {
    const { fits, crossings } = match(shown(at(6, 0, 0, 0), { without: ["2.5", "C", "1"] }), roof);
    expect([fits, crossings.length]).toEqual([true, 3 * 3]);
  });

  it("do not fit where one shows the plan from the other side", () => {
    const { fits, mirrored, suspects } = match(shown(at(6, 0, 600, 0), { flip: -1 }), roof);
    expect([fits, mirrored, suspects]).toEqual([false, true, []]);
  });

  it("do not fit where a label stands at another line, which is named", () => {
    // Grid 3 of the other sheet is a line between 3 and 4, 11 ft off.
    const { fits, suspects, byLabel } = match(
      shown(at(6, 0, 0, 0), { places: { ...columns, ...rows, "3": 61 } }),
      roof,
    );
    expect([fits, suspects]).toEqual([false, ["3"]]);
    expect([...byLabel].sort((a, b) => b.rms - a.rms)[0]?.label).toBe("3");
  });

  it("do not fit where the labels run the other way", () => {
    const renamed = { "1": 78, "2": 54, "2.5": 45, "3": 28, "4": 0, ...rows };
    expect(match(shown(at(6, 0, 0, 0), { places: renamed }), roof)).toMatchObject({ fits: false });
  });

  it("cannot be compared with fewer than two shared crossings", () => {
    const parallel = shown(at(1, 0, 0, 0), { without: Object.keys(rows) });
    expect(matchGrids(parallel, roof)).toMatchObject({ ok: false, problems: [{ code: "grid.too-few-shared" }] });
  });
});
