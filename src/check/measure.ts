import type { Face } from "../geometry/face.ts";
import { type IntervalSet, intersect, unite } from "../geometry/interval-set.ts";
import { elevationAt, unitNormal } from "../geometry/plane.ts";
import { distance3, type Point3 } from "../geometry/point.ts";
import { isCloserThan, LIMIT_TOLERANCE } from "../geometry/tolerance.ts";
import type { DeckArea } from "./deck-area.ts";
import type { DeckShare } from "./deck-share.ts";
import type { Piece, SurfaceDistance, TopGap } from "./piece.ts";
import type { Scene } from "./scene.ts";

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
  /** The face that point lies on. */
  readonly face: Face;
  /** Where it is closer than the required clearance; with the widest tolerance, where it may be. Worked out when asked. */
  near(): IntervalSet;
  maybeNear(): IntervalSet;
  /** Where its axis (a box: its bottom) lies above the lowest surface, but within the depth of the deck, and above that. */
  readonly inDepth: IntervalSet;
  readonly aboveDeck: IntervalSet;
  /** True where some of it lies below the surface: with `aboveDeck`, it passes through the roof. */
  readonly below: boolean;
  /** For every piece, in their order, how far its surface is from the bounded surface; without sign. */
  readonly distances: readonly number[];
}

/** Far above the rounding of a distance: what is farther than a limit by this is so whichever way it is computed. */
const SURELY_IN = 1e-6;

/**
 * Measures pieces against an area whose surface is known. `shares` are what of each piece lies in plan inside it. The interval is to
 * first order: a tag or deck that is off moves the element along the vertical, registration and tracing move it in plan, each counted
 * in the direction of the least distance.
 */
export function measure(
  scene: Scene,
  pieces: readonly Piece[],
  shares: readonly DeckShare[],
  deck: DeckArea,
  planTolerance: number,
): Measured {
  const { faces } = deck;
  const one = faces.length === 1;
  const plan = scene.planTolerance + deck.planTolerance + planTolerance;
  let least = Number.POSITIVE_INFINITY;
  let best: SurfaceDistance | undefined;
  let bestFace: Face | undefined;
  let bestShare: DeckShare | undefined;
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.POSITIVE_INFINITY;
  let widest = 0;
  let sunken = false;
  let below = false;
  const distances: number[] = [];
  const slackOf = (place: SurfaceDistance, face: Face, upright: number): number => {
    if (upright === 0 && plan === 0) return 0;
    const [up, out] = direction(place.onElement, place.onFace, face.plane);
    return up * upright + out * plan;
  };
  for (let i = 0; i < pieces.length; i++) {
    const piece = pieces[i]!;
    const share = shares[i]!;
    const upright = piece.tolerance + deck.tolerance;
    let face = faces[0]!;
    let spot: SurfaceDistance;
    if (one) spot = piece.distanceTo(face);
    else {
      const near = nearestFace(piece, faces, upright + plan);
      [face, spot] = [near.face, near.spot];
      // What tolerances make of a face that is not the nearest may still be less, where it faces the piece squarely.
      for (const other of near.others) {
        const slack = slackOf(other.spot, other.face, upright);
        lo = Math.min(lo, other.spot.distance - slack);
        hi = Math.min(hi, other.spot.distance + slack);
        widest = Math.max(widest, slack);
      }
    }
    distances.push(spot.distance);
    // Distance has no sign: over the surface the signed gap says by how much.
    let sunk = 0;
    let deepest: TopGap | undefined;
    let over = face;
    for (let g = 0; g < share.gaps.length; g++) {
      const gap = share.gaps[g]!;
      if (gap.axisFrom > 0 || gap.axisTo > 0) below = true;
      if (gap.axisFrom >= 0 && gap.axisTo >= 0) continue;
      sunken = true;
      const above = share.over?.[g] ?? face;
      const own = Math.min(gap.gapFrom, gap.gapTo) / above.steepness;
      if (own >= sunk) continue;
      sunk = own;
      deepest = gap;
      over = above;
    }
    const isSunk = sunk < spot.distance && deepest !== undefined;
    const here = isSunk ? sunk : spot.distance;
    if (isSunk) face = over;
    // A run that goes through the surface comes nearest where it crosses; what it is told by is where it reaches farthest above.
    const place = isSunk && piece.axis ? spotOverFace(piece, deepest!, face, spot) : spot;
    const slack = slackOf(place, face, upright);
    lo = Math.min(lo, here - slack);
    hi = Math.min(hi, here + slack);
    widest = Math.max(widest, slack);
    if (!best || here < least) {
      least = here;
      best = place;
      bestFace = face;
      bestShare = share;
    }
  }
  if (!best || !bestFace || !bestShare) throw new Error("nothing to measure");
  // No search where the least distance already says that nothing is that near; by the same comparison, so the two agree.
  const nearWithin = (clearance: number, leastThere: number): IntervalSet =>
    isCloserThan(leastThere, clearance)
      ? unite(
          ...pieces.flatMap((piece, i) =>
            distances[i]! > clearance + SURELY_IN
              ? []
              : one
                ? [piece.near(faces[0]!, clearance)]
                : faces.flatMap((face) =>
                    piece.mayReach(face.box, clearance + SURELY_IN) ? [piece.near(face, clearance)] : [],
                  ),
          ),
        )
      : [];
  const depth = deck.depth ?? 0;
  const axisWithinAll = (low: number, high: number): IntervalSet =>
    sunken ? unite(shares.flatMap(({ gaps }) => gaps.flatMap((gap) => axisWithin(gap, low, high)))) : [];
  return {
    least,
    lo,
    hi,
    vertical: verticalAt(bestShare.gaps, best.station),
    station: best.station,
    onElement: best.onElement,
    onFace: best.onFace,
    face: bestFace,
    near: () => nearWithin(scene.required, least),
    maybeNear: () => nearWithin(scene.required + widest, lo + widest),
    inDepth: axisWithinAll(-depth, -LIMIT_TOLERANCE),
    below,
    aboveDeck: axisWithinAll(Number.NEGATIVE_INFINITY, -Math.max(depth, LIMIT_TOLERANCE)),
    distances,
  };
}

