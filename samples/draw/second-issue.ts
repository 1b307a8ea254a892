import type { CeilingIssue } from "./ceiling-sheet.ts";
import { FOOT } from "./plan-place.ts";
import { type DrawnRun, RUNS } from "./workshop.ts";

/** R-7 leaves its old way half along the hall and goes on 3'-0" farther north. */
const REROUTED: DrawnRun["route"] = [
  [4 * FOOT, 52 * FOOT],
  [40 * FOOT, 52 * FOOT],
  [40 * FOOT, 55 * FOOT],
  [68 * FOOT, 55 * FOOT],
];

/** Sheet A-131 issued again: its title strip stands at the left and the plan makes room for it, R-7 is routed otherwise, R-2 hangs six inches lower. */
export const SECOND_ISSUE: CeilingIssue = {
  strip: "left",
  runs: RUNS.map((run) =>
    run.label === "R-7"
      ? { ...run, route: REROUTED }
      : run.label === "R-2"
        ? { ...run, says: `1" EMT  C.L. 14'-2" AFF` }
        : run,
  ),
};
