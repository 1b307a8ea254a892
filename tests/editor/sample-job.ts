import { addArea } from "../../src/editor/edits/areas.ts";
import { addBox, addRun } from "../../src/editor/edits/elements.ts";
import { setStatedScale } from "../../src/editor/edits/scale.ts";
import { addSheets } from "../../src/editor/edits/sheets.ts";
import { apply, type Edit } from "../../src/job/edit.ts";
import { emptyJob, type Job, type Sheet } from "../../src/job/schema.ts";
import type { Result } from "../../src/units/problem.ts";
import { applyChecked } from "../job/apply-checked.ts";

/** A sheet of 24" x 18", as page 1 of an invented file. */
export const sheetOf = (title: string, more: Partial<Sheet> = {}): Sheet => ({
  title,
  file: { sha256: "ab".repeat(32), name: `${title}.pdf`, bytes: 1234 },
  page: 1,
  view: [0, 0, 1728, 1296],
  rotate: 0,
  userUnit: 1,
  ...more,
});

/** A job of two sheets, "roof" and "ceiling", each with a viewport of the same name and the scale 1/4" = 1'-0". */
export function twoSheets(more: Partial<Sheet> = {}): Job {
  let job = applyChecked(
    emptyJob("Larkfield Annex", "us-2023"),
    addSheets(emptyJob("Larkfield Annex", "us-2023"), [
      { id: "s-roof", viewportId: "v-roof", sheet: sheetOf("Roof framing", more) },
      { id: "s-ceiling", viewportId: "v-ceiling", sheet: sheetOf("Reflected ceiling", more) },
    ]),
  );
  for (const viewport of ["v-roof", "v-ceiling"])
    job = applyChecked(job, setStatedScale(job, viewport, `1/4" = 1'-0"`));
  return job;
}

export const EMT = { type: "emt", tradeSize: "3/4", outsideDiameter: null } as const;

/** The two sheets with an area "a1" on the roof, and a run "r1" of three vertices and a box "b1" on the ceiling sheet. */
export function furnished(): Job {
  let job = twoSheets();
  const add = (edit: Result<Edit>) => {
    job = applyChecked(job, edit);
  };
  add(
    addArea(job, "a1", "v-roof", [
      [100, 100],
      [500, 100],
      [500, 400],
      [100, 400],
    ]),
  );
  add(
    addRun(job, "r1", {
      viewport: "v-ceiling",
      wiring: EMT,
      vertices: [
        { at: [200, 200], tag: null },
        { at: [300, 200], tag: null },
        { at: [300, 350], tag: null },
      ],
    }),
  );
  add(addBox(job, "b1", { viewport: "v-ceiling", at: [420, 220], item: "4sq-2-1/8", cover: "down" }));
  return job;
}

/** The value of a result; fails the test with the problems otherwise. */
export function valueIn<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.problems)}`);
  return result.value;
}

/** The job after edits, unchecked: for building a starting point. */
export const after = (job: Job, ...edits: readonly Edit[]): Job => edits.reduce(apply, job);
