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
  let ways = waysPast(apart[0]!, slack);
  ways.pass(apart[1]!);
  for (let i = 2; i < apart.length; i++) {
    const to = apart[i]!;
    let straight = ways.leadTo(to);
    // A line that has turned back may end before what it passed: then every corner is asked.
    if (straight === undefined) {
      straight = true;
      for (let between = anchor + 1; between < i && straight; between++)
        straight = aside(apart[anchor]!, to, apart[between]!) <= slack;
    }
    if (!straight) {
      anchor = i - 1;
      kept.push(apart[anchor]!);
      ways = waysPast(apart[anchor]!, slack);
    }
    ways.pass(to);
  }
  kept.push(apart.at(-1)!);
  if (closed && kept.length > 3) {
    if (aside(kept.at(-2)!, kept[0]!, kept.at(-1)!) <= slack) kept.pop();
    if (aside(kept.at(-1)!, kept[1]!, kept[0]!) <= slack) kept.shift();
  }
  return kept;
}

/** The directions from a place that pass all of some points within `slack`. */
function waysPast([x, y]: Point2, slack: number) {
  // Angles from the direction of the first point that is not next to the place.
  let [ux, uy] = [0, 0];
  let [least, most] = [-Math.PI, Math.PI];
  let farthest = 0;
  const angleTo = (dx: number, dy: number): number => Math.atan2(ux * dy - uy * dx, ux * dx + uy * dy);
  return {
    /** One more point that has to be passed. */
    pass([px, py]: Point2): void {
      const [dx, dy] = [px - x, py - y];
      const far = Math.hypot(dx, dy);
      farthest = Math.max(farthest, far);
      if (far <= slack) return;
      if (ux === 0 && uy === 0) [ux, uy] = [dx, dy];
      const [angle, half] = [angleTo(dx, dy), Math.asin(slack / far)];
      least = Math.max(least, angle - half);
      most = Math.min(most, angle + half);
    },
    /** Whether the straight way to a place passes them; undefined where that place lies nearer than one of them. */
    leadTo([px, py]: Point2): boolean | undefined {
      const [dx, dy] = [px - x, py - y];
      if (Math.hypot(dx, dy) < farthest) return undefined;
      if (ux === 0 && uy === 0) return true;
      const angle = angleTo(dx, dy);
      return angle >= least && angle <= most;
    },
  };
}

/** How far a point lies from the stretch between two others. */
function aside(a: Point2, b: Point2, p: Point2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square)) : 0;
  return Math.hypot(p[0] - a[0] - dx * t, p[1] - a[1] - dy * t);
}
