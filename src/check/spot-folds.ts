import { elevationAt, planeThrough } from "../geometry/plane.ts";
import type { Point3 } from "../geometry/point.ts";
import type { Pair, Triangulation } from "../geometry/triangulation.ts";

/** An edge of the triangles between spots. */
export interface Fold {
  /** The spots it runs between, by their places in the list. */
  readonly edge: Pair;
  /**
   * How far the deck beyond it lies off the plane on this side, at the farther spot, in the unit of the points: below 0 where the deck falls
   * away over it, as at a ridge, above 0 where it rises, as in a valley; undefined where the triangles end.
   */
  readonly by: number | undefined;
  /**
   * How much higher the deck would lie in the middle if it folded along the other diagonal of the two triangles instead; undefined where
   * there is no other, so that no other fold was there to choose.
   */
  readonly otherwise: number | undefined;
}

/** A fold by less than this, inches at the farther spot, is none that anybody would see. */
export const FLAT_IN = 1 / 64;
/** Diagonals that cross nearer to an end than this share of their length are no choice: three spots in a row. */
const IN_A_ROW = 1e-3;

/** The name of an edge, whichever way it is told. */
export const edgeName = ([a, b]: Pair): string => `${Math.min(a, b)} ${Math.max(a, b)}`;

/** Every edge of a triangulation once, with how the deck folds over it. */
export function foldsOf({ triangles }: Pick<Triangulation, "triangles">, points: readonly Point3[]): Fold[] {
  const beside = new Map<string, { readonly edge: Pair; readonly apexes: number[] }>();
  for (const triple of triangles)
    for (const [i, a] of triple.entries()) {
      const edge: Pair = [a, triple[(i + 1) % 3]!];
      const apex = triple[(i + 2) % 3]!;
      const known = beside.get(edgeName(edge));
      if (known) known.apexes.push(apex);
      else beside.set(edgeName(edge), { edge, apexes: [apex] });
    }
  return [...beside.values()].map(({ edge, apexes }) => {
    const [a, b, c, d] = [...edge, ...apexes].map((k) => points[k]);
    const plane = a && b && c && planeThrough(a, b, c);
    if (!plane || !d) return { edge, by: undefined, otherwise: undefined };
    return { edge, by: d[2] - elevationAt(plane, [d[0], d[1]]), otherwise: raised(a, b, c, d) };
  });
}

/** How much higher c-d passes over the place where it crosses a-b in plan; undefined where it does not cross it between its ends. */
function raised(a: Point3, b: Point3, c: Point3, d: Point3): number | undefined {
  const side = (p: Point3, q: Point3, r: Point3): number =>
    (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  const t = side(c, d, a) / (side(c, d, a) - side(c, d, b));
  const s = side(a, b, c) / (side(a, b, c) - side(a, b, d));
  if (![t, s].every((part) => part > IN_A_ROW && part < 1 - IN_A_ROW)) return undefined;
  return c[2] + (d[2] - c[2]) * s - (a[2] + (b[2] - a[2]) * t);
}