interface FaceSpot {
  readonly face: Face;
  readonly spot: SurfaceDistance;
}

/**
 * The nearest of several faces to a piece, the first of several equally near; and of the others those that, within `slack` of it, are
 * nearest square to their plane: where the nearest point lies on an edge, the neighbour behind that edge speaks for it.
 */
function nearestFace(piece: Piece, faces: readonly Face[], slack: number): FaceSpot & { readonly others: FaceSpot[] } {
  let best: FaceSpot | undefined;
  const seen: FaceSpot[] = [];
  for (const face of faces) {
    const bound = best ? Math.max(0, best.spot.distance) + slack + SURELY_IN : Number.POSITIVE_INFINITY;
    if (best && !piece.mayReach(face.box, bound)) continue;
    const here = { face, spot: piece.distanceTo(face) };
    seen.push(here);
    if (!best || here.spot.distance < best.spot.distance) best = here;
  }
  if (!best) throw new Error("nothing to measure against");
  const nearest = best;
  const others = seen.filter(
    ({ face, spot }) =>
      face !== nearest.face && slack > 0 && spot.distance <= nearest.spot.distance + 2 * slack && isSquare(face, spot),
  );
  return { ...nearest, others };
}

/** Whether the way from an element to a face is square to the face's plane, and not past its edge. */
function isSquare({ plane }: Face, { onElement: a, onFace: b }: SurfaceDistance): boolean {
  const length = distance3(a, b);
  if (length <= 1e-9) return false;
  const [x, y, z] = unitNormal(plane);
  return Math.abs(x * (b[0] - a[0]) + y * (b[1] - a[1]) + z * (b[2] - a[2])) >= length * (1 - 1e-9);
}

/** Where a round piece lies farthest above the surface within a gap: on its axis, and square to it on the plane of the face. */
function spotOverFace(piece: Piece, gap: TopGap, { plane, steepness }: Face, spot: SurfaceDistance): SurfaceDistance {
  const atStart = gap.gapFrom <= gap.gapTo;
  const station = atStart ? gap.from : gap.to;
  const up = atStart ? gap.axisFrom : gap.axisTo;
  const [x, y] = piece.planAt(station);
  const onElement: Point3 = [x, y, elevationAt(plane, [x, y]) - up];
  const n = up / (steepness * steepness);
  return { ...spot, station, onElement, onFace: [x - plane.gx * n, y - plane.gy * n, onElement[2] + n] };
}

/** How much of a unit move along the vertical, and in plan, changes the distance between two points. */
function direction(a: Point3, b: Point3, plane: Parameters<typeof unitNormal>[0]): readonly [up: number, out: number] {
  const length = distance3(a, b);
  const [x, y, z] =
    length > 1e-9 ? [(b[0] - a[0]) / length, (b[1] - a[1]) / length, (b[2] - a[2]) / length] : unitNormal(plane);
  return [Math.abs(z), Math.hypot(x, y)];
}

function verticalAt(gaps: readonly TopGap[], station: number): number | null {
  let least: number | null = null;
  for (const gap of gaps) {
    if (station < gap.from - 1e-9 || station > gap.to + 1e-9) continue;
    const here = gapAtStation(gap, station);
    if (least === null || here < least) least = here;
  }
  return least;
}

function gapAtStation(gap: TopGap, station: number): number {
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
