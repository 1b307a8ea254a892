import type { Point2 } from "../../geometry/point.ts";
import { type Edit, editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import { nextLabel } from "../../job/labels.ts";
import type { Area, AreaShape, Job } from "../../job/schema.ts";
import { type AreaClassification, outlinesOf } from "../../job/storey-outline.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { changeRecord } from "./change.ts";
import { allSound, soundElevation, soundPoints, soundRing, soundThickness } from "./sound.ts";

/**
 * Adds a deck area by its outline in sheet space, of which nothing else is known: not settled whether it is a roof, no profile, no
 * elevation. Problems: those of a ring (`ring.crosses-itself`, `ring.too-few-points`…), `edit.no-such-record`.
 */
export function addArea(job: Job, id: Id, viewport: Id, outline: readonly Point2[]): Result<Edit> {
  if (!job.viewports[viewport]) return fail("edit.no-such-record", `viewports/${viewport}`, { id: viewport });
  const sound = soundRing(`areas/${id}/outline`, outline);
  if (!sound.ok) return sound;
  const after: Area = {
    label: nextLabel(job, "area"),
    viewport,
    outline: [...outline],
    holes: [],
    classification: { is: "not-settled", reason: "", by: "" },
    deck: { profile: "", depth: null, concreteCover: { is: "not-recorded" } },
    elevation: {
      datum: { from: "project" },
      basis: "top-of-steel",
      layers: [],
      shape: { is: "level", at: null },
      plusMinus: null,
    },
  };
  return ok(editOf(job, `Outline ${after.label}`, [{ table: "areas", id, after }]));
}

/** Gives an area another outline. Problems: those of a ring. */
export function setAreaOutline(job: Job, id: Id, outline: readonly Point2[]): Result<Edit> {
  const sound = soundRing(`areas/${id}/outline`, outline);
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "areas",
    id,
    ({ label }) => `Outline ${label} again`,
    () => ({ outline: [...outline] }),
  );
}

/** Cuts a hole into an area. Problems: those of a ring. */
export function addHole(job: Job, id: Id, hole: readonly Point2[]): Result<Edit> {
  const where = `areas/${id}/holes/${job.areas[id]?.holes.length ?? 0}`;
  const sound = soundRing(where, hole);
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "areas",
    id,
    ({ label }) => `Cut a hole into ${label}`,
    ({ holes }) => ({ holes: [...holes, [...hole]] }),
  );
}

/** Fills a hole of an area, counted from 0. Problem: `edit.no-such-record`. */
export function removeHole(job: Job, id: Id, hole: number): Result<Edit> {
  if (!job.areas[id]?.holes[hole]) return fail("edit.no-such-record", `areas/${id}/holes/${hole}`, { id });
  return changeRecord(
    job,
    "areas",
    id,
    ({ label }) => `Fill a hole of ${label}`,
    ({ holes }) => ({ holes: holes.filter((_, i) => i !== hole) }),
  );
}

/** What is said of an area's classification; `outlines` are those of the storey above it follows from, and matter to "from-outline" only. */
export interface SaidOfArea {
  readonly is?: AreaClassification["is"];
  readonly outlines?: readonly Id[];
  readonly reason?: string;
  readonly by?: string;
}

/**
 * Says whether a deck is a roof, has a floor above it, is not settled, or follows from the outlines of the storey above; and why, and who
 * says so. Problem: `edit.no-such-record` for the area, or for an outline it is to follow from.
 */
export function classifyArea(job: Job, id: Id, { is, outlines, reason, by }: SaidOfArea): Result<Edit> {
  const gone = outlines?.find((one) => !Object.hasOwn(job.storeyOutlines, one));
  if (gone !== undefined) return fail("edit.no-such-record", `storeyOutlines/${gone}`, { id: gone });
  return changeRecord(
    job,
    "areas",
    id,
    ({ label }) => `Settle what ${label} is`,
    ({ classification }) => {
      const kind = is ?? classification.is;
      const said = { reason: reason ?? classification.reason, by: by ?? classification.by };
      return {
        classification:
          kind === "from-outline"
            ? { is: kind, outlines: [...(outlines ?? outlinesOf(classification))], ...said }
            : { is: kind, ...said },
      };
    },
  );
}

/** Changes the profile, the depth or the concrete of a deck. Problems: `edit.not-finite`, `edit.negative`. */
export function setDeck(job: Job, id: Id, deck: Partial<Area["deck"]>): Result<Edit> {
  const where = `areas/${id}/deck`;
  const cover = deck.concreteCover;
  const sound = allSound(
    soundThickness(`${where}/depth`, deck.depth ?? null),
    soundThickness(`${where}/concreteCover`, cover?.is === "thickness" ? cover.thickness : null),
  );
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "areas",
    id,
    ({ label }) => `Change the deck of ${label}`,
    (area) => ({ deck: { ...area.deck, ...deck } }),
  );
}

/**
 * Changes the elevation of a deck: its datum, its basis, what lies above it, or its shape. Problems: `slope.negative`,
 * `edit.equal-points` (a slope towards its own point), `edit.too-few-spots`, `edit.not-finite`, `edit.negative`, `edit.no-such-record`.
 */
export function setElevation(job: Job, id: Id, elevation: Partial<Area["elevation"]>): Result<Edit> {
  const where = `areas/${id}/elevation`;
  const { datum, layers, shape, plusMinus } = elevation;
  if (datum?.from === "storey" && !job.storeys[datum.storey])
    return fail("edit.no-such-record", `storeys/${datum.storey}`, { id: datum.storey });
  const sound = allSound(
    ...(layers ?? []).map(({ thickness }, i) => soundThickness(`${where}/layers/${i}`, thickness)),
    soundThickness(`${where}/plusMinus`, plusMinus ?? null),
    shape ? soundShape(`${where}/shape`, shape) : ok(null),
  );
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "areas",
    id,
    ({ label }) => `Change the elevation of ${label}`,
    (area) => ({ elevation: { ...area.elevation, ...elevation } }),
  );
}

const shapeChecks: {
  readonly [K in AreaShape["is"]]: (where: string, shape: Extract<AreaShape, { is: K }>) => Result<null>;
} = {
  level: (where, { at }) => soundElevation(where, at),
  slope: (where, { at, point, towards, rise, text }) => {
    if (!Number.isFinite(rise)) return fail("edit.not-finite", where);
    if (rise < 0) return fail("slope.negative", where, { text });
    if (point[0] === towards[0] && point[1] === towards[1]) return fail("edit.equal-points", where);
    return allSound(soundElevation(where, at), soundPoints(where, [point, towards]));
  },
  spots: (where, { spots }) => {
    if (spots.length < 3) return fail("edit.too-few-spots", where, { count: spots.length });
    return allSound(
      soundPoints(
        where,
        spots.map(({ at }) => at),
      ),
      ...spots.map(({ elevation }, i) => soundElevation(`${where}/spots/${i}`, elevation)),
    );
  },
};

function soundShape<K extends AreaShape["is"]>(where: string, shape: Extract<AreaShape, { is: K }>): Result<null> {
  return shapeChecks[shape.is as K](where, shape);
}
