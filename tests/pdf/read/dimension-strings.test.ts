import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bareDimensions, dimensionStrings } from "../../../src/pdf/read/dimension-strings.ts";
import { applyMatrix } from "../../../src/pdf/read/matrix.ts";
import { displayTransform } from "../../../src/pdf/read/page-geometry.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { readLinework } from "../../../src/pdf/read/read-linework.ts";
import { withPlan } from "./open-bytes.ts";
import { sheetTruths } from "./witness-truths.ts";

/** How far, in points, what was read off a picture by eye may lie from what is found. */
const BY_EYE = 6;

describe("dimensions of sheets, written down by eye beforehand (drawings not at hand are skipped)", () => {
  it.each(sheetTruths.map((truth) => [`${truth.file} ${truth.page}`, truth] as const))("%s", async (name, truth) => {
    if (!existsSync(truth.file)) return console.info(`skipped: ${name}`);
    await withPlan(new Uint8Array(readFileSync(truth.file)), async (plan) => {
      const { texts, geometry } = await readPage(plan, truth.page);
      const shown = displayTransform(geometry);
      const linework = await readLinework(plan, truth.page);
      expect(bareDimensions(linework, texts), "figures without a unit").toEqual([]);
      const left = dimensionStrings(linework, texts).map(({ text, ends, ratio, marks }) => ({
        text,
        ends: ends.map((end) => applyMatrix(shown, end)),
        ratio,
        marks,
      }));
      const near = (a: readonly number[], b: readonly number[]) => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!) <= BY_EYE;
      const missed = truth.dimensions.filter(([text, from, to]) => {
        const i = left.findIndex(
          (each) =>
            each.text === text &&
            ((near(each.ends[0]!, from) && near(each.ends[1]!, to)) ||
              (near(each.ends[1]!, from) && near(each.ends[0]!, to))),
        );
        if (i >= 0) left.splice(i, 1);
        return i < 0;
      });
      expect(missed, "missed").toEqual([]);
      expect(left, "found where the eye sees none").toEqual([]);
    });
  });
});
