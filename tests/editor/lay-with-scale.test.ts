import { expect, test } from "vitest";
import { layWithScale } from "../../src/editor/edits/lay-with-scale.ts";
import { removeScale } from "../../src/editor/edits/scale.ts";
import { applyTo } from "../../src/geometry/similarity.ts";
import { sheetToBuilding } from "../../src/job/registration.ts";
import { applyChecked, refusals } from "../job/apply-checked.ts";
import { twoSheets, valueIn } from "./sample-job.ts";

const NOTE = { text: `1/8" = 1'-0"`, ratio: 96 };
/** Two bays of 800 units here, of 400 there: this sheet is drawn twice as large. */
const PAIRS = [
  { label: "1/A", here: [100, 100] as [number, number], there: [200, 200] as [number, number] },
  { label: "2/A", here: [900, 100] as [number, number], there: [600, 200] as [number, number] },
];

/** Two whole sheets that nothing is known of. */
function bare() {
  let job = twoSheets();
  for (const id of Object.keys(job.viewports))
    for (const which of ["stated", "measured"] as const)
      if (job.viewports[id]!.scale[which]) job = applyChecked(job, removeScale(job, id, which));
  return job;
}

test("a sheet is laid on another that takes its stated scale, in one step: the one drawn twice as large is then at twice the scale", () => {
  const job = bare();
  const [root, laid] = Object.keys(job.viewports) as [string, string];
  expect(sheetToBuilding(job, laid).ok).toBe(false);
  const after = applyChecked(job, layWithScale(job, laid, root, PAIRS, NOTE));
  expect(after.viewports[root]!.scale).toMatchObject({ stated: NOTE, use: "stated" });
  expect(after.viewports[laid]!.registration).toEqual({ to: root, pairs: PAIRS });
  const { sim } = valueIn(sheetToBuilding(after, laid));
  // 800 units at 1/4" = 1'-0": 800 / 72 in. of paper, 48 times as long in the building.
  const [a, b] = PAIRS.map(({ here }) => applyTo(sim, here)) as [readonly [number, number], readonly [number, number]];
  expect(Math.hypot(b[0] - a[0], b[1] - a[1])).toBeCloseTo((800 / 72) * 48, 9);
});

test("is refused as laying alone is: on itself, and by one point", () => {
  const job = bare();
  const [root, laid] = Object.keys(job.viewports) as [string, string];
  expect(refusals(layWithScale(job, laid, laid, PAIRS, NOTE))).toEqual(["registration.to-itself"]);
  expect(layWithScale(job, laid, root, PAIRS.slice(0, 1), NOTE).ok).toBe(false);
});
