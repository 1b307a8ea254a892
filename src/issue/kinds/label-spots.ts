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

/** Places around a point, upright, from `reach` points of paper outwards. */
export function spotsAround(frame: SheetFrame, at: Point2, reach: number): LabelSpot[] {
  return [reach, reach + 9, reach + 22].flatMap((gap) =>
    SIDES.map((side): LabelSpot => {
      // On a slant the corner is nearest: the same distance needs less of it along each axis.
      const slant = side[0] !== 0 && side[1] !== 0 ? 0.75 : 1;
      return { at, angle: frame.upright, side, gap: gap * slant * frame.point };
    }),
  );
}

/** Places along the longest parts of a line, above and below it; beside its first point when it has no length. */
export function spotsAlong(frame: SheetFrame, line: readonly Point2[], gap: number): LabelSpot[] {
  const parts = line
    .slice(1)
    .map((b, i) => ({ a: line[i] as Point2, b, length: distance2(line[i] as Point2, b) }))
    .filter(({ length }) => length > 0)
    .sort((p, q) => q.length - p.length)
    .slice(0, 4);
  const first = line[0];
  if (parts.length === 0) return first ? spotsAround(frame, first, gap) : [];
  return parts.flatMap(({ a, b }) => {
    const angle = readableAlong(frame, a, b);
    return [0.5, 0.3, 0.7, 0.15, 0.85].flatMap((t) =>
      ([1, -1] as const).map((up): LabelSpot => ({ at: lerp2(a, b, t), angle, side: [0, up], gap: gap * frame.point })),
    );
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
