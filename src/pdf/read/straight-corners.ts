import { distance2, type Point2 } from "../../geometry/point.ts";

/**
 * The corners of a line without those that lie within `slack` of the straight way past them, and without repeated ones.
 * Of a closed line every corner is asked, and the first is not repeated at the end.
 */
export function withoutStraightCorners(points: readonly Point2[], slack: number, closed: boolean): Point2[] {
  const apart = points.filter((p, i) => i === 0 || distance2(p, points[i - 1]!) > slack);
  if (closed && apart.length > 1 && distance2(apart[0]!, apart.at(-1)!) <= slack) apart.pop();
  if (apart.length < 3) return apart;
  const kept: Point2[] = [apart[0]!];
  let anchor = 0;
  for (let i = 2; i < apart.length; i++) {
    let straight = true;
    for (let between = anchor + 1; between < i && straight; between++)
      straight = aside(apart[anchor]!, apart[i]!, apart[between]!) <= slack;
    if (straight) continue;
    anchor = i - 1;
    kept.push(apart[anchor]!);
  }
  kept.push(apart.at(-1)!);
  if (closed && kept.length > 3) {
    if (aside(kept.at(-2)!, kept[0]!, kept.at(-1)!) <= slack) kept.pop();
    if (aside(kept.at(-1)!, kept[1]!, kept[0]!) <= slack) kept.shift();
  }
  return kept;
}

/** How far a point lies from the stretch between two others. */
function aside(a: Point2, b: Point2, p: Point2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square)) : 0;
  return Math.hypot(p[0] - a[0] - dx * t, p[1] - a[1] - dy * t);
}
