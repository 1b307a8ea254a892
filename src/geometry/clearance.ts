import type { Inches } from "../units/quantity.ts";
import type { Face } from "./face.ts";
import type { IntervalSet } from "./interval-set.ts";
import type { Point3 } from "./point.ts";
import type { OrientedBox } from "./solid.ts";

/** The least distance between an element and a face, and a pair of points that has it. Building space, inches. */
export interface Nearest {
  readonly distance: Inches;
  readonly onElement: Point3;
  readonly onFace: Point3;
  /** Where along a segment, 0 at p to 1 at q; absent for boxes. */
  readonly t?: number;
}

/** A part of a segment inside a face's plan, with the vertical gap deck minus axis at both of its ends (linear between). */
export interface VerticalGap {
  /** Along the segment, 0 at p to 1 at q. */
  readonly from: number;
  readonly to: number;
  /** Positive where the axis is below the deck, negative above it. */
  readonly gapFrom: Inches;
  readonly gapTo: Inches;
}

export declare function segmentToFace(p: Point3, q: Point3, face: Face): Nearest;
export declare function boxToFace(box: OrientedBox, face: Face): Nearest;
export declare function nearStretches(p: Point3, q: Point3, face: Face, reach: Inches): IntervalSet;
export declare function verticalGaps(p: Point3, q: Point3, face: Face): VerticalGap[];
export declare function boxVerticalGap(box: OrientedBox, face: Face): { least: Inches; greatest: Inches } | undefined;
