import {
  boxToFace,
  boxVerticalGap,
  gapAlong,
  nearStretches,
  planSpans,
  SPOT_STRIDE,
  segmentToFace,
  writeSegmentToFace,
} from "../geometry/clearance.ts";
import type { Face } from "../geometry/face.ts";
import type { FaceIndex } from "../geometry/face-index.ts";
import type { Interval, IntervalSet } from "../geometry/interval-set.ts";
import { WHOLE } from "../geometry/plan-edges.ts";
import { distance3, lerp3, type Point2, type Point3 } from "../geometry/point.ts";
import { type Box3, boxOfCapsule, boxOfOrientedBox, type OrientedBox } from "../geometry/solid.ts";
import { isCloserThan } from "../geometry/tolerance.ts";
import { type Inches, inches } from "../units/quantity.ts";
import type { CountedFrom, LevelDoubt } from "./level-doubt.ts";

/** Distance from a piece's surface to a face, negative by how far the piece reaches through it, and the points that have it; building space, inches. */
export interface SurfaceDistance {
  readonly distance: Inches;
  readonly onElement: Point3;
  readonly onFace: Point3;
  /** Station of `onElement` along the element. */
  readonly station: number;
}

/** A stretch of the piece under a face's plan, with the vertical distance from the top of the piece up to the face at both ends. */
export interface TopGap {
  readonly from: number;
  readonly to: number;
  readonly gapFrom: number;
  readonly gapTo: number;
  /** The same measured from the axis (a box: from its bottom): negative where the piece lies above the surface. */
  readonly axisFrom: number;
  readonly axisTo: number;
  /** For a piece with one station: the point of it that has the gap. */
  readonly at?: Point3;
}

/** What of a piece lies in plan inside a face: the stations, and the vertical gaps there. */
export interface PlanShare {
  readonly under: IntervalSet;
  readonly gaps: readonly TopGap[];
  /** Whether any gap has an axis gap below 0, and whether any has one above 0; absent where that has to be looked up in the gaps. */
  readonly rises?: boolean;
  readonly below?: boolean;
  /** Whether all of the piece lies inside, where that is plain; false or absent where `under` has to tell. */
  readonly isWhole?: boolean;
}

/** Numbers of a straight round piece: both ends of its axis x y z, then what `ROUND` names; inches. */
export const ROUND_STRIDE = 10;
export const ROUND = { radius: 6, from: 7, length: 8, tolerance: 9 } as const;

/** Numbers of a spot: distance, station, the point on the element, the point on the face. */
export const SPOT_NUMBERS = SPOT_STRIDE;

/** The distance from a piece to a face and its place, written into `spot`: what `distanceTo` answers, without taking memory where the piece can. */
export function writeSpot(piece: Piece, face: Face, spot: Float64Array): void {
  if (piece.writeSpot) piece.writeSpot(face, spot);
  else {
    const { distance, station, onElement, onFace } = piece.distanceTo(face);
    spot[0] = distance;
    spot[1] = station;
    for (let k = 0; k < 3; k++) {
      spot[2 + k] = onElement[k]!;
      spot[5 + k] = onFace[k]!;
    }
  }
}

/** A spot as a value. */
export const spotAsValue = (spot: Float64Array): SurfaceDistance => ({
  distance: inches(spot[0]!),
  station: spot[1]!,
  onElement: [spot[2]!, spot[3]!, spot[4]!],
  onFace: [spot[5]!, spot[6]!, spot[7]!],
});

/**
 * One solid of an element: a straight segment of round or rectangular section, or a box. The check asks it these questions and never what it is.
 * Stations are inches along the element; a piece without length has one station.
 */
