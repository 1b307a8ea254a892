import { turnedBy, unitAt, unitTowards } from "../geometry/direction.ts";
import { distance2, type Point2 } from "../geometry/point.ts";
import type { Radians } from "../units/quantity.ts";

/** What locked directions are counted from: the page, the axes of the building as they lie on it, or the last piece drawn. */
export const LOCK_AXES = ["sheet", "building", "piece"] as const;
/** How many degrees locked directions are apart. */
export const LOCK_STEPS = [90, 45, 30, 15] as const;

/** Which directions the pieces of a line may have while it is drawn. */
export interface Lock {
  readonly on: boolean;
  readonly step: (typeof LOCK_STEPS)[number];
  readonly from: (typeof LOCK_AXES)[number];
}

/** The lock nobody has set: at right angles to the page, and off. */
export const UNLOCKED: Lock = { on: false, step: 90, from: "sheet" };

/** The lock on with the next step, the finest followed by the coarsest; from off, on with the step it has. */
export const nextStep = (lock: Lock): Lock =>
  lock.on ? { ...lock, step: after(LOCK_STEPS, lock.step) } : { ...lock, on: true };

/** The lock on and counted from the next axes; from off, on with those it has. */
export const nextAxes = (lock: Lock): Lock =>
  lock.on ? { ...lock, from: after(LOCK_AXES, lock.from) } : { ...lock, on: true };

const after = <T>(list: readonly T[], one: T): T => list[(list.indexOf(one) + 1) % list.length]!;

/** What a locked point is found from, all in sheet space. */
interface LockField {
  /** The points put so far, the last one last; at least one. */
  readonly points: readonly Point2[];
  /** How the plan is turned from sheet space to the building. */
  readonly building: Radians;
}

/** What attracts a locked point: a place, and where it lies on a straight line the ends of that. */
export interface Attraction {
  readonly at: Point2;
  readonly line?: readonly [Point2, Point2];
}

/** A place this near to what attracted it is that place, sheet units: rounding must not part what meets. */
const SAME = 1e-6;

/**
 * Where a point goes that was asked for at `at`: on the ray from the last point whose direction is nearest. How far along says what
 * attracts it, by the foot of its perpendicular; a line that attracts is met where the ray crosses it. `kept` is false where nothing did.
 */
export function lockedPlace(
  at: Point2,
  lock: Lock,
  { points, building }: LockField,
  attraction?: Attraction,
): { readonly at: Point2; readonly kept: boolean } {
  const last = points.at(-1)!;
  const way = nearestWay(at, last, lock, axesOf(lock, points, building));
  const crossing = attraction?.line && crossingOf(last, way, attraction.line);
  const foot = attraction && (crossing ?? (attraction.line ? undefined : footOf(attraction.at, last, way)));
  if (attraction && foot && distance2(foot, attraction.at) <= SAME) return { at: attraction.at, kept: true };
  return foot ? { at: foot, kept: true } : { at: footOf(at, last, way), kept: false };
}

/** The direction that nought degrees stands for; the page's own where there is no piece yet. */
function axesOf({ from }: Lock, points: readonly Point2[], building: Radians): Point2 {
  const [before, last] = [points.at(-2), points.at(-1)!];
  if (from === "building") return [Math.cos(building), -Math.sin(building)];
  return (from === "piece" && before && unitTowards(before, last)) || [1, 0];
}

function nearestWay(at: Point2, last: Point2, { step }: Lock, axes: Point2): Point2 {
  let best: Point2 = axes;
  let most = -Infinity;
  for (let degrees = 0; degrees < 360; degrees += step) {
    const way = turnedBy(unitAt(degrees), axes);
    const along = (at[0] - last[0]) * way[0] + (at[1] - last[1]) * way[1];
    if (along > most) [best, most] = [way, along];
  }
  return best;
}

/** The foot of the perpendicular on a ray; its beginning for what lies behind it. */
function footOf(at: Point2, last: Point2, [ux, uy]: Point2): Point2 {
  const along = Math.max(0, (at[0] - last[0]) * ux + (at[1] - last[1]) * uy);
  return [last[0] + along * ux, last[1] + along * uy];
}

/** Where a ray crosses a straight line between two ends, both included; undefined where it does not, or runs along it. */
function crossingOf(last: Point2, [ux, uy]: Point2, [a, b]: readonly [Point2, Point2]): Point2 | undefined {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const across = ux * dy - uy * dx;
  if (Math.abs(across) <= 1e-9 * Math.hypot(dx, dy)) return undefined;
  const [x, y] = [a[0] - last[0], a[1] - last[1]];
  const along = (x * dy - y * dx) / across;
  const t = (x * uy - y * ux) / across;
  return along > 0 && t >= -1e-9 && t <= 1 + 1e-9 ? [last[0] + along * ux, last[1] + along * uy] : undefined;
}
