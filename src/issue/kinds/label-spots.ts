import { distance2, lerp2, type Point2 } from "../../geometry/point.ts";
import { readableAlong, type SheetFrame } from "../sheet-frame.ts";
import type { LabelSpot } from "./drawing.ts";

/** Sides of a point a label may go to, the best first: right and left come after above and below. */
const SIDES = [
  [0, 1],
  [0, -1],
  [1, 1],
  [-1, 1],
  [1, -1],
  [-1, -1],
  [1, 0],
  [-1, 0],
] as const;

/** Spots made as they are asked for: most labels find room at one of the first. */
const lazily = (make: () => Generator<LabelSpot>): Iterable<LabelSpot> => ({ [Symbol.iterator]: make });

/** Places around a point, upright, from `reach` points of paper outwards. */
export function spotsAround(frame: SheetFrame, at: Point2, reach: number): Iterable<LabelSpot> {
  return lazily(function* () {
    for (const distance of [reach, reach + 9, reach + 22]) {
      for (const side of SIDES) {
        // On a slant the corner is nearest: the same distance needs less of it along each axis.
        const slant = side[0] !== 0 && side[1] !== 0 ? 0.75 : 1;
        yield { at, angle: frame.upright, side, gap: distance * slant * frame.point };
      }
    }
  });
}

/** Places along the longest parts of a line, above and below it; beside its first point when it has no length. */
export function spotsAlong(frame: SheetFrame, line: readonly Point2[], gap: number): Iterable<LabelSpot> {
  const parts = line
    .slice(1)
    .map((b, i) => ({ a: line[i] as Point2, b, length: distance2(line[i] as Point2, b) }))
    .filter(({ length }) => length > 0)
    .sort((p, q) => q.length - p.length)
    .slice(0, 4);
  const first = line[0];
  if (parts.length === 0) return first ? spotsAround(frame, first, gap) : [];
  return lazily(function* () {
    for (const { a, b } of parts) {
      const angle = readableAlong(frame, a, b);
      for (const t of [0.5, 0.3, 0.7, 0.15, 0.85]) {
        for (const up of [1, -1] as const) {
          yield { at: lerp2(a, b, t), angle, side: [0, up], gap: gap * frame.point };
        }
      }
    }
  });
}

/** Places on a point and near it, for the name of an area. */
export function spotsOver(frame: SheetFrame, [x, y]: Point2): LabelSpot[] {
  return [
    [0, 0],
    [0, 30],
    [0, -30],
    [90, 0],
    [-90, 0],
    [90, 30],
    [-90, -30],
    [0, 60],
    [0, -60],
  ].map(([right, up]): LabelSpot => {
    const [dx, dy] = frame.shift(right as number, up as number);
    return { at: [x + dx, y + dy], angle: frame.upright, side: [0, 0], gap: 0 };
  });
}
