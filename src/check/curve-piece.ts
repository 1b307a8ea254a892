import type { Face } from "../geometry/face.ts";
import type { FaceIndex } from "../geometry/face-index.ts";
import type { IntervalSet } from "../geometry/interval-set.ts";
import type { Point2, Point3 } from "../geometry/point.ts";
import type { Box3 } from "../geometry/solid.ts";
import type { Inches } from "../units/quantity.ts";
import type { CountedFrom, LevelDoubt } from "./level-doubt.ts";
import {
  type Piece,
  type PieceOutline,
  type PlanEnds,
  type PlanShare,
  roundPiece,
  type SurfaceDistance,
} from "./piece.ts";

/**
 * A part of the curve of a bend, straight and round from p to q: its stations, `from` to `to`, are those of the corner it stands beside, which is longer
 * than the curve.
 */
export const curvePiece = (p: Point3, q: Point3, radius: Inches, from: number, to: number, doubt: LevelDoubt): Piece =>
  new CurvePiece(roundPiece(p, q, radius, 0, doubt), from, to);

/** A round piece whose stations are stretched. */
class CurvePiece implements Piece {
  readonly curve = true;
  readonly tolerance: Inches;
  readonly counted: CountedFrom | undefined;

  constructor(
    private readonly round: Piece,
    readonly from: number,
    readonly to: number,
  ) {
    this.tolerance = round.tolerance;
    this.counted = round.counted;
  }

  get bounds(): Box3 {
    return this.round.bounds;
  }

  get axis(): Piece["axis"] & object {
    return this.round.axis!;
  }

  mayReachInPlan(box: Box3, reach: number): boolean {
    return this.round.mayReachInPlan(box, reach);
  }

  mayReach(box: Box3, reach: number): boolean {
    return this.round.mayReach(box, reach);
  }

  widen(ends: PlanEnds): void {
    this.round.widen(ends);
  }

  distanceTo(face: Face): SurfaceDistance {
    const near = this.round.distanceTo(face);
    return { ...near, station: this.stationOf(near.station) };
  }

  near(face: Face, clearance: number): IntervalSet {
    return this.stretched(this.round.near(face, clearance));
  }

  share(face: Face): PlanShare {
    const { under, gaps } = this.round.share(face);
    return {
      under: this.stretched(under),
      gaps: gaps.map((gap) => ({ ...gap, from: this.stationOf(gap.from), to: this.stationOf(gap.to) })),
    };
  }

  under(face: Face): IntervalSet {
    return this.stretched(this.round.under(face));
  }

  planAt(station: number): Point2 {
    const { from, to, round } = this;
    return round.planAt(to > from ? ((station - from) / (to - from)) * round.to : 0);
  }

  nearest(index: FaceIndex, accept: (face: number) => boolean): number | undefined {
    return this.round.nearest(index, accept);
  }

  lowered(by: number): Piece {
    return new CurvePiece(this.round.lowered(by), this.from, this.to);
  }

  flat(): Piece {
    return new CurvePiece(this.round.flat(), this.from, this.to);
  }

  outline(): PieceOutline {
    return this.round.outline();
  }

  private stationOf(own: number): number {
    const { from, to, round } = this;
    if (own >= round.to) return to;
    return round.to > 0 ? from + (own / round.to) * (to - from) : from;
  }

  private stretched(set: IntervalSet): IntervalSet {
    return set.map(([a, b]) => [this.stationOf(a), this.stationOf(b)]);
  }
}
