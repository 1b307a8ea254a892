import { type Bar, barPoint, boxOfBar, makeBar } from "../geometry/bar.ts";
import { barNearStretches, barToFace, barVerticalGap } from "../geometry/bar-clearance.ts";
import { gapAlong, planSpans } from "../geometry/clearance.ts";
import type { Face } from "../geometry/face.ts";
import type { FaceIndex } from "../geometry/face-index.ts";
import { type IntervalSet, unite } from "../geometry/interval-set.ts";
import { lerp3, type Point2, type Point3 } from "../geometry/point.ts";
import type { Box3 } from "../geometry/solid.ts";
import { type Inches, inches } from "../units/quantity.ts";
import type { CountedFrom, LevelDoubt } from "./level-doubt.ts";
import {
  type Piece,
  type PieceOutline,
  type PlanEnds,
  type PlanShare,
  reachThrough,
  type SurfaceDistance,
  type TopGap,
} from "./piece.ts";

/** Outside sizes of a rectangular section, inches. */
export interface RectangularSection {
  readonly width: Inches;
  readonly height: Inches;
}

/**
 * A straight segment of rectangular section from p to q with square ends, from station `from` on. `ahead`: the plan direction the run was going in, which
 * turns the section of an upright segment.
 */
export const barPiece = (
  p: Point3,
  q: Point3,
  { width, height }: RectangularSection,
  ahead: Point2,
  from: number,
  doubt: LevelDoubt,
): Piece => new BarPiece(makeBar(p, q, inches(width / 2), inches(height / 2), ahead), ahead, from, doubt);

class BarPiece implements Piece {
  readonly to: number;
  readonly tolerance: Inches;
  readonly counted: CountedFrom | undefined;
  readonly bounds: Box3;

  constructor(
    private readonly bar: Bar,
    private readonly ahead: Point2,
    readonly from: number,
    doubt: LevelDoubt,
  ) {
    this.tolerance = doubt.tolerance;
    this.counted = doubt.counted;
    this.to = from + bar.length;
    this.bounds = boxOfBar(bar);
  }

  get axis(): { readonly from: number; readonly to: number; readonly radius: number } {
    return { from: this.bar.p[2], to: this.bar.q[2], radius: this.bar.halfHeight };
  }

  mayReachInPlan({ min, max }: Box3, reach: number): boolean {
    const own = this.bounds;
    return (
      own.min[0] - reach <= max[0] &&
      own.max[0] + reach >= min[0] &&
      own.min[1] - reach <= max[1] &&
      own.max[1] + reach >= min[1]
    );
  }

  mayReach(box: Box3, reach: number): boolean {
    const own = this.bounds;
    return own.min[2] - reach <= box.max[2] && own.max[2] + reach >= box.min[2] && this.mayReachInPlan(box, reach);
  }

  widen(ends: PlanEnds): void {
    const { min, max } = this.bounds;
    ends.x0 = Math.min(ends.x0, min[0]);
    ends.y0 = Math.min(ends.y0, min[1]);
    ends.x1 = Math.max(ends.x1, max[0]);
    ends.y1 = Math.max(ends.y1, max[1]);
  }

  distanceTo(face: Face): SurfaceDistance {
    const { distance, onElement, onFace, s } = barToFace(this.bar, face);
    const gap = distance === 0 ? barVerticalGap(this.bar, face) : undefined;
    if (!gap || gap.least >= 0) return { distance, onElement, onFace, station: this.from + s };
    const { p, along, length } = this.bar;
    const ahead = [0, 1, 2].reduce((sum, k) => sum + (gap.at[k]! - p[k]!) * along[k]!, 0);
    const station = this.from + Math.min(length, Math.max(0, ahead));
    return { ...reachThrough(gap.least, gap.at, face), station };
  }

  near(face: Face, clearance: number): IntervalSet {
    const { from } = this;
    return barNearStretches(this.bar, face, inches(clearance)).map(([a, b]) => [from + a, from + b]);
  }

  /** By its axis and both sides of its section: where any of them is inside the face. */
  share(face: Face): PlanShare {
    const { bar, from } = this;
    const over = this.topOver();
    const gaps: TopGap[] = [];
    for (const side of [-bar.halfWidth, 0, bar.halfWidth]) {
      const [p, q] = [barPoint(bar, 0, side, 0), barPoint(bar, bar.length, side, 0)];
      for (const [a, b] of planSpans(p, q, face)) {
        const [axisFrom, axisTo] = [gapAlong(p, q, face, a), gapAlong(p, q, face, b)];
        const [start, end] = [from + a * bar.length, from + b * bar.length];
        gaps.push({ from: start, to: end, gapFrom: axisFrom - over, gapTo: axisTo - over, axisFrom, axisTo });
      }
    }
    return { under: unite(gaps.map(({ from: start, to }) => [start, to] as const)), gaps };
  }

  /** Straight above its axis the surface is so far up: by its upper side, or, where it is steep, by its end. */
  private topOver(): number {
    const { p, q, length, halfHeight } = this.bar;
    const plan = Math.hypot(q[0] - p[0], q[1] - p[1]);
    if (length === 0) return halfHeight;
    if (plan === 0) return 0;
    return Math.min((halfHeight * length) / plan, Math.abs(q[2] - p[2]) + (halfHeight * plan) / length);
  }

  under(face: Face): IntervalSet {
    return this.share(face).under;
  }

  planAt(station: number): Point2 {
    const { p, q, length } = this.bar;
    const [x, y] = lerp3(p, q, length > 0 ? (station - this.from) / length : 0);
    return [x, y];
  }

  nearest(index: FaceIndex, accept: (face: number) => boolean): number | undefined {
    return index.nearestBy(this.bounds, (face) => barToFace(this.bar, face).distance, accept);
  }

  lowered(by: number): Piece {
    const down = ([x, y, z]: Point3): Point3 => [x, y, z - by];
    const { p, q, halfWidth, halfHeight } = this.bar;
    return new BarPiece(makeBar(down(p), down(q), halfWidth, halfHeight, this.ahead), this.ahead, this.from, this);
  }

  flat(): Piece {
    const [a, b, c, d] = this.footprint();
    const middle = (one: Point2, other: Point2): Point3 => [(one[0] + other[0]) / 2, (one[1] + other[1]) / 2, 0];
    const bar = makeBar(middle(a, d), middle(b, c), this.bar.halfWidth, inches(0), this.ahead);
    return new BarPiece(bar, this.ahead, this.from, this);
  }

  outline(): PieceOutline {
    return {
      corners: this.footprint(),
      standsOut: inches(0),
      low: this.bounds.min[2],
      high: this.bounds.max[2],
    };
  }

  /** What it covers in plan: the side to the right of its way there, and the other one back. */
  private footprint(): readonly [Point2, Point2, Point2, Point2] {
    const { p, q, across, halfWidth, halfHeight, up } = this.bar;
    // The way it goes in plan is square to what lies across it.
    const [dx, dy] = [across[1], -across[0]];
    const out = halfHeight * Math.hypot(up[0], up[1]);
    const at = ([x, y]: Point3, way: number, side: number): Point2 => [
      x + way * out * dx + side * halfWidth * across[0],
      y + way * out * dy + side * halfWidth * across[1],
    ];
    return [at(p, -1, -1), at(q, 1, -1), at(q, 1, 1), at(p, -1, 1)];
  }
}
