import type { Face } from "../../src/geometry/face.ts";
import { elevationAt } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";

/**
 * The slow twin of the distance functions: it looks at points only, and shares no code with them but the plane and the
 * rings. Inside is told by angles summed round the point, distances to edges point by point.
 */
export function pointToFace([x, y, z]: Point3, { polygon, plane }: Face): number {
  const rings = [polygon.outline, ...polygon.holes].filter((ring) => ring.length > 0);
  const n = Math.hypot(plane.gx, plane.gy, 1);
  const gap = (elevationAt(plane, [x, y]) - z) / n;
  const foot: Point2 = [x - (gap * plane.gx) / n, y - (gap * plane.gy) / n];
  const turns = rings.map((ring) => Math.abs(Math.round(angleAround(ring, foot) / (2 * Math.PI))));
  if (turns.reduce((sum, t) => sum + t, 0) % 2 === 1) return Math.abs(gap);
  let least = Number.POSITIVE_INFINITY;
  for (const ring of rings) {
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      least = Math.min(least, pointToSegment([x, y, z], [...a, elevationAt(plane, a)], [...b, elevationAt(plane, b)]));
    });
  }
  return least;
}

function angleAround(ring: readonly Point2[], [x, y]: Point2): number {
  return ring.reduce((sum, a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    const turn = Math.atan2(b[1] - y, b[0] - x) - Math.atan2(a[1] - y, a[0] - x);
    return sum + turn - 2 * Math.PI * Math.round(turn / (2 * Math.PI));
  }, 0);
}

function pointToSegment(p: Point3, a: Point3, b: Point3): number {
  const ab = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
  const ap = Math.hypot(p[0] - a[0], p[1] - a[1], p[2] - a[2]);
  if (ab === 0) return ap;
  const along = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1]) + (p[2] - a[2]) * (b[2] - a[2])) / ab;
  if (along <= 0) return ap;
  if (along >= ab) return Math.hypot(p[0] - b[0], p[1] - b[1], p[2] - b[2]);
  return Math.sqrt(Math.max(0, ap * ap - along * along));
}

/** The point at t on the segment. */
export const pointAt = (p: Point3, q: Point3, t: number): Point3 => [
  p[0] * (1 - t) + q[0] * t,
  p[1] * (1 - t) + q[1] * t,
  p[2] * (1 - t) + q[2] * t,
];

/** Bounds [low, high] on the distance from segment to face from samples: distance changes no faster than the point moves. */
export function sampledDistance(p: Point3, q: Point3, face: Face, samples = 400): [low: number, high: number] {
  let high = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= samples; i++) high = Math.min(high, pointToFace(pointAt(p, q, i / samples), face));
  const length = Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]);
  return [high - length / samples / 2, high];
}
