/** Most straight pieces one curve becomes. */
const MOST_PIECES = 64;

/**
 * How many straight pieces keep a cubic curve within `flatness` of the true one. From the bound on the second
 * differences of the control points: the error of n equal pieces is at most (6 d / 8) / n^2 of the greatest difference d.
 */
export function piecesOf(
  [x0, y0, x1, y1, x2, y2, x3, y3]: readonly [number, number, number, number, number, number, number, number],
  flatness: number,
): number {
  const d = Math.max(Math.hypot(x0 - 2 * x1 + x2, y0 - 2 * y1 + y2), Math.hypot(x1 - 2 * x2 + x3, y1 - 2 * y2 + y3));
  const pieces = Math.ceil(Math.sqrt((0.75 * d) / flatness));
  return Math.min(MOST_PIECES, Math.max(1, Number.isFinite(pieces) ? pieces : 1));
}

/** A coordinate of a cubic curve at t, from that coordinate of its four control points. */
export const cubicAt = (a: number, b: number, c: number, d: number, t: number): number => {
  const s = 1 - t;
  return s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d;
};
