import Delaunator from "delaunator";
import { orient2d } from "robust-predicates";
import { distance2, type Point2, type Point3 } from "./point.ts";

/** Two of a list of points, by their places in it. */
export type Pair = readonly [number, number];
/** Three of a list of points, counter-clockwise in plan. */
export type Triple = readonly [number, number, number];

/** Why no surface can be laid through points and along lines between them. Points and lines by their places in their lists. */
export type TriangulationFault =
  | { readonly is: "one-place"; readonly points: Pair }
  | { readonly is: "one-line" }
  | { readonly is: "no-such-point"; readonly line: number }
  | { readonly is: "no-length"; readonly line: number }
  | { readonly is: "line-twice"; readonly lines: Pair }
  | { readonly is: "lines-cross"; readonly lines: Pair }
  | { readonly is: "line-through-point"; readonly line: number; readonly point: number };

/** Triangles between points that together fill their convex hull, and keep the lines asked for as edges. */
export interface Triangulation {
  readonly triangles: readonly Triple[];
  /** Triangles along the hull no higher than `near`: three points that were meant to lie on one line. */
  readonly slivers: readonly Triple[];
  /** The convex hull, counter-clockwise. */
  readonly hull: readonly number[];
}

/** Positive where c lies to the left of the way from a to b; exact. robust-predicates counts the other way round. */
const left = (a: Point2, b: Point2, c: Point2): number => -orient2d(a[0], a[1], b[0], b[1], c[0], c[1]);

/** How far p is from the segment a-b. */
export function distanceToSegment(p: Point2, a: Point2, b: Point2): number {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const length2 = ux * ux + uy * uy;
  const t = length2 > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / length2)) : 0;
  return Math.hypot(p[0] - a[0] - t * ux, p[1] - a[1] - t * uy);
}

/**
 * Everything that stands against a surface through these points along these lines: empty where `triangulate` can do it. Points
 * nearer to each other than `near`, or to a line that does not end at them, count as lying there.
 */
export function triangulationFaults(
  points: readonly Point2[],
  lines: readonly Pair[],
  near: number,
): TriangulationFault[] {
  const faults: TriangulationFault[] = [];
  for (let i = 0; i < points.length; i++)
    for (let j = i + 1; j < points.length; j++)
      if (distance2(points[i]!, points[j]!) <= near) faults.push({ is: "one-place", points: [i, j] });
  if (faults.length === 0 && onOneLine(points, near)) faults.push({ is: "one-line" });
  const sound: number[] = [];
  for (const [n, [a, b]] of lines.entries()) {
    if (!points[a] || !points[b]) faults.push({ is: "no-such-point", line: n });
    else if (a === b) faults.push({ is: "no-length", line: n });
    else {
      const same = sound.find((m) => lines[m]!.includes(a) && lines[m]!.includes(b));
      if (same !== undefined) faults.push({ is: "line-twice", lines: [same, n] });
      else sound.push(n);
    }
  }
  for (const [k, n] of sound.entries()) {
    const [a, b] = lines[n]!;
    for (const [point, at] of points.entries())
      if (point !== a && point !== b && distanceToSegment(at, points[a]!, points[b]!) <= near)
        faults.push({ is: "line-through-point", line: n, point });
    for (const m of sound.slice(k + 1)) {
      const [c, d] = lines[m]!;
      if (cross(points, a, b, c, d)) faults.push({ is: "lines-cross", lines: [n, m] });
    }
  }
  return faults;
}

function onOneLine(points: readonly Point2[], near: number): boolean {
  const [first] = points;
  if (!first) return true;
  const far = points.reduce((best, p) => (distance2(first, p) > distance2(first, best) ? p : best), first);
  const length = distance2(first, far);
  return points.every((p) => Math.abs(left(first, far, p)) <= near * length);
}

