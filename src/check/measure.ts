import type { Face } from "../geometry/face.ts";
import { type Interval, type IntervalSet, intersect, normalise } from "../geometry/interval-set.ts";
import { elevationAt, unitNormal } from "../geometry/plane.ts";
import { length3, type Point3 } from "../geometry/point.ts";
import { isCloserThan, LIMIT_TOLERANCE } from "../geometry/tolerance.ts";
import type { DeckArea } from "./deck-area.ts";
import type { DeckShare } from "./deck-share.ts";
import { type Piece, reachThrough, SPOT_NUMBERS, spotAsValue, type TopGap, writeSpot } from "./piece.ts";
import type { Scene } from "./scene.ts";
import { uprightDoubt } from "./upright-doubt.ts";

/** How an element lies to the lowest surface of one deck area; inches, stations along the element. */
export interface Measured {
  /** Least distance from the element's surface to the bounded surface, negative where it reaches above it. */
  readonly least: number;
  /** Least and greatest that distance can be, by the tolerances of tag, deck and plan, and by what may stand out somewhere. */
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
export const SURELY_IN = 1e-6;

/**
 * Measures pieces against an area whose surface is known. `shares` are what of each piece lies in plan inside it. The interval is to
 * first order: a tag or deck that is off moves the element along the vertical, registration and tracing move it in plan, each counted
 * in the direction of the least distance. `standsOut`: how far something that may sit anywhere along the pieces reaches beyond their
 * surface; it lowers the least the distance can be, and nothing else.
 */
export function measure(
  scene: Scene,
  pieces: readonly Piece[],
  shares: readonly DeckShare[],
  deck: DeckArea,
  planTolerance: number,
  standsOut = 0,
): Measured {
  const { faces } = deck;
  const plan = scene.planTolerance + deck.planTolerance + planTolerance;
  let least = Number.POSITIVE_INFINITY;
  let bestFace: Face | undefined;
  let bestShare: DeckShare | undefined;
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.POSITIVE_INFINITY;
  let widest = 0;
  let sunken = false;
  let below = false;
  const distances: number[] = [];
  for (let i = 0; i < pieces.length; i++) {
    const piece = pieces[i]!;
    const share = shares[i]!;
    const upright = uprightDoubt(piece, deck);
    let face = faces[0]!;
    if (faces.length === 1) writeSpot(piece, face, spot);
    else {
      const near = nearestFace(piece, faces, upright + plan);
      face = near.face;
      spot.set(near.spot);
      // A piece with one station that goes through one face may reach farther above another.
      const [gap] = share.gaps;
      const above = share.over?.[0];
      if (spot[0]! <= 0 && gap?.at && above && gap.gapFrom / above.steepness < spot[0]!) {
        const { distance, onElement, onFace } = reachThrough(gap.gapFrom, gap.at, above);
        face = above;
        spot[0] = distance;
        spot.set(onElement, 2);
        spot.set(onFace, 5);
      }
      // What tolerances make of a face that is not the nearest may still be less, where it faces the piece squarely.
      for (const other of near.others) {
        const slack = slackAt(other.spot, other.face, upright, plan);
        lo = Math.min(lo, other.spot[0]! - slack - standsOut);
        hi = Math.min(hi, other.spot[0]! + slack);
        widest = Math.max(widest, slack + standsOut);
      }
    }
    distances.push(spot[0]!);
    let here = spot[0]!;
    // Most pieces lie wholly below the surface, and their gaps need not be gone through.
    if (share.rises === false) below ||= share.below === true;
    else {
      // Distance has no sign: over the surface the signed gap says by how much.
      let sunk = 0;
      let deepest: TopGap | undefined;
      let over = face;
      const { gaps } = share;
      for (let g = 0; g < gaps.length; g++) {
        const gap = gaps[g]!;
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
      if (deepest && sunk < here) {
        here = sunk;
        face = over;
        // A run that goes through the surface comes nearest where it crosses; what it is told by is where it reaches farthest above.
        if (piece.axis) moveOverFace(piece, deepest, face);
      }
    }
    const slack = slackAt(spot, face, upright, plan);
    lo = Math.min(lo, here - slack - standsOut);
    hi = Math.min(hi, here + slack);
    widest = Math.max(widest, slack + standsOut);
    if (!bestFace || here < least) {
      least = here;
      bestFace = face;
      bestShare = share;
      [spot, bestSpot] = [bestSpot, spot];
    }
  }
  if (!bestFace || !bestShare) throw new Error("nothing to measure");
  const { station, onElement, onFace } = spotAsValue(bestSpot);
  const about = { required: scene.required, pieces, shares, deck, share: bestShare, widest, sunken };
  return new Measurement(about, least, lo, hi, station, onElement, onFace, bestFace, below, distances);
}

/** Where a piece comes nearest, and where the nearest of all pieces so far does: kept from call to call, since many thousand are made for a job. */
let spot = new Float64Array(SPOT_NUMBERS);
let bestSpot = new Float64Array(SPOT_NUMBERS);

/** What was measured, and what follows from it where somebody asks. */
interface MeasuredFrom {
  readonly required: number;
  readonly pieces: readonly Piece[];
  readonly shares: readonly DeckShare[];
  readonly deck: DeckArea;
  /** The share of the piece that has the least distance. */
  readonly share: DeckShare;
  readonly widest: number;
  /** Whether any axis lies above the surface. */
  readonly sunken: boolean;
}

class Measurement implements Measured {
  constructor(
    private readonly from: MeasuredFrom,
    readonly least: number,
    readonly lo: number,
    readonly hi: number,
    readonly station: number,
    readonly onElement: Point3,
    readonly onFace: Point3,
    readonly face: Face,
    readonly below: boolean,
    readonly distances: readonly number[],
  ) {}

  get vertical(): number | null {
    const { pieces, shares, share } = this.from;
    return verticalAt(pieces[shares.indexOf(share)]!, share.gaps, this.station);
  }

  near(): IntervalSet {
    return this.nearWithin(this.from.required, this.least);
  }

  maybeNear(): IntervalSet {
    const { required, widest } = this.from;
    return this.nearWithin(required + widest, this.lo + widest);
  }

  get inDepth(): IntervalSet {
    return this.axisWithinAll(-(this.from.deck.depth ?? 0), -LIMIT_TOLERANCE);
  }

  get aboveDeck(): IntervalSet {
    return this.axisWithinAll(Number.NEGATIVE_INFINITY, -Math.max(this.from.deck.depth ?? 0, LIMIT_TOLERANCE));
  }

  /** No search where the least distance already says that nothing is that near; by the same comparison, so the two agree. */
  private nearWithin(clearance: number, leastThere: number): IntervalSet {
    if (!isCloserThan(leastThere, clearance)) return NOWHERE;
    const { pieces, deck } = this.from;
    const one = deck.faces.length === 1;
    const parts: Interval[] = [];
    for (let i = 0; i < pieces.length; i++) {
      if (this.distances[i]! > clearance + SURELY_IN) continue;
      const piece = pieces[i]!;
      for (const face of deck.faces)
        if (one || piece.mayReach(face.box, clearance + SURELY_IN)) parts.push(...piece.near(face, clearance));
    }
    return normalise(parts);
  }

  private axisWithinAll(low: number, high: number): IntervalSet {
    if (!this.from.sunken) return NOWHERE;
    const parts: Interval[] = [];
    for (const share of this.from.shares) {
      // What does not rise above the surface has no axis below nought.
      if (share.rises === false && high < 0) continue;
      for (const gap of share.gaps) parts.push(...axisWithin(gap, low, high));
    }
    return normalise(parts);
  }
}

const NOWHERE: IntervalSet = [];

interface FaceSpot {
  readonly face: Face;
  readonly spot: Float64Array;
}

/**
 * The nearest of several faces to a piece, the first of several equally near; and of the others those that, within `slack` of it, are
 * nearest square to their plane: where the nearest point lies on an edge, the neighbour behind that edge speaks for it.
 */
function nearestFace(piece: Piece, faces: readonly Face[], slack: number): FaceSpot & { readonly others: FaceSpot[] } {
  let best: FaceSpot | undefined;
  const seen: FaceSpot[] = [];
  for (const face of faces) {
    const bound = best ? Math.max(0, best.spot[0]!) + slack + SURELY_IN : Number.POSITIVE_INFINITY;
    if (best && !piece.mayReach(face.box, bound)) continue;
    const here = { face, spot: new Float64Array(SPOT_NUMBERS) };
    writeSpot(piece, face, here.spot);
    seen.push(here);
    if (!best || here.spot[0]! < best.spot[0]!) best = here;
  }
  if (!best) throw new Error("nothing to measure against");
  const nearest = best;
  const others = seen.filter(
    ({ face, spot }) =>
      face !== nearest.face && slack > 0 && spot[0]! <= nearest.spot[0]! + 2 * slack && isSquare(face, spot),
  );
  return { ...nearest, others };
}

/** Whether the way from an element to a face is square to the face's plane, and not past its edge. */
function isSquare({ plane }: Face, at: Float64Array): boolean {
  const dx = at[5]! - at[2]!;
  const dy = at[6]! - at[3]!;
  const dz = at[7]! - at[4]!;
  const length = length3(dx, dy, dz);
  if (length <= 1e-9) return false;
  const [x, y, z] = unitNormal(plane);
  return Math.abs(x * dx + y * dy + z * dz) >= length * (1 - 1e-9);
}

/** Moves `spot` to where a round piece lies farthest above the surface within a gap: on its axis, and square to it on the plane of the face. */
function moveOverFace(piece: Piece, gap: TopGap, { plane, steepness }: Face): void {
  const atStart = gap.gapFrom <= gap.gapTo;
  const station = atStart ? gap.from : gap.to;
  const up = atStart ? gap.axisFrom : gap.axisTo;
  const [x, y] = piece.planAt(station);
  const z = elevationAt(plane, [x, y]) - up;
  const n = up / (steepness * steepness);
  spot[1] = station;
  spot[2] = x;
  spot[3] = y;
  spot[4] = z;
  spot[5] = x - plane.gx * n;
  spot[6] = y - plane.gy * n;
  spot[7] = z + n;
}

/** How much the least distance can change by: by `upright` along the vertical, and by `plan` in plan, each counted in its direction. */
export function slackAt(at: Float64Array, { plane }: Face, upright: number, plan: number): number {
  if (upright === 0 && plan === 0) return 0;
  let x = at[5]! - at[2]!;
  let y = at[6]! - at[3]!;
  let z = at[7]! - at[4]!;
  const length = Math.sqrt(x * x + y * y + z * z);
  if (length > 1e-9) {
    x /= length;
    y /= length;
    z /= length;
  } else [x, y, z] = unitNormal(plane);
  return Math.abs(z) * upright + Math.sqrt(x * x + y * y) * plan;
}

/** The least vertical gap at a station; null where there is none. */
export function verticalAt(piece: Piece, gaps: readonly TopGap[], station: number): number | null {
  let least: number | null = null;
  for (const gap of gaps) {
    if (station < gap.from - 1e-9 || station > gap.to + 1e-9) continue;
    const here = gapAtStation(piece, gap, station);
    if (least === null || here < least) least = here;
  }
  return least;
}

/**
 * Below the surface, from what lies straight above the axis. On a piece that rises by more than an eighth of its length that is no higher than its upper end;
 * on a flatter one the difference is nothing a tape could tell, and would depend on which of many nearest stations is taken.
 */
function gapAtStation({ axis, bounds, from, to }: Piece, gap: TopGap, station: number): number {
  const t = gap.to > gap.from ? Math.min(1, Math.max(0, (station - gap.from) / (gap.to - gap.from))) : 0;
  const top = gap.gapFrom + (gap.gapTo - gap.gapFrom) * t;
  const ofAxis = gap.axisFrom + (gap.axisTo - gap.axisFrom) * t;
  if (!axis || ofAxis <= 0 || Math.abs(axis.to - axis.from) <= (to - from) / 8) return top;
  const z = axis.from + (axis.to - axis.from) * Math.min(1, Math.max(0, (station - from) / (to - from)));
  return Math.max(top, ofAxis - (bounds.max[2] - z));
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
