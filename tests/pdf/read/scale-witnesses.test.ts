import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it, test } from "vitest";
import { compareWitnesses } from "../../../src/pdf/read/compare-witnesses.ts";
import { applyMatrix } from "../../../src/pdf/read/matrix.ts";
import { displayTransform } from "../../../src/pdf/read/page-geometry.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { readLinework } from "../../../src/pdf/read/read-linework.ts";
import { scaleBars } from "../../../src/pdf/read/scale-bars.ts";
import { readScales } from "../../../src/pdf/read/scale-witnesses.ts";
import { measureScales } from "./measure-scales.ts";
import { withPlan } from "./open-bytes.ts";
import { sheetTruths } from "./witness-truths.ts";

/** How far, in points, what was read off a picture by eye may lie from what is found. */
const BY_EYE = 6;
const house = "../shared/drawings/house-A103-roof-11x17-reduced.pdf";

describe("scales of sheets, written down by eye beforehand (drawings not at hand are skipped)", () => {
  it.each(sheetTruths.map((truth) => [`${truth.file} ${truth.page}`, truth] as const))("%s", async (name, truth) => {
    if (!existsSync(truth.file)) return console.info(`skipped: ${name}`);
    await withPlan(new Uint8Array(readFileSync(truth.file)), async (plan) => {
      const contents = await readPage(plan, truth.page);
      const linework = await readLinework(plan, truth.page);
      const { views, witnesses } = readScales({ contents, linework });
      const order = (list: readonly (readonly [string, string | null])[]) =>
        list.map((each) => each.join(" @ ")).sort();
      expect(order(views.map(({ note, title }) => [note.text, title] as const))).toEqual(order(truth.notes));
      const shown = displayTransform(contents.geometry);
      const bars = scaleBars(linework, contents.texts).map(
        ({ labels, ends }) => [labels.at(-1), ...ends.map((end) => applyMatrix(shown, end))] as const,
      );
      expect(bars).toHaveLength(truth.bars.length);
      for (const [i, [last, from, to]] of truth.bars.entries()) {
        expect(bars[i]![0]).toBe(last);
        for (const [k, end] of [from, to].entries()) {
          const [x, y] = bars[i]![k + 1] as readonly [number, number];
          expect(Math.hypot(x - end[0], y - end[1])).toBeLessThan(BY_EYE);
        }
      }
      const comparisons = compareWitnesses(witnesses);
      if (truth.file === house) {
        // A sheet of 30 x 42 in. on paper 11 in. high: 11/30 = 0.367; the printed edge of the sheet stands 15.56 in. from the left, 0.370 of 42.
        expect(comparisons).toHaveLength(1);
        expect(comparisons[0]).toMatchObject({ agrees: false, claim: { text: `1/4" = 1'-0"` } });
        expect(Math.abs(comparisons[0]!.factor - 0.37)).toBeLessThan(0.005);
      } else expect(comparisons.filter(({ agrees }) => !agrees)).toEqual([]);
      if (truth.dimensions.length > 0 && truth.notes.length > 0) expect(comparisons.length).toBeGreaterThan(0);
    });
  });
});

test("on drawn sheets of every rotation, crop box and user unit the dimensions are found and false notes told", async () => {
  const { dimensions, notes } = await measureScales(Array.from({ length: 32 }, (_, i) => i + 1));
  expect(dimensions.notes).toEqual([]);
  expect([dimensions.right, dimensions.found]).toEqual([dimensions.drawn, dimensions.drawn]);
  expect(notes.notes).toEqual([]);
  expect([notes.right, notes.found]).toEqual([notes.drawn, notes.drawn]);
});
