import { orient2d } from "robust-predicates";
import { type Face, makeFace } from "./face.ts";
import { overlap } from "./overlap.ts";
import { insideOrOnEdges, planDistance2 } from "./plan-edges.ts";
import { type Plane, planeThrough } from "./plane.ts";
import { distance2, type Point2, type Point3 } from "./point.ts";
import { labelPoint, locate, type Polygon, type Ring } from "./polygon.ts";
import { meanWidth, splitPolygon } from "./split-polygon.ts";
import { distanceToSegment, type Triangulation, type Triple } from "./triangulation.ts";

/** A face of a folded surface and the triangle whose plane it lies in. */
export interface FoldedFace {
  readonly face: Face;
  readonly triangle: Triple;
}

/** A polygon parted into what lies under triangles, as bounded faces, and what lies beyond them all. */
export interface FoldedFaces {
  /** Parts of the polygon, each with the faces that fill it. The polygon itself where nothing lies beyond. */
  readonly within: readonly { readonly polygon: Polygon; readonly faces: readonly FoldedFace[] }[];
  readonly beyond: readonly Polygon[];
}

/**
 * Cuts a plan polygon by triangles between points, each with the plane through its three corners. A strip of the polygon that
 * reaches beyond the triangles by no more than `near` is an edge drawn not quite true: the plane beside it goes on over it. What
 * reaches farther stays without a surface.
 */
export function foldedFaces(
  polygon: Polygon,
  points: readonly Point3[],
  { triangles, slivers, hull }: Triangulation,
  near: number,
): FoldedFaces {
  const corner = (k: number): Point2 => [points[k]![0], points[k]![1]];
  const outlineOf = (list: readonly number[]): Polygon => ({ outline: list.map(corner), holes: [] });
  const ring = hull.map(corner);
  const outside = insideConvex(ring, polygon.outline) ? [] : splitPolygon(polygon, [outlineOf(hull)]).beyond;
  const reachesFar = (piece: Polygon): boolean => piece.outline.some((at) => distanceToConvex(ring, at) > near);
  const beyond = outside.filter(reachesFar);
  const beside = outside.filter((piece) => !reachesFar(piece)).flatMap((piece) => byHullEdge(piece, ring, near));
  const strips = [...beside, ...slivers.map(outlineOf)];
  const planes = triangles.map((triangle) => {
    const [a, b, c] = triangle;
    const plane = planeThrough(points[a]!, points[b]!, points[c]!);
    // Thinner than a plane can be told from: what lies there takes its neighbour's.
    return plane ? { triangle, plane, alone: makeFace(outlineOf(triangle), plane) } : undefined;
  });
  const sound = planes.filter((each) => each !== undefined);
  if (sound.length === 0) return { within: [], beyond: [polygon] };
  strips.push(...triangles.filter((_, i) => !planes[i]).map(outlineOf));
  const pieces = strips.flatMap((strip) => cutAtPoints(strip, points, near));
  // Everything is cut from what was given, not from what was cut already: rounded corners would be cut once more.
  const faces = sound.flatMap(({ triangle, plane }) => facesOf(polygon, outlineOf(triangle), triangle, plane));
  for (const piece of pieces) {
    const { triangle, plane } = nearestTo(sound, labelPoint(piece));
    faces.push(...facesOf(polygon, piece, triangle, plane));
  }
  const parts = beyond.length === 0 ? [polygon] : splitPolygon(polygon, beyond).beyond;
  const holds = (part: Polygon, { face }: FoldedFace): boolean =>
    parts.length === 1 || locate(part, labelPoint(face.polygon)) !== "outside";
  const within = parts.map((part) => ({ polygon: part, faces: faces.filter((each) => holds(part, each)) }));
  return { within: within.filter(({ faces }) => faces.length > 0), beyond };
}

/** A strip along a convex hull, counter-clockwise, part by part: what lies square beside each of its edges, and what lies round the corner after it. */
function byHullEdge(strip: Polygon, ring: Ring, near: number): Polygon[] {
  const reach = 2 * near;
  const outwards = ring.map((a, i): Point2 => {
    const b = ring[(i + 1) % ring.length]!;
    const length = distance2(a, b);
    return [(reach * (b[1] - a[1])) / length, (reach * (a[0] - b[0])) / length];
  });
  return ring.flatMap((a, i) => {
    const next = (i + 1) % ring.length;
    const b = ring[next]!;
    const beside = [a, b].map((at) => sum(at, outwards[i]!)) as [Point2, Point2];
    const quad: Ring = [a, beside[0], beside[1], b];
    const corner: Ring = [b, beside[1], sum(b, outwards[next]!)];
    return [quad, corner].flatMap((outline) => overlap(strip, { outline, holes: [] }).polygons);
  });
}

