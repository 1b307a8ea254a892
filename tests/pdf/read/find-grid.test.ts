import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { findGrid } from "../../../src/pdf/read/find-grid.ts";
import { matchGrids } from "../../../src/pdf/read/match-grids.ts";
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

describe.skipIf(!existsSync(folder))(
  "grids of real drawings, written down by eye beforehand (skipped where they are not at hand)",
  () => {
    it.each(gridTruths.map((truth) => [`${truth.file} ${truth.page}`, truth] as const))(
      "%s",
      async (_, { file, page, bubbles }) => {
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
          expect(missed, "missed").toEqual([]);
        });
      },
    );
  },
);

const SET = new URL("metal-building-set.pdf", folder);

describe.skipIf(!existsSync(SET))("two sheets of a real set (skipped where it is not at hand)", () => {
  it(`lie on each other at the ratio of their scale notes, 3/16" to 3/64"`, async () => {
    await withPlan(new Uint8Array(readFileSync(SET)), async (plan) => {
      const gridOf = async (page: number) =>
        findGrid(await readLinework(plan, page), (await readPage(plan, page)).texts)[0]!;
      const match = matchGrids(await gridOf(4), await gridOf(3));
      if (!match.ok) throw new Error(JSON.stringify(match.problems));
      const { fits, sim, crossings, suspects } = match.value;
      // Grids 8.5 to 14 by E to K: 7 by 6.
      expect([fits, suspects, crossings.length]).toEqual([true, [], 42]);
      expect(sim.scale).toBeCloseTo(1 / 4, 4);
      expect(Math.abs(sim.angle)).toBeLessThan(1e-4);
    });
  });
});

describe("grids and runs of random sheets that another library drew, on pages of every rotation, crop box and user unit", () => {
  it("are found as drawn, with few misses and nothing made up", async () => {
    const { grid, runs } = await measureReading(frames.map((_, i) => i + 1));
    const told = [...grid.notes, ...runs.notes].join("\n");
    expect(grid.right / grid.drawn, told).toBeGreaterThanOrEqual(0.98);
    expect(grid.right / grid.found, told).toBeGreaterThanOrEqual(0.98);
    expect(runs.right / runs.drawn, told).toBeGreaterThanOrEqual(0.95);
  });
});
