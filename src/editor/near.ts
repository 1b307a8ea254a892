import { distance2, type Point2 } from "../geometry/point.ts";
import { locate } from "../geometry/polygon.ts";
import type { Id } from "../job/fields.ts";
import type { Job, RecordOf } from "../job/schema.ts";
import { type Outline, outlineOf, type Segment, type ShapedTable, segmentsOf, sheetOfRecord } from "./handles.ts";

/** A record with vertices, and where it is found. */
export interface Placed {
  readonly table: ShapedTable;
  readonly id: Id;
  readonly record: RecordOf<ShapedTable>;
  readonly outline: Outline;
}

const placedRecords = new WeakMap<object, Placed>();

/** The record as a placed thing; the same object for a record that stays the same, so that an edit costs little. */
function placed(table: ShapedTable, id: Id, record: Placed["record"]): Placed {
  const known = placedRecords.get(record);
  if (known?.id === id) return known;
  const made = { table, id, record, outline: outlineOf(table, record) };
  placedRecords.set(record, made);
  return made;
}

const placedInJobs = new WeakMap<Job, Map<Id, readonly Placed[]>>();

/** Everything that lies on a sheet: elements, then areas, then outlines of storeys above, then notes. */
export function placedOn(job: Job, sheet: Id): readonly Placed[] {
  const known = placedInJobs.get(job) ?? new Map<Id, readonly Placed[]>();
  placedInJobs.set(job, known);
  const found = known.get(sheet);
  if (found) return found;
  const list: Placed[] = [];
  for (const table of ["elements", "areas", "storeyOutlines", "notes"] as const)
    for (const id in job[table]) {
      const record = job[table][id]!;
      if (sheetOfRecord(job, record) === sheet) list.push(placed(table, id, record));
    }
  known.set(sheet, list);
  return list;
}

const boxesOfLists = new WeakMap<readonly Placed[], Float64Array>();

/** The rectangles round a list of things, four numbers each: what a moving pointer is compared with first. */
function boxesOf(things: readonly Placed[]): Float64Array {
  const known = boxesOfLists.get(things);
  if (known) return known;
  const boxes = new Float64Array(things.length * 4);
  things.forEach(({ outline: { min, max } }, i) => {
    boxes.set([min[0], min[1], max[0], max[1]], i * 4);
  });
  boxesOfLists.set(things, boxes);
  return boxes;
}

/** The things whose rectangle is within `reach` of `p`, in order. */
function about(things: readonly Placed[], [x, y]: Point2, reach: number): readonly Placed[] {
  const boxes = boxesOf(things);
  const found: Placed[] = [];
  for (let i = 0, at = 0; i < things.length; i++, at += 4)
    if (
      x >= boxes[at]! - reach &&
      y >= boxes[at + 1]! - reach &&
      x <= boxes[at + 2]! + reach &&
      y <= boxes[at + 3]! + reach
    )
      found.push(things[i]!);
  return found;
}

/** The point of a segment nearest to `p`. */
export function nearestOn({ a, b }: Pick<Segment, "a" | "b">, p: Point2): Point2 {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const square = ux * ux + uy * uy;
  if (square === 0) return a;
  const t = Math.min(1, Math.max(0, ((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / square));
  return t === 0 ? a : t === 1 ? b : [a[0] + t * ux, a[1] + t * uy];
}

/** A vertex or a place on a segment of a thing, and how far it is from where it was looked for. */
export interface Near {
  readonly thing: Placed;
  readonly at: Point2;
  readonly distance: number;
  /** The vertex, or the one the segment starts at. */
  readonly vertex: number;
}

type Take = (thing: Placed) => boolean;

/** The vertex nearest to `p` within `reach` (inclusive) among things that `take` lets through. */
export const nearestVertex = (things: readonly Placed[], p: Point2, reach: number, take?: Take): Near | undefined =>
  nearest(things, p, reach, take, ({ vertices }, near) => vertices.forEach(near));

/** The place on a segment nearest to `p` within `reach` (inclusive) among things that `take` lets through. */
export const nearestSegment = (things: readonly Placed[], p: Point2, reach: number, take?: Take): Near | undefined =>
  nearest(things, p, reach, take, (outline, near) => {
    for (const segment of segmentsOf(outline)) near(nearestOn(segment, p), segment.after);
  });

/** The nearest of the places that `each` names of the things let through. */
function nearest(
  things: readonly Placed[],
  p: Point2,
  reach: number,
  take: Take = () => true,
  each: (outline: Outline, near: (at: Point2, vertex: number) => void) => void,
): Near | undefined {
  let best: Near | undefined;
  for (const thing of about(things, p, reach)) {
    if (!take(thing)) continue;
    each(thing.outline, (at, vertex) => {
      const distance = distance2(at, p);
      if (distance <= reach && (!best || distance < best.distance)) best = { thing, at, distance, vertex };
    });
  }
  return best;
}

/** The smallest closed thing whose inside (holes left out) or edge holds `p`. */
export function enclosing(things: readonly Placed[], p: Point2): Placed | undefined {
  let best: { thing: Placed; size: number } | undefined;
  for (const thing of about(things, p, 0)) {
    const { strands, min, max } = thing.outline;
    const [outline, ...holes] = strands.filter(({ closed }) => closed).map(({ knots }) => knots.map(({ at }) => at));
    if (!outline || locate({ outline, holes }, p) === "outside") continue;
    const size = (max[0] - min[0]) * (max[1] - min[1]);
    if (!best || size < best.size) best = { thing, size };
  }
  return best?.thing;
}
