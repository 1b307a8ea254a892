import { fitSimilarity } from "../../geometry/similarity.ts";
import { apply, type Edit } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import { sheetToBuilding } from "../../job/registration.ts";
import type { Job, Viewport } from "../../job/schema.ts";
import { fail, type Result } from "../../units/problem.ts";
import { changeRecord } from "./change.ts";
import { soundPoints } from "./sound.ts";

type Pairs = NonNullable<Viewport["registration"]>["pairs"];

/**
 * Registers a viewport on another by points they share, at least two. Problems: `registration.to-itself`,
 * `registration.too-few-pairs`, `registration.equal-points`, `registration.mirrored`, `registration.circle`.
 */
export function registerViewport(job: Job, id: Id, to: Id, pairs: Pairs): Result<Edit> {
  const where = `viewports/${id}/registration`;
  const [viewport, other] = [job.viewports[id], job.viewports[to]];
  if (!viewport || !other)
    return fail("edit.no-such-record", `viewports/${viewport ? to : id}`, { id: viewport ? to : id });
  if (id === to) return fail("registration.to-itself", where, { viewport: viewport.name });
  const finite = soundPoints(
    where,
    pairs.flatMap(({ here, there }) => [here, there]),
  );
  if (!finite.ok) return finite;
  const fit = fitSimilarity(pairs.map(({ here, there }) => ({ from: here, to: there })));
  if (!fit.ok)
    return {
      ok: false,
      problems: fit.problems.map((p) => ({ ...p, where, params: { ...p.params, viewport: viewport.name } })),
    };
  if (fit.value.mirrored) return fail("registration.mirrored", where, { viewport: viewport.name });
  const edit = changeRecord(
    job,
    "viewports",
    id,
    ({ name }) => `Register ${name} on ${other.name}`,
    () => ({ registration: { to, pairs } }),
  );
  if (!edit.ok) return edit;
  const placed = sheetToBuilding(apply(job, edit.value), id);
  const circle = placed.ok ? undefined : placed.problems.find(({ code }) => code === "registration.circle");
  return circle ? { ok: false, problems: [{ ...circle, where }] } : edit;
}

/** Takes back the registration of a viewport: it stands in a frame of its own again. */
export function unregisterViewport(job: Job, id: Id): Result<Edit> {
  return changeRecord(
    job,
    "viewports",
    id,
    ({ name }) => `Take back the registration of ${name}`,
    () => ({ registration: null }),
  );
}
