import { distance2, type Point2 } from "../../geometry/point.ts";
import type { SheetUnits } from "../../units/quantity.ts";
import { chosen, type Linework, type LineworkChoice, SEGMENT } from "./linework.ts";
import { crossingOf, distanceTo, endOf, footOn, lengthOf, pointOn, startOf } from "./segment-geometry.ts";

/**
 * Why a place is offered: the end or a corner of a line, where two lines cross, the middle of a line, the foot of the
 * perpendicular from the last point, or merely a place on a line.
 */
export type SnapKind = "end" | "intersection" | "mid" | "perpendicular" | "along";

/** Kinds in the order in which they are preferred within reach. */
export const SNAP_KINDS: readonly SnapKind[] = ["end", "intersection", "perpendicular", "mid", "along"];

/** A place of the drawing near the pointer, and why it is one. */
export interface Snap {
  /** Sheet space. */
  readonly at: Point2;
  readonly kind: SnapKind;
  /** The segment it lies on, and the other one of a crossing. */
  readonly segment: number;
  readonly other: number | null;
  /** From the pointer, sheet units. */
  readonly distance: number;
}

/** What is snapped to. */
export interface SnapOptions extends LineworkChoice {
  /** The last point set, sheet space: perpendiculars start there; without it there are none. */
  readonly from?: Point2;
}

/** Segments looked at: the nearest ones. What is crowded beyond that no pointer can tell apart either. */
const MOST_SEGMENTS = 256;
/** Segments of these that are tried for crossings. */
const MOST_CROSSED = 48;

/**
 * The best place to snap to within `reach` of a place, or null. A kind that comes earlier in `SNAP_KINDS` wins over a later
 * one however near that is; of one kind the nearest wins, of equally near ones the one drawn first.
 */
export function snapTo(
  linework: Linework,
  at: Point2,
  reach: SheetUnits,
  kinds: readonly SnapKind[] = SNAP_KINDS,
  options: SnapOptions = {},
): Snap | null {
  const near = nearestSegments(linework, at, reach, options);
  for (const kind of SNAP_KINDS) {
    if (!kinds.includes(kind)) continue;
    let best: Snap | null = null;
    for (const found of FINDERS[kind](linework, at, near, options)) {
      const distance = distance2(at, found.at);
      if (distance > reach || (best && distance >= best.distance)) continue;
      best = { ...found, kind, distance };
    }
    if (best) return best;
  }
  return null;
}

/** The segments nearest to a place, nearest first, no farther than `reach`; at most `MOST_SEGMENTS`. */
export function nearestSegments(
  linework: Linework,
  at: Point2,
  reach: SheetUnits,
  choice: LineworkChoice = {},
): readonly number[] {
  const wanted = chosen(linework, choice);
  // A box may be near and its line far: only lines within reach are counted.
  const close = linework.index
    .neighbors(
      at[0],
      at[1],
      MOST_SEGMENTS,
      reach,
      (segment) => segment < linework.count && wanted(segment) && distanceTo(linework, segment, at) <= reach,
    )
    .map((segment) => ({ segment, distance: distanceTo(linework, segment, at) }));
  return close.sort((a, b) => a.distance - b.distance || a.segment - b.segment).map(({ segment }) => segment);
}

type Found = Omit<Snap, "kind" | "distance">;
type Finder = (linework: Linework, at: Point2, near: readonly number[], options: SnapOptions) => Iterable<Found>;

const FINDERS: Readonly<Record<SnapKind, Finder>> = {
  *end(linework, _at, near) {
    for (const segment of near) {
      if (isEnd(linework, segment, false)) yield { at: startOf(linework, segment), segment, other: null };
      if (isEnd(linework, segment, true)) yield { at: endOf(linework, segment), segment, other: null };
    }
  },
  *intersection(linework, _at, near) {
    const some = near.slice(0, MOST_CROSSED);
    for (const [i, segment] of some.entries()) {
      for (const other of some.slice(i + 1)) {
        // Where one piece of a curve goes over into the next, nothing crosses.
        const joined =
          linework.flags[segment]! & linework.flags[other]! & SEGMENT.curved && Math.abs(segment - other) === 1;
        const crossing = joined ? undefined : crossingOf(linework, segment, other, 0);
        if (crossing) yield { at: pointOn(linework, segment, crossing.onA), segment, other };
      }
    }
  },
  *perpendicular(linework, _at, near, { from }) {
    if (!from) return;
    for (const segment of near) {
      const t = footOn(linework, segment, from);
      const foot = pointOn(linework, segment, t);
      // From a point on the line itself there is no perpendicular to it.
      if (t >= 0 && t <= 1 && distance2(from, foot) > 0) yield { at: foot, segment, other: null };
    }
  },
  *mid(linework, _at, near) {
    for (const segment of near) {
      const whole = (linework.flags[segment]! & (SEGMENT.curved | SEGMENT.cutStart | SEGMENT.cutEnd)) === 0;
      if (whole && lengthOf(linework, segment) > 0) yield { at: pointOn(linework, segment, 0.5), segment, other: null };
    }
  },
  *along(linework, at, near) {
    for (const segment of near) {
      const t = Math.min(1, Math.max(0, footOn(linework, segment, at)));
      yield { at: pointOn(linework, segment, t), segment, other: null };
    }
  },
};

/** Whether the start or end of a segment is an end or a corner of the drawing, not a joint of a flattened curve or a cut. */
function isEnd({ flags, coords, count }: Linework, segment: number, atEnd: boolean): boolean {
  const bits = flags[segment]!;
  if (bits & (atEnd ? SEGMENT.cutEnd : SEGMENT.cutStart)) return false;
  if (!(bits & SEGMENT.curved)) return true;
  const next = atEnd ? segment + 1 : segment - 1;
  if (next < 0 || next >= count || !(flags[next]! & SEGMENT.curved)) return true;
  const [mine, its] = atEnd ? [4 * segment + 2, 4 * next] : [4 * segment, 4 * next + 2];
  return coords[mine] !== coords[its] || coords[mine + 1] !== coords[its + 1];
}
