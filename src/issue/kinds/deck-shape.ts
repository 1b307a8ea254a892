import { edgeName, FLAT_IN, foldsOf } from "../../check/spot-folds.ts";
import { foldWords } from "../../check/spot-reasons.ts";
import { SPOT_NEAR_IN } from "../../check/spot-surface.ts";
import type { PictureItem } from "../../geometry/picture.ts";
import { distance2, lerp2, type Point2, type Point3 } from "../../geometry/point.ts";
import { type Pair, triangulate, triangulationFaults } from "../../geometry/triangulation.ts";
import { linePairs, type SpotsShape } from "../../job/fold-lines.ts";
import type { Area, FoldLine } from "../../job/schema.ts";
import { formatLength } from "../../units/format-length.ts";
import { toInches } from "../../units/length.ts";
import { DECK_INK } from "../inks.ts";
import { linePath } from "../paths.ts";
import type { DrawingContext, Label } from "./drawing.ts";
import { spotsAlong, spotsAround } from "./label-spots.ts";

type Context = Omit<DrawingContext, "findings" | "along">;

/** Longest arrow of a slope, points of paper. */
const ARROW = 60;

/** How each kind of line is drawn: told apart without colour, by dash. Lengths in points of paper. */
const FOLD_DASH: Readonly<Record<FoldLine["kind"], readonly number[]>> = {
  ridge: [],
  hip: [9, 1.5],
  valley: [5, 1.5, 1, 1.5],
  drain: [4, 2],
  edge: [1.5, 1.5],
};

/**
 * Where a deck folds between its spots without a recorded line, and where its surface ends, by places in the list of spots: the edges of its
 * triangles, less those across a flat part. None where there is no surface.
 */
export function unrecordedFolds(shape: SpotsShape, inchesPerUnit: number | undefined): Pair[] {
  const { spots } = shape;
  if (spots.length < 4 || inchesPerUnit === undefined || spots.some(({ elevation }) => !elevation)) return [];
  const points = spots.map(
    ({ at: [x, y], elevation }): Point3 => [x * inchesPerUnit, y * inchesPerUnit, elevation ? toInches(elevation) : 0],
  );
  const pairs = linePairs(shape.lines);
  const plan = points.map(([x, y]): Point2 => [x, y]);
  if (triangulationFaults(plan, pairs, SPOT_NEAR_IN).length > 0) return [];
  const recorded = new Set(pairs.map(edgeName));
  return foldsOf(triangulate(points, pairs, SPOT_NEAR_IN), points).flatMap(({ edge, by }) =>
    recorded.has(edgeName(edge)) || (by !== undefined && Math.abs(by) < FLAT_IN) ? [] : [edge],
  );
}

function foldMarks(shape: SpotsShape, { frame: { point }, inchesPerUnit }: Context): PictureItem[] {
  const { spots, lines = [] } = shape;
  const thin = { stroke: DECK_INK, width: 0.3 * point, opacity: 0.5, dash: [0.8 * point, 1.6 * point] };
  const between = ([a, b]: readonly [number, number]): Point2[] =>
    [spots[a], spots[b]].flatMap((spot) => (spot ? [spot.at] : []));
  return [
    ...unrecordedFolds(shape, inchesPerUnit).map((pair) => linePath(between(pair), thin)),
    ...lines.flatMap((line, i) => {
      const ends = between(linePairs(lines)[i]!);
      const dash = FOLD_DASH[line.kind].map((length) => length * point);
      const paint = { stroke: DECK_INK, width: 0.7 * point, opacity: 0.85, ...(dash.length > 0 ? { dash } : {}) };
      return ends.length === 2 ? [linePath(ends, paint)] : [];
    }),
  ];
}

function foldLabels({ spots, lines = [] }: SpotsShape, { frame }: Context): Label[] {
  return lines.flatMap(({ between: [a, b], kind }) => {
    const [one, other] = [spots[a - 1], spots[b - 1]];
    if (!one || !other) return [];
    const text = { text: foldWords[kind], size: 5.5 * frame.point, face: "condensed" as const, ink: DECK_INK };
    return [{ lines: [text], spots: spotsAlong(frame, [one.at, other.at], 1.5) }];
  });
}

/** Arrow downhill for a slope; for spots small crosses, the lines between them, and thinner where else the deck folds. */
export function shapeMarks(area: Area, context: Context): PictureItem[] {
  const { point } = context.frame;
  const shape = area.elevation.shape;
  const paint = { stroke: DECK_INK, width: 0.8 * point, opacity: 0.85 };
  if (shape.is === "spots") {
    const crosses = shape.spots.map(({ at: [x, y] }): PictureItem => {
      const r = 3 * point;
      return {
        type: "path",
        steps: [
          ["M", x - r, y],
          ["L", x + r, y],
          ["M", x, y - r],
          ["L", x, y + r],
        ],
        ...paint,
      };
    });
    return [...foldMarks(shape, context), ...crosses];
  }
  if (shape.is !== "slope") return [];
  const length = distance2(shape.point, shape.towards);
  if (length === 0) return [];
  const [ux, uy] = [(shape.towards[0] - shape.point[0]) / length, (shape.towards[1] - shape.point[1]) / length];
  const reach = Math.min(length, ARROW * point);
  const end: Point2 = [shape.point[0] + ux * reach, shape.point[1] + uy * reach];
  const barb = (side: number): Point2 => [
    end[0] - ux * 6 * point - side * uy * 2.2 * point,
    end[1] - uy * 6 * point + side * ux * 2.2 * point,
  ];
  return [
    linePath([shape.point, end], paint),
    linePath([barb(1), end, barb(-1)], { fill: DECK_INK, opacity: 0.85 }, true),
  ];
}

/** Words of a slope along its arrow; beside spots their numbers and elevations, along lines what they are. */
export function shapeLabels(area: Area, context: Context): Label[] {
  const { frame, job } = context;
  const shape = area.elevation.shape;
  const words = (text: string) => ({ text, size: 6.5 * frame.point, face: "condensed" as const, ink: DECK_INK });
  if (shape.is === "slope") {
    const length = distance2(shape.point, shape.towards);
    if (length === 0) return [];
    const end = lerp2(shape.point, shape.towards, Math.min(1, (ARROW * frame.point) / length));
    return [{ lines: [words(shape.text)], spots: spotsAlong(frame, [shape.point, end], 2.5) }];
  }
  if (shape.is !== "spots") return [];
  const ofSpots = shape.spots.map(({ at, elevation }, i): Label => {
    const text = elevation ? formatLength(toInches(elevation), job.settings.job.system) : "no elevation";
    return { lines: [words(`${i + 1}: ${text}`)], spots: spotsAround(frame, at, 4) };
  });
  return [...ofSpots, ...foldLabels(shape, context)];
}
