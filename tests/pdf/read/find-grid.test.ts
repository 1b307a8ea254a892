import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { findGrid } from "../../../src/pdf/read/find-grid.ts";
import { applyMatrix } from "../../../src/pdf/read/matrix.ts";
import { displayTransform } from "../../../src/pdf/read/page-geometry.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { readLinework } from "../../../src/pdf/read/read-linework.ts";
import { gridTruths } from "./grid-truths.ts";
import { frames, measureReading } from "./measure-reading.ts";
import { withPlan } from "./open-bytes.ts";

const folder = new URL("../../../../shared/drawings/", import.meta.url);
/** How far, in points, what was read off a picture by eye may lie from what is found. */
const BY_EYE = 6;

/** Empty bubbles of the conference sheet that are not found: the first and the last of the rows. */
const known: Readonly<Record<string, number>> = { "ti-conference-rcp.pdf 1": 2 };

describe.skipIf(!existsSync(folder))(
  "grids of real drawings, written down by eye beforehand (skipped where they are not at hand)",
  () => {
    it.each(gridTruths.map((truth) => [`${truth.file} ${truth.page}`, truth] as const))(
      "%s",
      async (name, { file, page, bubbles }) => {
        await withPlan(new Uint8Array(readFileSync(new URL(file, folder))), async (plan) => {
          const { texts, geometry } = await readPage(plan, page);
          const shown = displayTransform(geometry);
          const found = findGrid(await readLinework(plan, page), texts).flatMap(({ axes }) =>
            axes.flatMap(({ label, bubbles: own }) =>
              own.map(({ centre }) => ({ label, at: applyMatrix(shown, centre) })),
            ),
          );
          const left = [...found];
          const missed = bubbles.filter(({ label, at }) => {
            const i = left.findIndex(
              (each) => each.label === label && Math.hypot(each.at[0] - at[0], each.at[1] - at[1]) <= BY_EYE,
            );
            if (i >= 0) left.splice(i, 1);
            return i < 0;
          });
          expect(left, "found where the eye sees none").toEqual([]);
          expect(missed.length, JSON.stringify(missed)).toBe(known[name] ?? 0);
        });
      },
    );
  },
);

describe("grids and runs of random sheets that another library drew, on pages of every rotation, crop box and user unit", () => {
  it("are found as drawn, with few misses and nothing made up", async () => {
    const { grid, runs } = await measureReading(frames.map((_, i) => i + 1));
    const told = [...grid.notes, ...runs.notes].join("\n");
    expect(grid.right / grid.drawn, told).toBeGreaterThanOrEqual(0.98);
    expect(grid.right / grid.found, told).toBeGreaterThanOrEqual(0.98);
    expect(runs.right / runs.drawn, told).toBeGreaterThanOrEqual(0.95);
  });
});