export interface Piece {
  readonly from: number;
  readonly to: number;
  /** How far its tag may be off, each way. */
  readonly tolerance: Inches;
  /** The deck its tags are counted from, where all of them are counted from one. */
  readonly counted?: CountedFrom | undefined;
  readonly bounds: Box3;
  /** One of the straight pieces that stand for the curve of a bend, beside the corner as traced. */
  readonly curve?: boolean;
  /** Elevations of the axis at both ends, and how far the surface is from it upwards, square to it, where the piece is a straight segment. */
  readonly axis?: { readonly from: number; readonly to: number; readonly radius: number };
  /** Whether its bounds and the box come within `reach` of each other, in plan or in space: no for what is farther, yes for some that is. */
  mayReachInPlan(box: Box3, reach: number): boolean;
  mayReach(box: Box3, reach: number): boolean;
  /** Widens `ends` so that they hold its bounds in plan. */
  widen(ends: PlanEnds): void;
  distanceTo(face: Face): SurfaceDistance;
  /** `distanceTo` as `writeSpot` writes it; for pieces of which there are many. */
  writeSpot?(face: Face, spot: Float64Array): void;
  /** Writes its `ROUND_STRIDE` numbers; straight round pieces have them, and large jobs consist of little else. */
  writeRound?(into: Float64Array, at: number): void;
  /** Stations at which the surface is closer than `clearance` to the face. */
  near(face: Face, clearance: number): IntervalSet;
  /** What of it lies in plan inside a face. */
  share(face: Face): PlanShare;
  /** The stations of `share`. */
  under(face: Face): IntervalSet;
  /** Plan position of a station. */
  planAt(station: number): Point2;
  /** Number of the nearest face that `accept` admits, however far. */
  nearest(index: FaceIndex, accept: (face: number) => boolean): number | undefined;
  /** The same piece, lower by so much. */
  lowered(by: number): Piece;
  /** The same piece at elevation 0, for distances in plan alone. */
  flat(): Piece;
  /** What it covers in plan and in height. */
  outline(): PieceOutline;
}

/** Least and greatest coordinates in plan, building space. */
export interface PlanEnds {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

/** A convex outline in plan (two corners: a line; they may coincide), how far the surface stands out around it, and its elevations. */
export interface PieceOutline {
  readonly corners: readonly Point2[];
  readonly standsOut: Inches;
  /** Least and greatest elevation of what `standsOut` is counted from: an axis, or the whole solid. */
  readonly low: number;
  readonly high: number;
}

const NOTHING: PlanShare = { under: [], gaps: [], rises: false, below: false };

/** A straight round segment from p to q with ball ends, from station `from` on. */
export const roundPiece = (p: Point3, q: Point3, radius: Inches, from: number, doubt: LevelDoubt): Piece =>
  new RoundPiece(p, q, radius, from, doubt);

/** A class, not an object of closures: large jobs have hundreds of thousands of these. */
class RoundPiece implements Piece {
  readonly to: number;
  readonly tolerance: Inches;
  readonly counted: CountedFrom | undefined;
  private readonly length: number;

  constructor(
    private readonly p: Point3,
    private readonly q: Point3,
    private readonly radius: Inches,
    readonly from: number,
    doubt: LevelDoubt,
  ) {
    this.tolerance = doubt.tolerance;
    this.counted = doubt.counted;
    this.length = distance3(p, q);
    this.to = from + this.length;
  }

  get bounds(): Box3 {
    return boxOfCapsule({ p: this.p, q: this.q, radius: this.radius });
  }

  get axis(): { readonly from: number; readonly to: number; readonly radius: number } {
    return { from: this.p[2], to: this.q[2], radius: this.radius };
  }

  mayReachInPlan({ min, max }: Box3, reach: number): boolean {
    const { p, q } = this;
    const far = reach + this.radius;
    return (
      Math.min(p[0], q[0]) - far <= max[0] &&
      Math.max(p[0], q[0]) + far >= min[0] &&
      Math.min(p[1], q[1]) - far <= max[1] &&
      Math.max(p[1], q[1]) + far >= min[1]
    );
  }

  widen(ends: PlanEnds): void {
    const { p, q, radius } = this;
    ends.x0 = Math.min(ends.x0, p[0] - radius, q[0] - radius);
    ends.y0 = Math.min(ends.y0, p[1] - radius, q[1] - radius);
    ends.x1 = Math.max(ends.x1, p[0] + radius, q[0] + radius);
    ends.y1 = Math.max(ends.y1, p[1] + radius, q[1] + radius);
  }

  mayReach(box: Box3, reach: number): boolean {
    const { p, q } = this;
    const far = reach + this.radius;
    return (
      Math.min(p[2], q[2]) - far <= box.max[2] &&
      Math.max(p[2], q[2]) + far >= box.min[2] &&
      this.mayReachInPlan(box, reach)
    );
  }

  distanceTo(face: Face): SurfaceDistance {
    const near = segmentToFace(this.p, this.q, face);
    return {
      distance: inches(near.distance - this.radius),
      onElement: near.onElement,
      onFace: near.onFace,
      station: this.from + near.t * this.length,
    };
  }