/** Whether a-b and c-d, which share no end, cross between their ends. */
function cross(points: readonly Point2[], a: number, b: number, c: number, d: number): boolean {
  if (a === c || a === d || b === c || b === d) return false;
  const [pa, pb, pc, pd] = [points[a]!, points[b]!, points[c]!, points[d]!];
  return left(pa, pb, pc) > 0 !== left(pa, pb, pd) > 0 && left(pc, pd, pa) > 0 !== left(pc, pd, pb) > 0;
}

/** Angles that differ by less than this from what would decide between two diagonals do not: traced rectangles are no truer. */
const EVEN = 1e-3;

/**
 * The Delaunay triangulation of points, in plan, that keeps these lines as edges. Where two ways across four points are as good, as in
 * every rectangle, the one that makes the lower surface is taken, so that the answer hangs neither on the order of the
 * points nor on the way the plan is turned. Throws where `triangulationFaults` has something to say.
 */
export function triangulate(points: readonly Point3[], lines: readonly Pair[], near: number): Triangulation {
  const [fault] = triangulationFaults(
    points.map(([x, y]) => [x, y] as const),
    lines,
    near,
  );
  if (fault) throw new RangeError(`no triangulation: ${fault.is}`);
  const mesh = new Mesh(points);
  for (const [a, b] of lines) mesh.join(a, b);
  mesh.settle();
  const { kept, slivers } = mesh.peeled(near);
  return { triangles: kept, slivers, hull: mesh.hull };
}

/** Triangles by their edges: to the left of the way from a to b lies `apex(a, b)`. */
class Mesh {
  readonly hull: number[];
  private readonly plan: readonly Point2[];
  private readonly apexes = new Map<number, number>();
  private readonly fixed = new Set<number>();

  constructor(private readonly points: readonly Point3[]) {
    const [x0, y0] = points[0]!;
    // About the first point, so that a plan far from its origin loses no digits.
    this.plan = points.map(([x, y]) => [x - x0, y - y0]);
    const { triangles, hull } = Delaunator.from(this.plan as [number, number][]);
    for (let i = 0; i < triangles.length; i += 3) {
      const [a, b, c] = [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!];
      const turn = left(this.plan[a]!, this.plan[b]!, this.plan[c]!);
      if (turn !== 0) this.add(turn > 0 ? [a, b, c] : [a, c, b]);
    }
    const ring = [...hull];
    const [a, b] = [this.plan[ring[0]!]!, this.plan[ring[1]!]!];
    this.hull = ring.some((k) => left(a, b, this.plan[k]!) < 0) ? ring.reverse() : ring;
  }

  private key = (a: number, b: number): number => a * this.points.length + b;
  private apex = (a: number, b: number): number | undefined => this.apexes.get(this.key(a, b));

  private add([a, b, c]: Triple): void {
    this.apexes.set(this.key(a, b), c);
    this.apexes.set(this.key(b, c), a);
    this.apexes.set(this.key(c, a), b);
  }

  /** Edges with a triangle to both sides, each once. */
  private inner(): Pair[] {
    const n = this.points.length;
    return [...this.apexes.keys()]
      .map((key): Pair => [Math.floor(key / n), key % n])
      .filter(([a, b]) => a < b && this.apex(b, a) !== undefined);
  }

  /** Turns the edge a-b into the other diagonal of its two triangles, where these make a convex quadrilateral. */
  private flip(a: number, b: number): Pair | undefined {
    const c = this.apex(a, b);
    const d = this.apex(b, a);
    if (c === undefined || d === undefined || !cross(this.plan, a, b, c, d)) return undefined;
    if (
      left(this.plan[c]!, this.plan[d]!, this.plan[a]!) === 0 ||
      left(this.plan[c]!, this.plan[d]!, this.plan[b]!) === 0
    )
      return undefined;
    this.apexes.delete(this.key(a, b));
    this.apexes.delete(this.key(b, a));
    this.add([a, d, c]);
    this.add([d, b, c]);
    return [c, d];
  }

