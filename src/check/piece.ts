import { boxToFace, boxVerticalGap, nearStretches, segmentToFace, verticalGaps } from "../geometry/clearance.ts";
import type { Face } from "../geometry/face.ts";
import type { FaceIndex } from "../geometry/face-index.ts";
import { type IntervalSet, normalise } from "../geometry/interval-set.ts";
import { distance3, lerp3, type Point2, type Point3 } from "../geometry/point.ts";
import { locate } from "../geometry/polygon.ts";
import { type Box3, boxOfCapsule, boxOfOrientedBox, type OrientedBox } from "../geometry/solid.ts";
import { isCloserThan } from "../geometry/tolerance.ts";
import { type Inches, inches } from "../units/quantity.ts";

/** Distance from a piece's surface to a face, negative where a round piece reaches through it, and the points that have it; building space, inches. */
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
}

/**
 * One solid of an element: a straight round segment or a box. The check asks it these questions and never what it is.
 * Stations are inches along the element; a piece without length has one station.
 */
export interface Piece {
  readonly from: number;
  readonly to: number;
  /** How far its tag may be off, each way. */
  readonly tolerance: Inches;
  readonly bounds: Box3;
  /** Elevations of the axis at both ends and its radius, where the piece is a round segment. */
  readonly axis?: { readonly from: number; readonly to: number; readonly radius: number };
  distanceTo(face: Face): SurfaceDistance;
  /** Stations at which the surface is closer than `clearance` to the face. */
  near(face: Face, clearance: number): IntervalSet;
  topGaps(face: Face): readonly TopGap[];
  /** Stations at which it lies in plan inside a face. */
  under(face: Face): IntervalSet;
  /** Plan position of a station. */
  planAt(station: number): Point2;
  /** Distance to the nearest face that `accept` admits, however far. */
  nearest(
    index: FaceIndex,
    accept: (face: number) => boolean,
  ): { readonly face: number; readonly distance: number } | undefined;
  /** The same piece, lower by so much. */
  lowered(by: number): Piece;
  /** The same piece at elevation 0, for distances in plan alone. */
  flat(): Piece;
  /** What it covers in plan and in height. */
  outline(): PieceOutline;
}

/** A convex outline in plan (two corners: a line; they may coincide), how far the surface stands out around it, and its elevations. */
export interface PieceOutline {
  readonly corners: readonly Point2[];
  readonly standsOut: Inches;
  /** Least and greatest elevation of what `standsOut` is counted from: an axis, or the whole solid. */
  readonly low: number;
  readonly high: number;
}

/** A straight round segment from p to q with ball ends, from station `from` on. */
export function roundPiece(p: Point3, q: Point3, radius: Inches, from: number, tolerance: Inches): Piece {
  const length = distance3(p, q);
  const to = from + length;
  const stations = (set: IntervalSet): IntervalSet => set.map(([a, b]) => [from + a * length, from + b * length]);
  const plan = Math.hypot(q[0] - p[0], q[1] - p[1]);
  // Straight above a sloping cylinder its surface is r / cos(slope) over the axis; above a vertical one, the ball end.
  const topOver = plan > 0 ? Math.min((radius * length) / plan, radius + Math.abs(q[2] - p[2])) : radius;
  return {
    from,
    to,
    tolerance,
    bounds: boxOfCapsule({ p, q, radius }),
    axis: { from: p[2], to: q[2], radius },
    distanceTo(face) {
      const near = segmentToFace(p, q, face);
      return {
        distance: inches(near.distance - radius),
        onElement: near.onElement,
        onFace: near.onFace,
        station: from + (near.t ?? 0) * length,
      };
    },
    near: (face, clearance) => stations(nearStretches(p, q, face, inches(clearance + radius))),
    topGaps: (face) =>
      verticalGaps(p, q, face).map((gap) => ({
        from: from + gap.from * length,
        to: from + gap.to * length,
        gapFrom: gap.gapFrom - topOver,
        gapTo: gap.gapTo - topOver,
        axisFrom: gap.gapFrom,
        axisTo: gap.gapTo,
      })),
    under: (face) => stations(normalise(verticalGaps(p, q, face).map((gap) => [gap.from, gap.to] as const))),
    planAt(station) {
      const at = lerp3(p, q, length > 0 ? (station - from) / length : 0);
      return [at[0], at[1]];
    },
    nearest(index, accept) {
      const near = index.nearestToSegment(p, q, accept);
      return near && { face: near.face, distance: near.distance - radius };
    },
    lowered: (by) => roundPiece([p[0], p[1], p[2] - by], [q[0], q[1], q[2] - by], radius, from, tolerance),
    flat: () => roundPiece([p[0], p[1], 0], [q[0], q[1], 0], radius, from, tolerance),
    outline: () => ({
      corners: [
        [p[0], p[1]],
        [q[0], q[1]],
      ],
      standsOut: radius,
      low: Math.min(p[2], q[2]),
      high: Math.max(p[2], q[2]),
    }),
  };
}

/** An upright box; it has one station, 0. */
export function boxPiece(box: OrientedBox, tolerance: Inches): Piece {
  const here: IntervalSet = [[0, 0]];
  const [x, y, z] = box.centre;
  const height = 2 * box.half[2];
  return {
    from: 0,
    to: 0,
    tolerance,
    bounds: boxOfOrientedBox(box),
    distanceTo(face) {
      const near = boxToFace(box, face);
      return { distance: near.distance, onElement: near.onElement, onFace: near.onFace, station: 0 };
    },
    near: (face, clearance) => (isCloserThan(boxToFace(box, face).distance, clearance) ? here : []),
    topGaps(face) {
      const gap = boxVerticalGap(box, face);
      if (!gap) return [];
      const bottom = gap.greatest;
      return [{ from: 0, to: 0, gapFrom: gap.least, gapTo: gap.least, axisFrom: bottom, axisTo: bottom }];
    },
    under: (face) => (locate(face.polygon, [x, y]) === "outside" ? [] : here),
    planAt: () => [x, y],
    nearest(index, accept) {
      const near = index.nearestToBox(box, accept);
      return near && { face: near.face, distance: near.distance };
    },
    lowered: (by) => boxPiece({ ...box, centre: [x, y, z - by] }, tolerance),
    flat: () =>
      boxPiece({ ...box, centre: [x, y, 0], half: [box.half[0], box.half[1], height > 0 ? height / 2 : 0] }, tolerance),
    outline() {
      const [c, s] = [Math.cos(box.rotation), Math.sin(box.rotation)];
      const corner = (along: number, across: number): Point2 => [
        x + along * box.half[0] * c - across * box.half[1] * s,
        y + along * box.half[0] * s + across * box.half[1] * c,
      ];
      return {
        corners: [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)],
        standsOut: inches(0),
        low: z - box.half[2],
        high: z + box.half[2],
      };
    },
  };
}
