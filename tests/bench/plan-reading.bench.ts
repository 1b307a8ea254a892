import { measurePlans, PLAN_COUNTS, type PlanTallies } from "../pdf/read/measure-plans.ts";
import { type BenchRow, benchRow } from "./bench-row.ts";

const PLANS = 1000;

const WORDS: Readonly<Record<keyof PlanTallies, string>> = {
  notes: "scale notes with their views",
  grids: "grid lines with their bubbles",
  tags: "elevation tags, taken apart",
  runNotes: "sizes and conductors of runs",
  slopes: "slopes with their arrows",
  dimensions: "dimensions with both ends",
  runs: "runs followed to both ends",
  ties: "tags and notes tied to their run",
  titles: "numbers and names of sheets",
  viewports: "viewports of the file",
};

/** How much of what is drawn on random plans is found, and how much of what is found was drawn: plans by another library, seeds 1 to 1,000. */
export async function run(): Promise<BenchRow[]> {
  const start = performance.now();
  const tallies = await measurePlans(Array.from({ length: PLANS }, (_, i) => i + 1));
  const each = (performance.now() - start) / PLANS;
  return [
    ...PLAN_COUNTS.flatMap((name) => {
      const { drawn, found, right, notes } = tallies[name];
      const first = notes[0] ? `; ${notes[0].slice(0, 120)}` : "";
      return [
        benchRow(`${WORDS[name]} found, per cent`, (100 * right) / drawn, "all", 100, `${right} of ${drawn}${first}`),
        benchRow(`${WORDS[name]} found that were drawn`, (100 * right) / found, "all", 100, `${right} of ${found}`),
      ];
    }),
    benchRow("draw, read and compare one random plan", each, "wanted at most", 60, `${PLANS} plans`),
  ];
}
