import { distance2, type Point2 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { Radians } from "../units/quantity.ts";
import type { DrawnLines } from "./drawn-lines.ts";
import { handlesOf, segmentsOf } from "./handles.ts";
import { type Attraction, type Lock, lockedPlace } from "./lock.ts";
import { nearestSegment, nearestVertex, type Placed, placedOn } from "./near.ts";
import { AIM_WORDS, DRAWN_WORDS } from "./words.ts";

/** Where a point goes that was asked for at `at`, and why there; null when it stays where it is. */
export interface Snapped {
  readonly at: Point2;
  readonly why: string | null;
}

/** What may attract a point. */
export interface SnapField {
  readonly job: Job;
  readonly sheet: Id;
  /** Inclusive, in sheet units; 0 turns attraction off. */
  readonly reach: number;
  /** The points the tool has put so far, the last one last. */
  readonly points: readonly Point2[];
  readonly passing: readonly { readonly table: string; readonly id: Id }[];
  /** The lines of the drawing; null where it has none or they are not to attract. */
  readonly drawn?: DrawnLines | null;
  /** Keep a right angle to the page or to the last piece drawn. */
  readonly rightAngle: boolean;
  /** The directions the next piece may have, and how the plan is turned to the building; left out, it may have any. */
  readonly lock?: { readonly lock: Lock; readonly building: Radians };
}

/** What attracts a point, and what it is. */
type Found = Attraction & { readonly why: string };

/**
 * Where a point goes: with `rightAngle` square to the page or to the last piece, else to what attracts it; with a lock on the ray of an
 * allowed direction, as far along as what attracts it says. Sheet space.
 */
export function snapped(at: Point2, field: SnapField): Snapped {
  const { points, lock } = field;
  const last = points.at(-1);
  if (field.rightAngle && last) return { at: squared(at, last, points.at(-2)), why: AIM_WORDS.right };
  const found = attracted(at, field);
  if (!lock?.lock.on || !last) return found ? { at: found.at, why: found.why } : { at, why: null };
  const place = lockedPlace(at, lock.lock, { points, building: lock.building }, found);
  return { at: place.at, why: AIM_WORDS.locked(lock.lock.step, place.kept && found ? found.why : null) };
}

/**
 * What attracts a point: the nearest of the tool's own points, vertices, shared points of viewports; where none of these is in reach, an
 * end, crossing or middle in the drawing; else the nearest line of an area or a run, or of the drawing.
 */
function attracted(at: Point2, field: SnapField): Found | undefined {
  const { job, sheet, reach, points, passing } = field;
  const last = points.at(-1);
  if (!(reach > 0)) return undefined;
  let best: { at: Point2; distance: number; why: string } | undefined;
  const offer = (spot: Point2, why: string): void => {
    const distance = distance2(spot, at);
    if (distance <= reach && (!best || distance < best.distance)) best = { at: spot, distance, why };
  };
  points.forEach((point, i) => {
    offer(point, i === 0 ? AIM_WORDS.first : AIM_WORDS.own(i + 1));
  });
  const things = placedOn(job, sheet);
  const take = ({ table, id, record }: Placed) =>
    handlesOf(table, record).attracts !== false && !passing.some((one) => one.table === table && one.id === id);
  const vertex = nearestVertex(things, at, reach, take);
  if (vertex) offer(vertex.at, AIM_WORDS.vertex(vertex.thing.record.label));
  for (const { at: spot, label } of sharedPoints(job, sheet)) offer(spot, AIM_WORDS.shared(label));
  if (best) return best;
  const drawn = field.drawn?.place(at, reach, last);
  if (drawn && drawn.kind !== "along") return { at: drawn.at, why: DRAWN_WORDS[drawn.kind] };
  const line = nearestSegment(things, at, reach, take);
  if (line) {
    const segment = [...segmentsOf(line.thing.outline)].find(({ after }) => after === line.vertex);
    return {
      at: line.at,
      why: AIM_WORDS.line(line.thing.record.label),
      ...(segment ? { line: [segment.a, segment.b] as const } : {}),
    };
  }
  // Which way a line of the drawing runs is not told here, so that a locked piece cannot be made to end on it.
  return drawn && !field.lock?.lock.on ? { at: drawn.at, why: DRAWN_WORDS.along } : undefined;
}

/** The points of a sheet that viewports share: grid intersections, mostly. */
function* sharedPoints(job: Job, sheet: Id): Generator<{ at: Point2; label: string }> {
  for (const { sheet: own, registration } of Object.values(job.viewports)) {
    if (!registration) continue;
    const other = job.viewports[registration.to]?.sheet;
    for (const { label, here, there } of registration.pairs) {
      if (own === sheet) yield { at: here, label };
      if (other === sheet) yield { at: there, label };
    }
  }
}

/** The point nearest to `at` on a line through `last` along the page's axes, or along or square to the piece from `before` to `last`. */
function squared(at: Point2, last: Point2, before: Point2 | undefined): Point2 {
  const [dx, dy] = [at[0] - last[0], at[1] - last[1]];
  const ways: Point2[] = [
    [1, 0],
    [0, 1],
  ];
  if (before) {
    const length = distance2(before, last);
    if (length > 0) {
      const along: Point2 = [(last[0] - before[0]) / length, (last[1] - before[1]) / length];
      ways.push(along, [-along[1], along[0]]);
    }
  }
  let best: Point2 = at;
  let off = Infinity;
  for (const [ux, uy] of ways) {
    const t = dx * ux + dy * uy;
    const spot: Point2 = [ux === 0 ? last[0] : last[0] + t * ux, uy === 0 ? last[1] : last[1] + t * uy];
    const distance = distance2(spot, at);
    // The page's own axes come first: a piece that is nearly along one does not replace it.
    if (distance < off - 1e-9) [best, off] = [spot, distance];
  }
  return best;
}