  near(face: Face, clearance: number): IntervalSet {
    const { from, length } = this;
    const set = nearStretches(this.p, this.q, face, inches(clearance + this.radius));
    return set.map(([a, b]) => [from + a * length, from + b * length]);
  }

  writeSpot(face: Face, spot: Float64Array): void {
    writeSegmentToFace(this.p, this.q, face, spot);
    spot[0] = spot[0]! - this.radius;
    spot[1] = this.from + spot[1]! * this.length;
  }

  writeRound(into: Float64Array, at: number): void {
    const { p, q } = this;
    into[at] = p[0];
    into[at + 1] = p[1];
    into[at + 2] = p[2];
    into[at + 3] = q[0];
    into[at + 4] = q[1];
    into[at + 5] = q[2];
    into[at + ROUND.radius] = this.radius;
    into[at + ROUND.from] = this.from;
    into[at + ROUND.length] = this.length;
    into[at + ROUND.tolerance] = this.tolerance;
  }

  share(face: Face): PlanShare {
    const { p, q } = this;
    const spans = planSpans(p, q, face);
    if (spans.length === 0) return NOTHING;
    let rises = false;
    let below = false;
    for (const span of spans) {
      const axisFrom = gapAlong(p, q, face, span[0]);
      const axisTo = gapAlong(p, q, face, span[1]);
      if (axisFrom < 0 || axisTo < 0) rises = true;
      if (axisFrom > 0 || axisTo > 0) below = true;
    }
    return new RoundShare(this, face, spans, rises, below);
  }

  /** Stations of spans of the segment, 0 at p to 1 at q. */
  stationsOf(spans: IntervalSet): Interval[] {
    const { from, length } = this;
    return spans.map(([start, end]) => [from + start * length, from + end * length]);
  }

  gapsOf(face: Face, spans: IntervalSet): TopGap[] {
    const { p, q, from, length } = this;
    const topOver = this.topOver();
    return spans.map(([start, end]) => {
      const axisFrom = gapAlong(p, q, face, start);
      const axisTo = gapAlong(p, q, face, end);
      return {
        from: from + start * length,
        to: from + end * length,
        gapFrom: axisFrom - topOver,
        gapTo: axisTo - topOver,
        axisFrom,
        axisTo,
      };
    });
  }

  /** Straight above a sloping cylinder its surface is r / cos(slope) over the axis; above a vertical one, the ball end. */
  private topOver(): number {
    const { p, q, radius, length } = this;
    const rise = Math.abs(q[2] - p[2]);
    if (rise === 0) return radius;
    const plan = Math.hypot(q[0] - p[0], q[1] - p[1]);
    return plan > 0 ? Math.min((radius * length) / plan, radius + rise) : radius;
  }

  under(face: Face): IntervalSet {
    return this.share(face).under;
  }

  planAt(station: number): Point2 {
    const at = lerp3(this.p, this.q, this.length > 0 ? (station - this.from) / this.length : 0);
    return [at[0], at[1]];
  }

  nearest(index: FaceIndex, accept: (face: number) => boolean): number | undefined {
    return index.nearestToSegment(this.p, this.q, accept)?.face;
  }

  lowered(by: number): Piece {
    const { p, q } = this;
    return roundPiece([p[0], p[1], p[2] - by], [q[0], q[1], q[2] - by], this.radius, this.from, this);
  }

  flat(): Piece {
    const { p, q } = this;
    return roundPiece([p[0], p[1], 0], [q[0], q[1], 0], this.radius, this.from, this);
  }

  outline(): PieceOutline {
    const { p, q } = this;
    return {
      corners: [
        [p[0], p[1]],
        [q[0], q[1]],
      ],
      standsOut: this.radius,
      low: Math.min(p[2], q[2]),
      high: Math.max(p[2], q[2]),
    };
  }
}

/**
 * The distance of a solid that goes through a face: how far it reaches above it, negative and square to it. `gap` is the vertical gap there, below nought,
 * `at` the point of the solid that has it.
 */
export function reachThrough(
  gap: number,
  at: Point3,
  { plane, steepness }: Face,
): Pick<SurfaceDistance, "distance" | "onElement" | "onFace"> {
  const back = gap / (steepness * steepness);
  return {
    distance: inches(gap / steepness),
    onElement: at,
    onFace: [at[0] - plane.gx * back, at[1] - plane.gy * back, at[2] + back],
  };
}

/** What of a segment lies in plan inside a face. Gaps in figures are asked of few of the many there are: they are worked out when they are read. */
class RoundShare implements PlanShare {
  constructor(
    private readonly piece: RoundPiece,
    private readonly face: Face,
    private readonly spans: IntervalSet,
    readonly rises: boolean,
    readonly below: boolean,
  ) {}

