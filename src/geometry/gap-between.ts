import type { Point2 } from "./point.ts";
import { area as areaOf, type Box2, type Polygon, type Ring } from "./polygon.ts";
import { meanWidth, splitPolygon } from "./split-polygon.ts";

/** A strip between two polygons that face each other and do not meet; in the unit of their points. */
export interface Gap {
  /** Mean width of its widest piece. */
  readonly width: number;
  /** Length of all pieces together. */
  readonly length: number;
  /** The middle of the longest piece. */
  readonly at: Point2;
}

/** A polygon with the box round it. */
export interface Plot {
  readonly polygon: Polygon;
  readonly box: Box2;
}

/** What counts as a gap. */
export interface GapLimits {
  /** Narrower than this is how edges are drawn that do meet. */
  readonly narrowest: number;
  /** Edges farther apart than this are no neighbours. */
  readonly widest: number;
  readonly shortest: number;
}

/** Edges that run this much off each other, as the sine of the angle between them, are not side by side. */
const ASKEW = 0.35;

/**
 * The gap between two plan polygons that do not overlap, or undefined where they meet, or lie apart. It is looked for between edges that
 * run side by side; what `others` cover of it is none.
 */
export function gapBetween(
  a: Plot,
  b: Plot,
  others: () => readonly Polygon[],
  { narrowest, widest, shortest }: GapLimits,
): Gap | undefined {
  const strips: Ring[] = [];
  const ofB = edgesNear(b.polygon, a.box, widest);
  for (const [p, q] of ofB.length === 0 ? [] : edgesNear(a.polygon, b.box, widest))
    for (const [r, s] of ofB) {
      const strip = stripBetween(p, q, r, s, widest);
      if (strip) strips.push(strip);
    }
  const wide = strips.filter((strip) => meanWidth({ outline: strip, holes: [] }) > narrowest);
  if (wide.length === 0) return undefined;
  const taken = [a.polygon, b.polygon, ...others()];
  const open = wide
    .flatMap((outline) => splitPolygon({ outline, holes: [] }, taken).beyond)
    .map((piece) => ({ piece, ...sizeOf(piece) }))
    .filter(({ width, length }) => width > narrowest && width <= widest && length >= shortest);
  const [first] = open;
  if (!first) return undefined;
  const longest = open.reduce((best, each) => (each.length > best.length ? each : best), first);
  return {
    width: Math.max(...open.map(({ width }) => width)),
    length: open.reduce((sum, { length }) => sum + length, 0),
    at: middleOf(longest.piece.outline),
  };
}

/** Length and width of the rectangle of the same area whose edges are together as long. */
function sizeOf(piece: Polygon): { readonly length: number; readonly width: number } {
  const size = areaOf(piece);
  const half = size > 0 ? size / meanWidth(piece) : 0;
  const length = (half + Math.sqrt(Math.max(0, half * half - 4 * size))) / 2;
  return { length, width: length > 0 ? size / length : 0 };
}

/** The edges of a polygon that come within reach of the box round another. */
function edgesNear({ outline, holes }: Polygon, { min, max }: Box2, reach: number): (readonly [Point2, Point2])[] {
  const edges: (readonly [Point2, Point2])[] = [];
  for (const ring of [outline, ...holes])
    for (let i = 0; i < ring.length; i++) {
      const p = ring[i]!;
      const q = ring[(i + 1) % ring.length]!;
      const beside =
        Math.max(p[0], q[0]) < min[0] - reach ||
        Math.min(p[0], q[0]) > max[0] + reach ||
        Math.max(p[1], q[1]) < min[1] - reach ||
        Math.min(p[1], q[1]) > max[1] + reach;
      if (!beside) edges.push([p, q]);
    }
  return edges;
}

/** The strip between the parts of two edges that lie side by side, counter-clockwise; undefined where they do not, or touch all along. */
function stripBetween(p: Point2, q: Point2, r: Point2, s: Point2, widest: number): Ring | undefined {
  const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
  const other = Math.hypot(s[0] - r[0], s[1] - r[1]);
  if (!(length > 0 && other > 0)) return undefined;
  const [ux, uy] = [(q[0] - p[0]) / length, (q[1] - p[1]) / length];
  if (Math.abs(ux * (s[1] - r[1]) - uy * (s[0] - r[0])) > ASKEW * other) return undefined;
  const along = ([x, y]: Point2): number => (x - p[0]) * ux + (y - p[1]) * uy;
  const off = ([x, y]: Point2): number => (y - p[1]) * ux - (x - p[0]) * uy;
  const [near, far] = along(r) <= along(s) ? [r, s] : [s, r];
  const [from, to] = [Math.max(0, along(near)), Math.min(length, along(far))];
  if (!(to > from)) return undefined;
  const offAt = (t: number): number => {
    const part = (t - along(near)) / (along(far) - along(near));
    return off(near) + (off(far) - off(near)) * part;
  };
  const [one, two] = [offAt(from), offAt(to)];
  if (one * two < 0 || Math.max(Math.abs(one), Math.abs(two)) > widest) return undefined;
  const at = (t: number, d: number): Point2 => [p[0] + t * ux - d * uy, p[1] + t * uy + d * ux];
  const ring: Point2[] = [at(from, 0), at(to, 0)];
  if (two !== 0) ring.push(at(to, two));
  if (one !== 0) ring.push(at(from, one));
  if (ring.length < 3) return undefined;
  return one + two > 0 ? ring : ring.reverse();
}

function middleOf(ring: Ring): Point2 {
  const sum = ring.reduce<[number, number]>(([x, y], p) => [x + p[0], y + p[1]], [0, 0]);
  return [sum[0] / ring.length, sum[1] / ring.length];
}
