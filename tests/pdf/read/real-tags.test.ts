import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { applyMatrix } from "../../../src/pdf/read/matrix.ts";
import { displayTransform } from "../../../src/pdf/read/page-geometry.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { readLinework } from "../../../src/pdf/read/read-linework.ts";
import { runNoteIn } from "../../../src/pdf/read/run-notes.ts";
import { slopeArrow } from "../../../src/pdf/read/slope-arrows.ts";
import { tagsIn } from "../../../src/pdf/read/stacked-tags.ts";
import { withPlan } from "./open-bytes.ts";
import { tagTruths } from "./tag-truths.ts";

/** How far, in points, what was read off a picture by eye may lie from what is found. */
const BY_EYE = 6;
const near = (a: readonly number[], b: readonly number[]) => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!) <= BY_EYE;

/** Takes each truth's match out of a list; what stays in either is a miss or made up. */
function apart<T, U>(truths: readonly T[], found: readonly U[], fits: (truth: T, each: U) => boolean) {
  const left = [...found];
  const missed = truths.filter((truth) => {
    const i = left.findIndex((each) => fits(truth, each));
    if (i >= 0) left.splice(i, 1);
    return i < 0;
  });
  return { missed, left };
}

describe("tags, slopes and notes of real drawings, written down by eye beforehand (skipped where they are not at hand)", () => {
  it.each(tagTruths.map((truth) => [`${truth.file} ${truth.page}`, truth] as const))("%s", async (name, truth) => {
    if (!existsSync(truth.file)) return console.info(`skipped: ${name}`);
    await withPlan(new Uint8Array(readFileSync(truth.file)), async (plan) => {
      const { texts, geometry, slopes } = await readPage(plan, truth.page);
      const shown = displayTransform(geometry);
      const linework = slopes.length > 0 ? await readLinework(plan, truth.page) : undefined;
      const tags = texts.flatMap((run) => tagsIn(run, texts));
      expect(
        apart(
          truth.tags,
          tags.map(({ value, middle }) => ({ value, at: applyMatrix(shown, middle) })),
          ([, inches, at], each) => Math.abs(each.value - inches) < 1e-9 && near(each.at, at),
        ),
      ).toEqual({ missed: [], left: [] });
      const arrows = slopes.map(({ rise, run }) => {
        const arrow = slopeArrow(linework!, run);
        return { rise, tail: arrow && applyMatrix(shown, arrow.tail), tip: arrow && applyMatrix(shown, arrow.tip) };
      });
      expect(
        apart(
          truth.slopes,
          arrows,
          ([, inches, , tail, tip], each) =>
            Math.abs(each.rise - inches / 12) < 1e-9 &&
            each.tail !== null &&
            each.tip !== null &&
            near(each.tail, tail) &&
            near(each.tip, tip),
        ),
      ).toEqual({ missed: [], left: [] });
      expect(texts.flatMap((run) => runNoteIn(run)?.text ?? [])).toEqual(truth.runNotes);
    });
  });
});
