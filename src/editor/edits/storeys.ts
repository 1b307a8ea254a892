import { type Edit, editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import type { Job, Storey } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { changeRecord } from "./change.ts";
import { soundElevation } from "./sound.ts";

/** Adds a storey by its name and its finished floor above the project datum. Problems: `edit.empty-name`, `edit.not-finite`. */
export function addStorey(job: Job, id: Id, storey: Storey): Result<Edit> {
  const sound = soundStorey(id, storey);
  if (!sound.ok) return sound;
  const after = { ...storey, name: storey.name.trim() };
  return ok(editOf(job, `Add the storey ${after.name}`, [{ table: "storeys", id, after }]));
}

/** Changes the name or the finished floor of a storey. Every tag above that floor moves with it. */
export function setStorey(job: Job, id: Id, patch: Partial<Storey>): Result<Edit> {
  const sound = soundStorey(id, patch);
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "storeys",
    id,
    ({ name }) => `Change the storey ${name}`,
    () => ({ ...patch, ...(patch.name === undefined ? {} : { name: patch.name.trim() }) }),
  );
}

function soundStorey(id: Id, { name, floor }: Partial<Storey>): Result<null> {
  if (name !== undefined && name.trim() === "") return fail("edit.empty-name", `storeys/${id}/name`);
  return soundElevation(`storeys/${id}/floor`, floor ?? null);
}
