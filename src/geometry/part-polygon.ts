import { asClipped, type Clipped, differenceOf, fromClipped, intersectionOf, unionOf } from "./clip.ts";
import { boundingBox, type Polygon } from "./polygon.ts";

/** A polygon parted by two sets of others. The parts fill it and share no area; outlines run counter-clockwise, holes clockwise. */
export interface PolygonParts {
  /** Within one of the first set. */
  readonly first: readonly Polygon[];
  /** Within one of the second set, and none of the first. */
  readonly second: readonly Polygon[];
  /** Within none of them. */
  readonly rest: readonly Polygon[];
}

/**
 * Parts a plan polygon by others of the same space, which may overlap each other; the first set counts before the second. All rings have to be
 * sound (`ringProblems`). Parts are cut from what was given, not from one another: a corner rounded in one cut leaves hairs in the next.
 */
export function partPolygon(whole: Polygon, first: readonly Polygon[], second: readonly Polygon[]): PolygonParts {
  const [one, ...more] = first.map(asClipped);
  const inFirst = one ? fromClipped(intersectionOf(asClipped(whole), unionOf(one, ...more))) : [];
  // Each of the second set on its own: what neither lies beyond it, nor in one that counts before it.
  const inSecond = second.flatMap((each, i) => {
    const before = [...first, ...second.slice(0, i)].map(asClipped);
    return fromClipped(differenceOf(asClipped(whole), beyond(each, whole), ...before));
  });
  // Nothing of it is cut off: it stays as it was traced, point by point.
  if (inFirst.length + inSecond.length === 0) return { first: [], second: [], rest: [whole] };
  const rest = differenceOf(asClipped(whole), ...[...first, ...second].map(asClipped));
  return { first: inFirst, second: inSecond, rest: fromClipped(rest) };
}

/** Everything around both polygons that lies outside the first: a frame with its outline cut out, and its holes. */
function beyond(polygon: Polygon, other: Polygon): Clipped[] {
  const { min, max } = boundingBox([...polygon.outline, ...other.outline]);
  const frame: [number, number][] = [
    [min[0] - 1, min[1] - 1],
    [max[0] + 1, min[1] - 1],
    [max[0] + 1, max[1] + 1],
    [min[0] - 1, max[1] + 1],
    [min[0] - 1, min[1] - 1],
  ];
  const [outline, ...holes] = asClipped(polygon);
  return [[frame, outline!], ...holes.map((hole) => [hole])];
}
