import { distance2 } from "../../../src/geometry/point.ts";
import { compareWitnesses } from "../../../src/pdf/read/compare-witnesses.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { readLinework } from "../../../src/pdf/read/read-linework.ts";
import { readScales } from "../../../src/pdf/read/scale-witnesses.ts";
import { drawnScales } from "./drawn-scales.ts";
import { frames, type Tally } from "./measure-reading.ts";
import { withPlan } from "./open-bytes.ts";

/** Every third sheet is printed smaller than its note says. */
const reducedBy = (seed: number): number => (seed % 3 === 0 ? 0.5 : 1);

/** Reads random sheets with dimensions, a scale bar and a note, and compares what is found with what was drawn. */
export async function measureScales(seeds: readonly number[]): Promise<{ dimensions: Tally; notes: Tally }> {
  const dimensions: Tally = { drawn: 0, found: 0, right: 0, notes: [] };
  const notes: Tally = { drawn: 0, found: 0, right: 0, notes: [] };
  for (const [i, seed] of seeds.entries()) {
    const reduced = reducedBy(seed);
    const sheet = await drawnScales(seed, frames[i % frames.length]!, reduced);
    await withPlan(sheet.bytes, async (plan) => {
      const contents = await readPage(plan, 1);
      const scales = readScales({ contents, linework: await readLinework(plan, 1) });
      dimensions.drawn += sheet.dimensions.length;
      dimensions.found += scales.dimensions.length;
      for (const { text, ends } of sheet.dimensions) {
        const twin = scales.dimensions.find(
          (each) =>
            each.text === text &&
            [each.ends, [each.ends[1], each.ends[0]] as const].some(
              ([a, b]) => distance2(a, ends[0]) < 0.1 && distance2(b, ends[1]) < 0.1,
            ),
        );
        if (twin) dimensions.right++;
        else dimensions.notes.push(`seed ${seed}: ${text} missed`);
      }
      // The note against the bar and against the dimensions: both tell whether the sheet is as large as it says.
      notes.drawn += 2;
      for (const { claim, factor, agrees } of compareWitnesses(scales.witnesses)) {
        if (claim.measured) continue;
        notes.found++;
        if (Math.abs(factor - reduced) < 0.01 && agrees === (reduced === 1)) notes.right++;
        else notes.notes.push(`seed ${seed}: ${claim.text} at ${factor}, drawn at ${reduced}`);
      }
    });
  }
  return { dimensions, notes };
}
