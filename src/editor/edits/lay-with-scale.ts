import { apply, type Edit, editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import type { Job, Viewport } from "../../job/schema.ts";
import { ok, type Result } from "../../units/problem.ts";
import type { ScaleNote } from "../../units/scale-note.ts";
import { registerViewport } from "./registration.ts";
import { stateScale } from "./scale.ts";

/**
 * Registers a viewport on another and gives that other the scale its sheet states, in one step. Problems are those of `registerViewport` and of
 * `stateScale`.
 */
export function layWithScale(
  job: Job,
  id: Id,
  to: Id,
  pairs: NonNullable<Viewport["registration"]>["pairs"],
  note: ScaleNote,
): Result<Edit> {
  const laid = registerViewport(job, id, to, pairs);
  if (!laid.ok) return laid;
  const scaled = stateScale(apply(job, laid.value), to, note);
  if (!scaled.ok) return scaled;
  const name = `${laid.value.name} and take its scale, ${note.text}`;
  return ok(editOf(job, name, [...laid.value.changes, ...scaled.value.changes]));
}
