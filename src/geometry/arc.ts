import { distance3, lerp3, type Point3 } from "./point.ts";

/** The curve of a bend: points on it from the one leg to the other, and how far it may stand off the straight lines between them. */
export interface BendCurve {
  /** Length of each leg that the curve takes the place of. */
  readonly tangent: number;
  readonly points: readonly Point3[];
  readonly off: number;
}

/** The curve may stand off its straight pieces by this, inches: less than any tape shows. */
const MOST_OFF = 1e-3;

/**
 * The curve of this radius that touches both legs of the corner a-b-c, building space, inches; undefined where there is no corner: legs in one line, or one of
 * them without length. A corner that turns right back has no such curve either.
 */
export function bendCurve(a: Point3, b: Point3, c: Point3, radius: number): BendCurve | undefined {
  const [one, other] = [distance3(b, a), distance3(b, c)];
  if (one === 0 || other === 0 || !(radius > 0)) return undefined;
  const u = [0, 1, 2].map((k) => (a[k]! - b[k]!) / one);
  const v = [0, 1, 2].map((k) => (c[k]! - b[k]!) / other);
  const cos = u[0]! * v[0]! + u[1]! * v[1]! + u[2]! * v[2]!;
  // The angle by which it turns: 0 for legs in one line.
  const turn = Math.PI - Math.acos(Math.min(1, Math.max(-1, cos)));
  if (turn < 1e-6 || Math.PI - turn < 1e-3) return undefined;
  const tangent = radius * Math.tan(turn / 2);
  const [from, to] = [lerp3(b, a, tangent / one), lerp3(b, c, tangent / other)];
  // The centre lies on the line that halves the corner.
  const half = [0, 1, 2].map((k) => u[k]! + v[k]!);
  const size = Math.hypot(half[0]!, half[1]!, half[2]!);
  const out = radius / Math.cos(turn / 2);
  const centre = [0, 1, 2].map((k) => b[k]! + (half[k]! / size) * out);
  const [s, e] = [from, to].map((point) => [0, 1, 2].map((k) => point[k]! - centre[k]!)) as [number[], number[]];
  const count = Math.max(1, Math.ceil(turn / (2 * Math.acos(Math.max(0, 1 - MOST_OFF / radius)))));
  const points = Array.from({ length: count + 1 }, (_, i): Point3 => {
    if (i === 0) return from;
    if (i === count) return to;
    const angle = (turn * i) / count;
    const [p, q] = [Math.sin(turn - angle) / Math.sin(turn), Math.sin(angle) / Math.sin(turn)];
    const at = (k: number): number => centre[k]! + p * s[k]! + q * e[k]!;
    return [at(0), at(1), at(2)];
  });
  return { tangent, points, off: radius * (1 - Math.cos(turn / count / 2)) };
}