/** A strip cut square to its length at every point that lies along it: from one to the next it is beside one triangle. */
function cutAtPoints(strip: Polygon, points: readonly Point3[], near: number): Polygon[] {
  const { outline } = strip;
  const farthest = (from: Point2): Point2 =>
    outline.reduce((a, b) => (distance2(from, b) > distance2(from, a) ? b : a));
  const start = farthest(outline[0]!);
  const end = farthest(start);
  const length = distance2(start, end);
  if (!(length > 0)) return [strip];
  const [ux, uy] = [(end[0] - start[0]) / length, (end[1] - start[1]) / length];
  const along = points
    .filter(([x, y]) => distanceToSegment([x, y], start, end) <= 2 * near)
    .map(([x, y]) => (x - start[0]) * ux + (y - start[1]) * uy)
    .filter((t) => t > near && t < length - near)
    .sort((a, b) => a - b);
  if (along.length === 0) return [strip];
  const wide = length;
  const at = (t: number, side: number): Point2 => [start[0] + t * ux - side * uy, start[1] + t * uy + side * ux];
  return [-wide, ...along].flatMap((from, i) => {
    const to = along[i] ?? length + wide;
    const slab: Ring = [at(from, -wide), at(to, -wide), at(to, wide), at(from, wide)];
    return overlap(strip, { outline: slab, holes: [] }).polygons;
  });
}

const sum = ([ax, ay]: Point2, [bx, by]: Point2): Point2 => [ax + bx, ay + by];

/** What two polygons share. Where the clipper fails on them as they lie, it is asked again with both turned: which edges are in its way depends on that. */
function sharedBy(polygon: Polygon, piece: Polygon): readonly Polygon[] {
  let failed: unknown;
  for (const angle of [0, 0.7, 1.9]) {
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const turned = ({ outline, holes }: Polygon, way: 1 | -1): Polygon => {
      const turn = ([x, y]: Point2): Point2 => [c * x - way * s * y, way * s * x + c * y];
      return angle === 0
        ? { outline, holes }
        : { outline: outline.map(turn), holes: holes.map((hole) => hole.map(turn)) };
    };
    try {
      return overlap(turned(polygon, 1), turned(piece, 1)).polygons.map((part) => turned(part, -1));
    } catch (error) {
      failed = error;
    }
  }
  throw failed;
}

/** Narrower than this a piece is rounding, in the unit of the plan: it holds nothing, and its plane says nothing. */
const LEAST_WIDTH = 1e-6;

function facesOf(polygon: Polygon, piece: Polygon, triangle: Triple, plane: Plane): FoldedFace[] {
  const cut = liesInside(polygon, piece.outline) ? [piece] : sharedBy(polygon, piece);
  return cut.filter((part) => meanWidth(part) > LEAST_WIDTH).map((part) => ({ face: makeFace(part, plane), triangle }));
}

const left = (a: Point2, b: Point2, p: Point2): number => -orient2d(a[0], a[1], b[0], b[1], p[0], p[1]);

/** Whether a counter-clockwise triangle lies wholly in a polygon, edges included; no for some that do and touch its edges. */
function liesInside(polygon: Polygon, corners: Ring): boolean {
  if (corners.length !== 3 || corners.some((at) => locate(polygon, at) === "outside")) return false;
  const middle: Point2 = [
    (corners[0]![0] + corners[1]![0] + corners[2]![0]) / 3,
    (corners[0]![1] + corners[1]![1] + corners[2]![1]) / 3,
  ];
  if (locate(polygon, middle) === "outside") return false;
  return [polygon.outline, ...polygon.holes].every((ring) =>
    ring.every((p, i) => {
      const q = ring[(i + 1) % ring.length]!;
      return corners.some((a, k) => {
        const b = corners[(k + 1) % 3]!;
        return left(a, b, p) <= 0 && left(a, b, q) <= 0;
      });
    }),
  );
}

/** Whether all points lie in a counter-clockwise convex ring, its edges included; exact. */
const insideConvex = (ring: Ring, points: readonly Point2[]): boolean =>
  points.every((p) => ring.every((a, i) => left(a, ring[(i + 1) % ring.length]!, p) >= 0));

function distanceToConvex(ring: Ring, p: Point2): number {
  if (insideConvex(ring, [p])) return 0;
  return Math.min(...ring.map((a, i) => distanceToSegment(p, a, ring[(i + 1) % ring.length]!)));
}

function nearestTo<T extends { readonly alone: Face }>(list: readonly T[], at: Point2): T {
  const apart = ({ alone: { edges, origin } }: T): number => {
    const [x, y] = [at[0] - origin[0], at[1] - origin[1]];
    return insideOrOnEdges(edges, x, y) ? 0 : planDistance2(edges, x, y);
  };
  return list.reduce((best, each) => (apart(each) < apart(best) ? each : best));
}
