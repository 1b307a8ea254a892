import type { Point2 } from "./point.ts";

/** Cosines of the whole multiples of 30 degrees, which are exact where a number can be: what is square stays square to the bit. */
const EXACT: readonly number[] = [1, Math.sqrt(3) / 2, 0.5, 0, -0.5, -Math.sqrt(3) / 2, -1];

/** The vector of length 1 at so many degrees counter-clockwise from +x; along the axes without any rounding error. */
export function unitAt(degrees: number): Point2 {
  const turn = ((degrees % 360) + 360) % 360;
  return [cosine(turn), cosine((turn + 270) % 360)];
}

function cosine(turn: number): number {
  const half = turn > 180 ? 360 - turn : turn;
  return half % 30 === 0 ? EXACT[half / 30]! : Math.cos((half * Math.PI) / 180);
}

/** From one point towards another, of length 1; undefined where they are the same place. */
export function unitTowards(from: Point2, to: Point2): Point2 | undefined {
  const [x, y] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(x, y);
  return length > 0 ? [x / length, y / length] : undefined;
}

/** A vector turned counter-clockwise by the angle another one of length 1 has from +x. */
export const turnedBy = ([x, y]: Point2, [ux, uy]: Point2): Point2 => [x * ux - y * uy, x * uy + y * ux];
