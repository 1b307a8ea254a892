import { fail, ok, type Result } from "../units/problem.ts";
import { type Radians, radians } from "../units/quantity.ts";
import type { Point2 } from "./point.ts";

/**
 * A similarity of the plan without mirroring: x' = scale R(angle) x + (dx, dy). As a registration it takes sheet space
 * to building space, and `scale` is inches of building per user space unit.
 */
export interface Similarity {
  /** Target units per source unit, greater than 0. */
  readonly scale: number;
  /** Counter-clockwise turn. */
  readonly angle: Radians;
  /** Target units. */
  readonly dx: number;
  readonly dy: number;
}

/** The transform that leaves every point where it is. */
export const identity: Similarity = { scale: 1, angle: radians(0), dx: 0, dy: 0 };

/** Where the transform takes a point. */
export const applyTo = (sim: Similarity, at: Point2): Point2 => mapBy(sim)(at);

/** `applyTo` for many points: what they have in common is worked out once. */
export function mapBy(sim: Similarity): (at: Point2) => Point2 {
  const c = sim.scale * Math.cos(sim.angle);
  const s = sim.scale * Math.sin(sim.angle);
  return (at) => [c * at[0] - s * at[1] + sim.dx, s * at[0] + c * at[1] + sim.dy];
}

/** First `inner`, then `outer`, as one transform. */
export function compose(outer: Similarity, inner: Similarity): Similarity {
  const [dx, dy] = applyTo(outer, [inner.dx, inner.dy]);
  return { scale: outer.scale * inner.scale, angle: wrap(outer.angle + inner.angle), dx, dy };
}

/** The transform that undoes `sim`. */
export function invert(sim: Similarity): Similarity {
  const turn: Similarity = { scale: 1 / sim.scale, angle: wrap(-sim.angle), dx: 0, dy: 0 };
  const [dx, dy] = applyTo(turn, [-sim.dx, -sim.dy]);
  return { ...turn, dx, dy };
}

/** A point in the source space and the same point in the target space. */
export interface PointPair {
  readonly from: Point2;
  readonly to: Point2;
}

/** A fitted transform and how well it fits; residuals in target units, in the order of the pairs. */
export interface SimilarityFit {
  readonly sim: Similarity;
  readonly residuals: readonly number[];
  /** Root mean square of the residuals. */
  readonly rms: number;
  /** True when three or more pairs fit a mirrored plan clearly better: two points were probably swapped. */
  readonly mirrored: boolean;
}

/**
 * The similarity that fits the pairs best (least sum of squared residuals in the target space); with `fixedScale`,
 * the best turn and shift at that scale. Problems: `registration.too-few-pairs` below two pairs,
 * `registration.equal-points` when all points of one side coincide, `registration.not-finite`.
 */
export function fitSimilarity(pairs: readonly PointPair[], fixedScale?: number): Result<SimilarityFit> {
  if (pairs.length < 2) return fail("registration.too-few-pairs", "", { count: pairs.length });
  const finite = pairs.every(({ from, to }) => [...from, ...to].every(Number.isFinite));
  if (!finite || (fixedScale !== undefined && !(fixedScale > 0 && Number.isFinite(fixedScale)))) {
    return fail("registration.not-finite");
  }
  const f0 = mean(pairs.map((pair) => pair.from));
  const t0 = mean(pairs.map((pair) => pair.to));
  // Sums over centred points as complex numbers: straight = sum conj(f) t, mirrored = sum f t.
  let spreadFrom = 0;
  let spreadTo = 0;
  let straightRe = 0;
  let straightIm = 0;
  let mirroredRe = 0;
  let mirroredIm = 0;
  for (const { from, to } of pairs) {
    const fx = from[0] - f0[0];
    const fy = from[1] - f0[1];
    const tx = to[0] - t0[0];
    const ty = to[1] - t0[1];
    spreadFrom += fx * fx + fy * fy;
    spreadTo += tx * tx + ty * ty;
    straightRe += fx * tx + fy * ty;
    straightIm += fx * ty - fy * tx;
    mirroredRe += fx * tx - fy * ty;
    mirroredIm += fx * ty + fy * tx;
  }
  const size = (points: readonly Point2[]) => Math.max(...points.flat().map(Math.abs), 1e-300);
  const fromTiny = (1e-12 * size(pairs.map((pair) => pair.from))) ** 2;
  const toTiny = (1e-12 * size(pairs.map((pair) => pair.to))) ** 2;
  if (spreadFrom <= fromTiny || spreadTo <= toTiny) return fail("registration.equal-points");
  const straight = Math.hypot(straightRe, straightIm);
  const mirrored = Math.hypot(mirroredRe, mirroredIm);
  // A best turn does not exist when the pairs contradict each other wholly (a mirrored square, for instance): what is left then is rounding.
  const turns = straight > 1e-12 * Math.sqrt(spreadFrom * spreadTo);
  const scale = fixedScale ?? (turns ? straight / spreadFrom : Math.sqrt(spreadTo / spreadFrom));
  const angle = radians(turns ? Math.atan2(straightIm, straightRe) : 0);
  const about: Similarity = { scale, angle, dx: 0, dy: 0 };
  const moved = applyTo(about, f0);
  const sim: Similarity = { ...about, dx: t0[0] - moved[0], dy: t0[1] - moved[1] };
  const residuals = pairs.map(({ from, to }) => {
    const [x, y] = applyTo(sim, from);
    return Math.hypot(x - to[0], y - to[1]);
  });
  const squares = residuals.reduce((sum, r) => sum + r * r, 0);
  const mirroredScale = fixedScale ?? mirrored / spreadFrom;
  const mirroredSquares = Math.max(0, spreadTo - 2 * mirroredScale * mirrored + mirroredScale ** 2 * spreadFrom);
  // Clearly better: a quarter of the error, and the straight error is more than rounding.
  const suspicious = pairs.length > 2 && squares > 1e-9 * spreadTo && mirroredSquares < squares / 16;
  return ok({ sim, residuals, rms: Math.sqrt(squares / pairs.length), mirrored: suspicious });
}

function mean(points: readonly Point2[]): Point2 {
  let x = 0;
  let y = 0;
  for (const p of points) {
    x += p[0];
    y += p[1];
  }
  return [x / points.length, y / points.length];
}

/** The same direction, more than -pi and not more than pi. */
function wrap(angle: number): Radians {
  const turn = 2 * Math.PI;
  const rest = angle - turn * Math.round(angle / turn);
  return radians(rest <= -Math.PI ? rest + turn : rest);
}
