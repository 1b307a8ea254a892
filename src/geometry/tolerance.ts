import { type Inches, inches } from "../units/quantity.ts";

/**
 * The one tolerance of the clearance check, in inches. A distance counts as closer than a limit only when it is smaller
 * by more than this, so that an element exactly at its limit is not too close in spite of rounding. Verdicts and
 * stretches both use it, or they would contradict each other.
 */
export const LIMIT_TOLERANCE: Inches = inches(1e-7);

/**
 * How near a plan edge counts as lying on it where a point has been computed (the middle of a stretch, a foot), in the
 * unit of the plan. Far above the rounding of coordinates of 1e5 (1.5e-11), far below anything traced or built.
 */
export const EDGE_TOLERANCE = 1e-9;

/**
 * Whether a distance counts as closer than a limit: by more than `LIMIT_TOLERANCE`, so exactly at the limit is not.
 * The one comparison behind verdicts and stretches. Throws on what is not a number, which no comparison may let pass.
 */
export function isCloserThan(distance: number, limit: number): boolean {
  if (Number.isNaN(distance) || Number.isNaN(limit)) throw new RangeError("a distance or a limit is not a number");
  return distance < limit - LIMIT_TOLERANCE;
}
