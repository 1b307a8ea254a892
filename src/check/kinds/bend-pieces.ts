import { bendCurve } from "../../geometry/arc.ts";
import type { Point3 } from "../../geometry/point.ts";
import { type Inches, inches } from "../../units/quantity.ts";
import { curvePiece } from "../curve-piece.ts";
import { doubtBetween } from "../level-doubt.ts";
import type { Piece } from "../piece.ts";
import type { AxisElevation } from "../tag-elevation.ts";

/**
 * The curves of bends at the vertices of a round run, building space. They stand beside the corners as traced, which stay: a corner goes farther out than its curve, a
 * curve farther in. Where the curve does not fit between its neighbours it is as long as they leave it room for, which is nearer the corner.
 */
export function bendPieces(
  points: readonly (Point3 | undefined)[],
  stations: readonly number[],
  levels: readonly (AxisElevation | undefined)[],
  radius: Inches,
  standsOut: Inches,
): Piece[] {
  const pieces: Piece[] = [];
  for (let i = 1; i + 1 < points.length; i++) {
    const [a, b, c] = [points[i - 1], points[i], points[i + 1]];
    if (!a || !b || !c) continue;
    const whole = bendCurve(a, b, c, radius);
    if (!whole) continue;
    const station = stations[i]!;
    const room = Math.min(station - stations[i - 1]!, stations[i + 1]! - station);
    const fits = whole.tangent <= room;
    const curve = fits ? whole : bendCurve(a, b, c, (radius * room) / whole.tangent);
    if (!curve) continue;
    const { points: on, tangent, off } = curve;
    const step = (2 * tangent) / (on.length - 1);
    const doubt = doubtBetween([i - 1, i, i + 1].map((n) => levels[n]!));
    for (let k = 0; k + 1 < on.length; k++) {
      // Both pieces at a place have the very same station there, or the stretch would part.
      const [from, to] = [station - tangent + k * step, station - tangent + (k + 1) * step];
      pieces.push(curvePiece(on[k]!, on[k + 1]!, inches(standsOut + off), from, to, doubt));
    }
  }
  return pieces;
}
