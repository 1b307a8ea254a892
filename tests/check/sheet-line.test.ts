import { expect, it } from "vitest";
import { sheetLine, stationNear } from "../../src/check/sheet-line.ts";
import type { Rack } from "../../src/job/elements/rack.ts";
import { NO_FACTS } from "../../src/job/fields.ts";
import { box, inch, inchJob, roof, run, tag, withParts } from "./inch-job.ts";

const dropping = run([
  [100, 100, 140],
  [200, 100, 140],
  [200, 100, 80],
  [200, 300, null],
  [200, 400, 80],
]);
const rack: Rack = {
  kind: "rack",
  label: "K-1",
  viewport: "v1",
  raceways: ["1", "2", "1"].map((tradeSize) => ({
    label: "",
    wiring: { type: "emt", tradeSize, outsideDiameter: null },
    facts: NO_FACTS,
  })),
  spacing: { is: "centres", apart: inch(10) },
  vertices: [
    { at: [100, 500], tag: tag(120, "bottom") },
    { at: [300, 500], tag: tag(120, "bottom") },
  ],
};
const job = withParts(inchJob(), { a: roof(144) }, { e1: dropping, k1: rack, b1: box(10, 10, null) });

it("has the vertices of a run on its sheet with their stations, a drop by its height", () => {
  const line = sheetLine(job, "e1")!;
  expect(line.sheet).toBe("s1");
  expect(line.points).toEqual([
    [100, 100],
    [200, 100],
    [200, 100],
    [200, 300],
    [200, 400],
  ]);
  expect(line.stations).toEqual([0, 100, 160, 360, 460]);
});

it("finds the station nearest to a place, within reach and no farther", () => {
  const line = sheetLine(job, "e1")!;
  expect(stationNear(line, [150, 104], 5)).toBeCloseTo(50, 9);
  expect(stationNear(line, [150, 105], 5)).toBeCloseTo(50, 9);
  expect(stationNear(line, [150, 106], 5)).toBeUndefined();
  expect(stationNear(line, [203, 250], 5)).toBeCloseTo(160 + 150, 9);
  expect(stationNear(line, [96, 97], 5)).toBe(0);
});

it("goes along the raceway of a rack that is shown, beside the traced line", () => {
  // Centres 10 in. apart: the first lies 10 in. to the left of the way, which is up the sheet.
  expect(sheetLine(job, "k1", "1")!.points.map(([, y]) => y)).toEqual([510, 510]);
  expect(sheetLine(job, "k1")!.points.map(([, y]) => y)).toEqual([500, 500]);
  expect(stationNear(sheetLine(job, "k1", "3")!, [220, 490], 1)).toBeCloseTo(120, 9);
});

it("is not there for a box, for nothing, or without a scale", () => {
  expect(sheetLine(job, "b1")).toBeUndefined();
  expect(sheetLine(job, "e9")).toBeUndefined();
  const { v1 } = job.viewports;
  const bare = { ...job, viewports: { v1: { ...v1!, scale: { ...v1!.scale, stated: null } } } };
  expect(sheetLine(bare, "e1")).toBeUndefined();
});
