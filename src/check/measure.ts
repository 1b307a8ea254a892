import { type IntervalSet, intersect, unite } from "../geometry/interval-set.ts";
import { unitNormal } from "../geometry/plane.ts";
import { distance3, type Point3 } from "../geometry/point.ts";
import { isCloserThan, LIMIT_TOLERANCE } from "../geometry/tolerance.ts";
import type { Piece, TopGap } from "./piece.ts";
import type { DeckArea, Scene } from "./scene.ts";

/** How an element lies to the lowest surface of one deck area; inches, stations along the element. */
export interface Measured {
  /** Least distance from the element's surface to the bounded surface, negative where it reaches above it. */
  readonly least: number;
  /** Least and greatest that distance can be, by the tolerances of tag, deck and plan. */
  readonly lo: number;
  readonly hi: number;
  /** Straight up from the top of the element to the deck, where it comes nearest; null where it is beside the deck. */
  readonly vertical: number | null;
  readonly station: number;
  /** Points of the least distance: on the axis (a box: on its surface) and on the deck. */
  readonly onElement: Point3;
  readonly onFace: Point3;
  /** Where it is closer than the required clearance; with the widest tolerance, where it may be. */
  readonly near: IntervalSet;
  readonly maybeNear: IntervalSet;
  /** Where its axis (a box: its bottom) lies above the lowest surface, but within the depth of the deck, and above that. */
  readonly inDepth: IntervalSet;
  readonly aboveDeck: IntervalSet;
  /** True where some of it lies below the surface: with `aboveDeck`, it passes through the roof. */
  readonly below: boolean;
}

/**
 * Measures pieces against an area whose surface is known. The interval is to first order: a tag or deck that is off moves
 * the element along the vertical, registration and tracing move it in plan, each counted in the direction of the least distance.
 */
export function measure(scene: Scene, pieces: readonly Piece[], deck: DeckArea, planTolerance: number): Measured {
  const face = deck.face!;
  const normal = unitNormal(face.plane);
  const plan = scene.planTolerance + deck.planTolerance + planTolerance;
  let best: Pick<Measured, "least" | "vertical" | "station" | "onElement" | "onFace"> | undefined;
  let [lo, hi, widest] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 0];
  const gaps: TopGap[] = [];
  for (const piece of pieces) {
    const spot = piece.distanceTo(face);
    const own = piece.topGaps(face);
    gaps.push(...own);
    // Distance has no sign: over the surface the signed gap says by how much.
    const sunk = Math.min(0, ...own.flatMap((g) => (Math.min(g.axisFrom, g.axisTo) < 0 ? [g.gapFrom, g.gapTo] : [])));
    const least = sunk < 0 ? Math.min(spot.distance, sunk / face.steepness) : spot.distance;
    const [up, out] = direction(spot.onElement, spot.onFace, normal);
    const slack = up * (piece.tolerance + deck.tolerance) + out * plan;
    lo = Math.min(lo, least - slack);
    hi = Math.min(hi, least + slack);
    widest = Math.max(widest, slack);
    if (!best || least < best.least)
      best = {
        least,
        vertical: verticalAt(own, spot.station),
        station: spot.station,
        onElement: spot.onElement,
        onFace: spot.onFace,
      };
  }
  if (!best) throw new Error("nothing to measure");
  const depth = deck.depth ?? 0;
  // No search where the least distance already says that nothing is that near; by the same comparison, so the two agree.
  const nearWithin = (clearance: number, leastThere: number): IntervalSet =>
    isCloserThan(leastThere, clearance) ? unite(...pieces.map((piece) => piece.near(face, clearance))) : [];
  return {
    ...best,
    lo,
    hi,
    near: nearWithin(scene.required, best.least),
    maybeNear: nearWithin(scene.required + widest, lo + widest),
    inDepth: unite(gaps.flatMap((gap) => axisWithin(gap, -depth, -LIMIT_TOLERANCE))),
    below: gaps.some((gap) => Math.max(gap.axisFrom, gap.axisTo) > 0),
    aboveDeck: unite(
      gaps.flatMap((gap) => axisWithin(gap, Number.NEGATIVE_INFINITY, -Math.max(depth, LIMIT_TOLERANCE))),
    ),
  };
}

/** How much of a unit move along the vertical, and in plan, changes the distance between two points. */
function direction(a: Point3, b: Point3, normal: Point3): readonly [up: number, out: number] {
  const length = distance3(a, b);
  const [x, y, z] = length > 1e-9 ? [(b[0] - a[0]) / length, (b[1] - a[1]) / length, (b[2] - a[2]) / length] : normal;
  return [Math.abs(z), Math.hypot(x, y)];
}

function verticalAt(gaps: readonly TopGap[], station: number): number | null {
  const gap = gaps.find((g) => station >= g.from - 1e-9 && station <= g.to + 1e-9);
  if (!gap) return null;
  const t = gap.to > gap.from ? Math.min(1, Math.max(0, (station - gap.from) / (gap.to - gap.from))) : 0;
  return gap.gapFrom + (gap.gapTo - gap.gapFrom) * t;
}

/** Stations of a gap at which the axis gap lies between two values. */
function axisWithin(gap: TopGap, low: number, high: number): IntervalSet {
  const { from, to, axisFrom: a, axisTo: b } = gap;
  if (a === b || from === to) return Math.min(a, b) >= low && Math.min(a, b) <= high ? [[from, to]] : [];
  const stationOf = (value: number): number => from + ((value - a) / (b - a)) * (to - from);
  const ends = [low, high]
    .map((v) => (Number.isFinite(v) ? stationOf(v) : v < 0 === b > a ? from : to))
    .sort((x, y) => x - y);
  return intersect([[from, to]], [[ends[0]!, ends[1]!]]).filter(([x, y]) => y > x);
}