  get under(): IntervalSet {
    return this.piece.stationsOf(this.spans);
  }

  get gaps(): readonly TopGap[] {
    return this.piece.gapsOf(this.face, this.spans);
  }

  /** Whether all of the segment does. */
  get isWhole(): boolean {
    return this.spans === WHOLE;
  }
}

/** An upright box; it has one station, 0. */
export const boxPiece = (box: OrientedBox, doubt: LevelDoubt): Piece => new BoxPiece(box, doubt);

const HERE: IntervalSet = [[0, 0]];

class BoxPiece implements Piece {
  readonly from = 0;
  readonly to = 0;
  readonly bounds: Box3;
  readonly tolerance: Inches;
  readonly counted: CountedFrom | undefined;

  constructor(
    private readonly box: OrientedBox,
    doubt: LevelDoubt,
  ) {
    this.tolerance = doubt.tolerance;
    this.counted = doubt.counted;
    this.bounds = boxOfOrientedBox(box);
  }

  mayReachInPlan({ min, max }: Box3, reach: number): boolean {
    const own = this.bounds;
    return [0, 1].every((k) => own.min[k]! - reach <= max[k]! && own.max[k]! + reach >= min[k]!);
  }

  widen(ends: PlanEnds): void {
    const { min, max } = this.bounds;
    ends.x0 = Math.min(ends.x0, min[0]);
    ends.y0 = Math.min(ends.y0, min[1]);
    ends.x1 = Math.max(ends.x1, max[0]);
    ends.y1 = Math.max(ends.y1, max[1]);
  }

  mayReach(box: Box3, reach: number): boolean {
    const own = this.bounds;
    return own.min[2] - reach <= box.max[2] && own.max[2] + reach >= box.min[2] && this.mayReachInPlan(box, reach);
  }

  distanceTo(face: Face): SurfaceDistance {
    const near = boxToFace(this.box, face);
    const gap = near.distance === 0 ? boxVerticalGap(this.box, face) : undefined;
    if (gap && gap.least < 0) return { ...reachThrough(gap.least, gap.at, face), station: 0 };
    return { distance: near.distance, onElement: near.onElement, onFace: near.onFace, station: 0 };
  }

  near(face: Face, clearance: number): IntervalSet {
    return isCloserThan(boxToFace(this.box, face).distance, clearance) ? HERE : [];
  }

  share(face: Face): PlanShare {
    const gap = boxVerticalGap(this.box, face);
    const bottom = gap?.greatest ?? 0;
    return {
      under: gap ? HERE : [],
      gaps: gap
        ? [{ from: 0, to: 0, gapFrom: gap.least, gapTo: gap.least, axisFrom: bottom, axisTo: bottom, at: gap.at }]
        : [],
    };
  }

  /** By its outline: any part of it inside the face counts. */
  under(face: Face): IntervalSet {
    return boxVerticalGap(this.box, face) ? HERE : [];
  }

  planAt(): Point2 {
    return [this.box.centre[0], this.box.centre[1]];
  }

  nearest(index: FaceIndex, accept: (face: number) => boolean): number | undefined {
    return index.nearestToBox(this.box, accept)?.face;
  }

  lowered(by: number): Piece {
    const [x, y, z] = this.box.centre;
    return boxPiece({ ...this.box, centre: [x, y, z - by] }, this);
  }

  flat(): Piece {
    const [x, y] = this.box.centre;
    return boxPiece({ ...this.box, centre: [x, y, 0] }, this);
  }

  outline(): PieceOutline {
    const { centre, half, rotation } = this.box;
    const [c, s] = [Math.cos(rotation), Math.sin(rotation)];
    const corner = (along: number, across: number): Point2 => [
      centre[0] + along * half[0] * c - across * half[1] * s,
      centre[1] + along * half[0] * s + across * half[1] * c,
    ];
    return {
      corners: [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)],
      standsOut: inches(0),
      low: centre[2] - half[2],
      high: centre[2] + half[2],
    };
  }
}
