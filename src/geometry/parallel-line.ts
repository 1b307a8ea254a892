import { fail, ok, type Result } from "../units/problem.ts";
import { unitTowards } from "./direction.ts";
import { distance2, type Point2 } from "./point.ts";
import { selfCrossings } from "./polygon.ts";

/** A corner whose mitre would lie farther from it than this many distances is as good as a turn back. */
const LONGEST_MITRE = 8;

/**
 * The line that lies beside another, each piece of it parallel to its own at `apart` (in the unit of the points; positive to the left as the
 * line goes, negative to the right), with mitred corners: one point for each. Points at one place stay at one place, and a line that ends where it
 * began is mitred there too. Problems: `parallel.no-length`; `parallel.turns-back` where the line turns back on itself at `vertex` (counted from 1),
 * `parallel.too-tight` where the piece that begins at `vertex` is too short for the distance, `parallel.crosses-itself` where only the other
 * line would.
 */
export function parallelLine(points: readonly Point2[], apart: number): Result<Point2[]> {
  const places = placesOf(points);
  const closed = places.length > 3 && same(places[0]!.at, places.at(-1)!.at);
  const knots = closed ? places.slice(0, -1) : places;
  const count = knots.length;
  if (count < 2) return fail("parallel.no-length");
  const ways = knots
    .slice(0, closed ? count : -1)
    .map(({ at }, i): Point2 => unitTowards(at, knots[(i + 1) % count]!.at)!);
  const moved: Point2[] = [];
  for (const [i, { at, first }] of knots.entries()) {
    const into = ways[closed ? (i + count - 1) % count : i - 1];
    const step = mitre(into ?? ways[i]!, ways[i] ?? into!, apart);
    if (!step) return fail("parallel.turns-back", "", { vertex: first + 1 });
    moved.push([at[0] + step[0], at[1] + step[1]]);
  }
  for (const [i, [ux, uy]] of ways.entries()) {
    const [a, b] = [moved[i]!, moved[(i + 1) % count]!];
    const kept = (b[0] - a[0]) * ux + (b[1] - a[1]) * uy;
    if (!(kept > 1e-6 * Math.abs(apart))) return fail("parallel.too-tight", "", { vertex: knots[i]!.first + 1 });
  }
  const at = (line: readonly Point2[]) => crossings(line, closed);
  if (at(moved) > at(knots.map((knot) => knot.at))) return fail("parallel.crosses-itself");
  const all = closed ? [...moved, moved[0]!] : moved;
  return ok(places.flatMap(({ times }, i) => Array.from({ length: times }, () => all[i]!)));
}

const same = (a: Point2, b: Point2): boolean => distance2(a, b) <= 1e-9 * Math.max(1, Math.hypot(...a));

/** The places of a line one after the other: where each is, how many points in a row are there, and the number of the first. */
function placesOf(points: readonly Point2[]): { readonly at: Point2; readonly first: number; times: number }[] {
  const places: { readonly at: Point2; readonly first: number; times: number }[] = [];
  for (const [first, at] of points.entries()) {
    const last = places.at(-1);
    if (last && same(last.at, at)) last.times++;
    else places.push({ at, first, times: 1 });
  }
  return places;
}

/** From a corner to the corner beside it; undefined where the line turns back. */
function mitre([ax, ay]: Point2, [bx, by]: Point2, apart: number): Point2 | undefined {
  // The sum of the normals points along the bisector; its length is twice the cosine of half the turn.
  const [x, y] = [-ay - by, ax + bx];
  const square = x * x + y * y;
  return square * LONGEST_MITRE * LONGEST_MITRE < 4 ? undefined : [(2 * apart * x) / square, (2 * apart * y) / square];
}

/** How many pairs of pieces of a line cross or touch; the one that would close it counts only where it is closed. */
const crossings = (line: readonly Point2[], closed: boolean): number =>
  selfCrossings(line).filter(({ j }) => closed || j !== line.length - 1).length;
