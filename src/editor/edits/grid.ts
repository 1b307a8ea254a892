import { type Edit, editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import type { Job, Viewport } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { changeRecord, withoutIdle } from "./change.ts";
import { soundPoints } from "./sound.ts";

/** Keeps lines of the building's grid with a viewport, instead of those kept there before. Problems: those of `soundPoints`. */
export function keepGrid(job: Job, id: Id, grid: NonNullable<Viewport["grid"]>): Result<Edit> {
  const finite = soundPoints(
    `viewports/${id}/grid`,
    grid.flatMap(({ line }) => line),
  );
  if (!finite.ok) return finite;
  return changeRecord(
    job,
    "viewports",
    id,
    ({ name }) => `Keep the grid of ${name}`,
    () => ({ grid }),
  );
}

/** Keeps no grid with a viewport any more. Problem: `edit.no-such-record`. */
export function forgetGrid(job: Job, id: Id): Result<Edit> {
  const viewport = job.viewports[id];
  if (!viewport) return fail("edit.no-such-record", `viewports/${id}`, { id });
  const { grid: _, ...after } = viewport;
  return ok(withoutIdle(editOf(job, `Let go of the grid of ${viewport.name}`, [{ table: "viewports", id, after }])));
}
