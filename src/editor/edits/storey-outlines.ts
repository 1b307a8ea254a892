import { overlap } from "../../geometry/overlap.ts";
import type { Point2 } from "../../geometry/point.ts";
import { type Polygon, ringProblems } from "../../geometry/polygon.ts";
import { applyTo } from "../../geometry/similarity.ts";
import { type Edit, editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import { inLabelOrder } from "../../job/label-order.ts";
import { nextLabel } from "../../job/labels.ts";
import { sheetToBuilding } from "../../job/registration.ts";
import type { Area, Job } from "../../job/schema.ts";
import { outlinesOf, type StoreyOutline } from "../../job/storey-outline.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { classifyArea } from "./areas.ts";
import { changeRecord } from "./change.ts";
import { soundRing } from "./sound.ts";

/**
 * Adds the outline of what stands on a deck, in sheet space, of which nothing else is known. It speaks for no area until one names it.
 * Problems: those of a ring, `edit.no-such-record`.
 */
export function addStoreyOutline(job: Job, id: Id, viewport: Id, outline: readonly Point2[]): Result<Edit> {
  if (!job.viewports[viewport]) return fail("edit.no-such-record", `viewports/${viewport}`, { id: viewport });
  const sound = soundRing(`storeyOutlines/${id}/outline`, outline);
  if (!sound.ok) return sound;
  const after: StoreyOutline = {
    label: nextLabel(job, "storeyOutline"),
    viewport,
    outline: [...outline],
    holes: [],
    above: { is: "not-recorded" },
    reason: "",
    by: "",
  };
  return ok(editOf(job, `Outline ${after.label}`, [{ table: "storeyOutlines", id, after }]));
}

/** Gives the outline of a storey another ring. Problems: those of a ring, `edit.no-such-record`. */
export function setStoreyRing(job: Job, id: Id, outline: readonly Point2[]): Result<Edit> {
  const sound = soundRing(`storeyOutlines/${id}/outline`, outline);
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "storeyOutlines",
    id,
    ({ label }) => `Outline ${label} again`,
    () => ({ outline: [...outline] }),
  );
}

/** Cuts what is open to the sky out of the outline of a storey: a court, a shaft. Problems: those of a ring, `edit.no-such-record`. */
export function addStoreyHole(job: Job, id: Id, hole: readonly Point2[]): Result<Edit> {
  const sound = soundRing(`storeyOutlines/${id}/holes/${job.storeyOutlines[id]?.holes.length ?? 0}`, hole);
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "storeyOutlines",
    id,
    ({ label }) => `Cut a hole into ${label}`,
    ({ holes }) => ({ holes: [...holes, [...hole]] }),
  );
}

/** Fills a hole of the outline of a storey, counted from 0. Problem: `edit.no-such-record`. */
export function removeStoreyHole(job: Job, id: Id, hole: number): Result<Edit> {
  if (!job.storeyOutlines[id]?.holes[hole])
    return fail("edit.no-such-record", `storeyOutlines/${id}/holes/${hole}`, { id });
  return changeRecord(
    job,
    "storeyOutlines",
    id,
    ({ label }) => `Fill a hole of ${label}`,
    ({ holes }) => ({ holes: holes.filter((_, i) => i !== hole) }),
  );
}

/** Says what stands within an outline, why, and who says so. Problem: `edit.no-such-record`. */
export function setStanding(
  job: Job,
  id: Id,
  patch: Partial<Pick<StoreyOutline, "above" | "reason" | "by">>,
): Result<Edit> {
  return changeRecord(
    job,
    "storeyOutlines",
    id,
    ({ label }) => `Say what stands within ${label}`,
    () => patch,
  );
}

/**
 * Lets an outline speak for an area, or speak for it no more. An area that was classified otherwise follows from outlines from then on;
 * its reason and who settled it stay. One that no outline speaks for any more is not settled. Problem: `edit.no-such-record`.
 */
export function speakFor(job: Job, outline: Id, area: Id, speaks: boolean): Result<Edit> {
  const record = job.storeyOutlines[outline];
  if (!record) return fail("edit.no-such-record", `storeyOutlines/${outline}`, { id: outline });
  return changeRecord(
    job,
    "areas",
    area,
    ({ label }) => (speaks ? `Let ${record.label} speak for ${label}` : `Let ${record.label} not speak for ${label}`),
    ({ classification }) => {
      const named = outlinesOf(classification);
      if (named.includes(outline) === speaks) return {};
      const { reason, by } = classification;
      const outlines = speaks ? [...named, outline] : named.filter((one) => one !== outline);
      return { classification: { is: "from-outline" as const, outlines, reason, by } };
    },
  );
}

/**
 * Lets an area follow from outlines of the storey above: those it names already, else every one that lies over some of it in plan, by the
 * registrations there are. None over it leaves it without any, and not settled. Problem: `edit.no-such-record`.
 */
export function followOutlines(job: Job, area: Id): Result<Edit> {
  const record = job.areas[area];
  if (!record) return fail("edit.no-such-record", `areas/${area}`, { id: area });
  const named = outlinesOf(record.classification);
  return classifyArea(job, area, {
    is: "from-outline",
    outlines: named.length > 0 ? named : outlinesOver(job, record),
  });
}

/** The outlines that lie over some of an area in plan, by label: those whose viewport shares its frame and whose rings are sound. */
export function outlinesOver(job: Job, area: Area): Id[] {
  const own = placed(job, area);
  if (!own) return [];
  return Object.entries(job.storeyOutlines)
    .filter(([, outline]) => {
      const there = placed(job, outline);
      return there !== undefined && there.root === own.root && overlap(own.polygon, there.polygon).area > 0;
    })
    .toSorted(([, a], [, b]) => inLabelOrder(a.label, b.label))
    .map(([id]) => id);
}

/** An outline in the plan of the building, and in which frame; undefined where it cannot be told or its rings are not sound. */
function placed(
  job: Job,
  { viewport, outline, holes }: Pick<Area, "viewport" | "outline" | "holes">,
): { readonly root: Id; readonly polygon: Polygon } | undefined {
  const registered = sheetToBuilding(job, viewport);
  if (!registered.ok || [outline, ...holes].some((ring) => ringProblems(ring).length > 0)) return undefined;
  const { sim, root } = registered.value;
  const toBuilding = (ring: readonly Point2[]): Point2[] => ring.map((at) => applyTo(sim, at));
  return { root, polygon: { outline: toBuilding(outline), holes: holes.map(toBuilding) } };
}
