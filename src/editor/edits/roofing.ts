import type { Edit } from "../../job/edit.ts";
import { editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import { NO_ROOFING, type Roofing } from "../../job/roofing.ts";
import type { Job } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { changeRecord, withoutIdle } from "./change.ts";
import { allSound, soundSize, soundThickness } from "./sound.ts";

/**
 * Records how the roofing over an area is held down, starting from nothing known where nothing was. Problems: `edit.not-finite`,
 * `edit.not-positive` (a fastener without length), `edit.negative`, `edit.no-such-record`.
 */
export function setRoofing(job: Job, id: Id, patch: Partial<Roofing>): Result<Edit> {
  const where = `areas/${id}/roofing`;
  const sound = allSound(
    soundSize(`${where}/fastener`, patch.fastener ?? null),
    ...(patch.layers ?? []).map(({ thickness }, i) => soundThickness(`${where}/layers/${i}`, thickness)),
    soundThickness(`${where}/deckThickness`, patch.deckThickness ?? null),
    soundThickness(`${where}/margin`, patch.margin ?? null),
  );
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "areas",
    id,
    ({ label }) => `Change the roofing of ${label}`,
    (area) => ({ roofing: { ...(area.roofing ?? NO_ROOFING), ...patch } }),
  );
}

/** Takes the record of an area's roofing out again. Problem: `edit.no-such-record`. */
export function removeRoofing(job: Job, id: Id): Result<Edit> {
  const area = job.areas[id];
  if (!area) return fail("edit.no-such-record", `areas/${id}`, { id });
  const { roofing: _before, ...after } = area;
  return ok(withoutIdle(editOf(job, `Take out the roofing of ${area.label}`, [{ table: "areas", id, after }])));
}
