import type { Point2 } from "../../geometry/point.ts";

/**
 * A plane affine map as ISO 32000-2, 8.3.3 writes it: [a b c d e f] takes (x, y) to (a x + c y + e, b x + d y + f).
 */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

/** The map that changes nothing. */
export const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0];

/** Where the map takes a point. */
export const applyMatrix = (m: Matrix, p: Point2): Point2 => [
  m[0] * p[0] + m[2] * p[1] + m[4],
  m[1] * p[0] + m[3] * p[1] + m[5],
];

/** The map that does `first` and then `second`. */
export const chain = (first: Matrix, second: Matrix): Matrix => [
  second[0] * first[0] + second[2] * first[1],
  second[1] * first[0] + second[3] * first[1],
  second[0] * first[2] + second[2] * first[3],
  second[1] * first[2] + second[3] * first[3],
  second[0] * first[4] + second[2] * first[5] + second[4],
  second[1] * first[4] + second[3] * first[5] + second[5],
];

/** The map back. Throws on a map that flattens the plane, which no page transform does. */
export const invert = (m: Matrix): Matrix => {
  const det = m[0] * m[3] - m[1] * m[2];
  if (det === 0 || !Number.isFinite(det)) throw new RangeError("matrix has no inverse");
  return [
    m[3] / det,
    -m[1] / det,
    -m[2] / det,
    m[0] / det,
    (m[2] * m[5] - m[3] * m[4]) / det,
    (m[1] * m[4] - m[0] * m[5]) / det,
  ];
};
