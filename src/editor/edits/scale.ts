import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Edit } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import type { Job, Viewport } from "../../job/schema.ts";
import type { Length } from "../../units/length.ts";
import { fail, type Result } from "../../units/problem.ts";
import { parseScaleNote, type ScaleNote } from "../../units/scale-note.ts";
import { changeRecord } from "./change.ts";
import { allSound, soundPoints, soundSize } from "./sound.ts";

/** Sets the scale a sheet states and uses it. `text` is the note as written; problems are those of `parseScaleNote`. */
export function setStatedScale(job: Job, viewportId: Id, text: string): Result<Edit> {
  const note = parseScaleNote(text);
  return note.ok ? stateScale(job, viewportId, note.value) : note;
}

/** What on a sheet a scale was taken from. */
export type ScaleSource = NonNullable<NonNullable<Viewport["scale"]["stated"]>["source"]>;

/** Sets a scale that has been read already as the one the sheet states, and uses it. Problem: `edit.no-such-record`. */
export const stateScale = (job: Job, viewportId: Id, { text, ratio }: ScaleNote, source?: ScaleSource): Result<Edit> =>
  changeRecord(
    job,
    "viewports",
    viewportId,
    (viewport) => `Set the scale of ${viewport.name} to ${text}`,
    ({ scale }) => ({
      scale: { ...scale, stated: { text, ratio, ...(source ? { source } : {}) }, use: "stated" as const },
    }),
  );

/**
 * Sets the scale by two points in sheet space and the distance between them in the building, and uses it. Problems:
 * `scale.equal-points`, `scale.zero-distance`, `edit.not-finite`.
 */
export function setMeasuredScale(
  job: Job,
  viewportId: Id,
  a: Point2,
  b: Point2,
  distance: Length,
  source?: ScaleSource,
): Result<Edit> {
  const where = `viewports/${viewportId}/scale/measured`;
  const sound = allSound(soundPoints(where, [a, b]), soundSize(where, distance));
  if (!sound.ok)
    return sound.problems.some(({ code }) => code === "edit.not-positive") ? fail("scale.zero-distance", where) : sound;
  if (distance2(a, b) === 0) return fail("scale.equal-points", where);
  return changeRecord(
    job,
    "viewports",
    viewportId,
    (viewport) => `Measure the scale of ${viewport.name}`,
    ({ scale }) => ({
      scale: { ...scale, measured: { a, b, distance, ...(source ? { source } : {}) }, use: "measured" as const },
    }),
  );
}

/** Chooses which of the scales of a viewport is used. Problem: `scale.not-given` when that one has not been given. */
export function chooseScale(job: Job, viewportId: Id, use: "stated" | "measured"): Result<Edit> {
  const viewport = job.viewports[viewportId];
  if (viewport && viewport.scale[use] === null)
    return fail("scale.not-given", `viewports/${viewportId}/scale`, { viewport: viewport.name, scale: use });
  return changeRecord(
    job,
    "viewports",
    viewportId,
    ({ name }) => `Use the ${use} scale of ${name}`,
    ({ scale }) => ({ scale: { ...scale, use } }),
  );
}

/** Forgets one of the scales of a viewport; the other is used from then on, where there is one. */
export function removeScale(job: Job, viewportId: Id, which: "stated" | "measured"): Result<Edit> {
  const other = which === "stated" ? ("measured" as const) : ("stated" as const);
  return changeRecord(
    job,
    "viewports",
    viewportId,
    ({ name }) => `Remove the ${which} scale of ${name}`,
    ({ scale }) => ({ scale: { ...scale, [which]: null, use: scale[other] === null ? null : other } }),
  );
}
