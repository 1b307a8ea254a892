import type { ProfileLine } from "../../check/profile-line.ts";
import type { Point2 } from "../../geometry/point.ts";
import type { ProfileScale } from "./profile-scale.ts";

/** The line in the picture, cut at the lower edge of the plot; undefined when wholly below. */
export function cut(line: ProfileLine, scale: ProfileScale): readonly [Point2, Point2] | undefined {
  const a = scale.toPicture(line.from);
  const b = scale.toPicture(line.to);
  const floor = scale.plot[1];
  if (a[1] < floor && b[1] < floor) return undefined;
  const at = (p: Point2, q: Point2): Point2 => [p[0] + ((q[0] - p[0]) * (floor - p[1])) / (q[1] - p[1]), floor];
  return [a[1] < floor ? at(a, b) : a, b[1] < floor ? at(b, a) : b];
}

/** The line moved up by so much, inches. */
export const shifted = ({ from, to }: ProfileLine, by: number): ProfileLine => ({
  from: { station: from.station, z: from.z + by },
  to: { station: to.station, z: to.z + by },
});