  /** Makes a-b an edge: those in its way are turned, one after the other, until none is. */
  join(a: number, b: number): void {
    this.fixed.add(this.key(a, b)).add(this.key(b, a));
    const inTheWay = this.inner().filter(([c, d]) => cross(this.plan, a, b, c, d));
    let tries = (inTheWay.length + 2) ** 2 * 8;
    for (let edge = inTheWay.shift(); edge; edge = inTheWay.shift()) {
      if (tries-- < 0) throw new Error("a line cannot be made an edge");
      const turned = this.flip(...edge) ?? edge;
      if (cross(this.plan, a, b, ...turned)) inTheWay.push(turned);
    }
  }

  /** Turns every edge that is free to be until each is the better diagonal; then, of those as good, until each is the lower. */
  settle(): void {
    for (const better of [this.isRounder, this.isLower]) {
      let turned = true;
      for (let round = 0; turned && round < 8 * this.points.length; round++) {
        turned = false;
        for (const [a, b] of this.inner())
          if (!this.fixed.has(this.key(a, b)) && better(a, b) && this.flip(a, b)) turned = true;
      }
    }
  }

  /** The sine of the two angles opposite an edge together: negative where the other diagonal is the Delaunay one, near 0 where both are. */
  private opposite(a: number, b: number): number {
    const angles = [this.apex(a, b), this.apex(b, a)].map((c) => {
      const [x, y] = this.plan[c!]!;
      const [ax, ay] = [this.plan[a]![0] - x, this.plan[a]![1] - y];
      const [bx, by] = [this.plan[b]![0] - x, this.plan[b]![1] - y];
      return Math.atan2(Math.abs(ax * by - ay * bx), ax * bx + ay * by);
    });
    return Math.sin(angles[0]! + angles[1]!);
  }

  private isRounder = (a: number, b: number): boolean =>
    this.apex(a, b) !== undefined && this.apex(b, a) !== undefined && this.opposite(a, b) < -EVEN;

  private isLower = (a: number, b: number): boolean => {
    const [c, d] = [this.apex(a, b), this.apex(b, a)];
    if (c === undefined || d === undefined || Math.abs(this.opposite(a, b)) > EVEN) return false;
    if (!cross(this.plan, a, b, c, d)) return false;
    const along = (p: number, q: number, r: number, s: number): number => {
      const [from, to] = [
        left(this.plan[r]!, this.plan[s]!, this.plan[p]!),
        left(this.plan[r]!, this.plan[s]!, this.plan[q]!),
      ];
      const t = from / (from - to);
      return this.points[p]![2] + (this.points[q]![2] - this.points[p]![2]) * t;
    };
    return along(c, d, a, b) < along(a, b, c, d) - 1e-9;
  };

  /** All triangles, parted into those to keep and the slivers along the hull. */
  peeled(near: number): { kept: Triple[]; slivers: Triple[] } {
    const slivers: Triple[] = [];
    const taken = new Set<string>();
    const name = (triple: Triple): string => [...triple].sort((a, b) => a - b).join();
    // Each edge with the hull edge it came out from behind: nothing farther than `near` from that is a sliver.
    const open = this.hull.map((a, i) => {
      const b = this.hull[(i + 1) % this.hull.length]!;
      return { a, b, p: this.plan[a]!, q: this.plan[b]! };
    });
    for (let edge = open.pop(); edge; edge = open.pop()) {
      const { a, b, p, q } = edge;
      const c = this.apex(a, b);
      if (c === undefined || this.fixed.has(this.key(a, b)) || distanceToSegment(this.plan[c]!, p, q) > near) continue;
      taken.add(name([a, b, c]));
      slivers.push([a, b, c]);
      open.push({ a, b: c, p, q }, { a: c, b, p, q });
    }
    const kept: Triple[] = [];
    for (const [key, c] of this.apexes) {
      const [a, b] = [Math.floor(key / this.points.length), key % this.points.length];
      if (a < b && a < c && !taken.has(name([a, b, c]))) kept.push([a, b, c]);
    }
    return { kept, slivers };
  }
}
