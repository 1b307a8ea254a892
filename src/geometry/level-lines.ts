import { planSpans } from "./clearance.ts";
import { asClipped, fromClipped, intersectionOf } from "./clip.ts";
import type { Face } from "./face.ts";
import { lerp2, type Point2 } from "./point.ts";
import type { Polygon } from "./polygon.ts";

/** Below this slope a face counts as level: it falls less than a thousandth of an inch in 80 ft. */
const LEVEL = 1e-6;

/** Whether a face has no line of equal elevation: all of it is at one. */
const isLevelFace = ({ plane }: Face): boolean => Math.hypot(plane.gx, plane.gy) < LEVEL;

/** The parts of the line at one elevation (building space, inches) that lie on a sloped face; none on a level one, nor beside the face. */
export function levelLines(face: Face, elevation: number): [Point2, Point2][] {
  const across = acrossAt(face, elevation);
  if (!across) return [];
  const [from, to] = across;
  return planSpans([...from, 0], [...to, 0], face).map(([a, b]) => [lerp2(from, to, a), lerp2(from, to, b)]);
}

/** What of a face lies below an elevation, in plan; of a level one all or nothing. */
export function partBelow(face: Face, elevation: number): Polygon[] {
  const { polygon, plane, box } = face;
  if (box.max[2] < elevation) return [polygon];
  const across = acrossAt(face, elevation);
  if (!across || box.min[2] >= elevation) return [];
  const [from, to] = across;
  // From the line as far downhill as the face can reach.
  const reach = reachOf(face) / Math.hypot(plane.gx, plane.gy);
  const down = ([x, y]: Point2): Point2 => [x - plane.gx * reach, y - plane.gy * reach];
  const half: Polygon = { outline: [from, to, down(to), down(from)], holes: [] };
  return fromClipped(intersectionOf(asClipped(polygon), asClipped(half)));
}

/** A stretch of the line of the face's plane at an elevation, longer than the face is wide. */
function acrossAt(face: Face, elevation: number): [Point2, Point2] | undefined {
  if (isLevelFace(face)) return undefined;
  const { plane, origin, lift } = face;
  const steep = Math.hypot(plane.gx, plane.gy);
  const [ux, uy] = [plane.gx / steep, plane.gy / steep];
  const off = (elevation - origin[2] - lift) / steep;
  const reach = reachOf(face);
  const at = (along: number): Point2 => [origin[0] + ux * off - uy * along, origin[1] + uy * off + ux * along];
  return [at(-reach), at(reach)];
}

/** No point of the face is farther from its origin, in plan. */
const reachOf = ({ box: { min, max } }: Face): number => Math.hypot(max[0] - min[0], max[1] - min[1]);
