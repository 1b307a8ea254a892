import { distance2, lerp2, type Point2 } from "../../geometry/point.ts";
import type { SheetUnits } from "../../units/quantity.ts";
import { chosen, type Linework, type LineworkChoice, SEGMENT } from "./linework.ts";
import { endOf, footOn, pointOn, startOf } from "./segment-geometry.ts";
import { nearestSegments } from "./snap-to.ts";
import { withoutStraightCorners } from "./straight-corners.ts";

/** How to follow a line. */
export interface FollowOptions extends LineworkChoice {
  /** How far from the pointed place the line may lie, sheet units. */
  readonly reach: SheetUnits;
  /** Widest break that is bridged, sheet units; left out: `GAP_PT` on paper. */
  readonly gap?: SheetUnits;
  /** What to do where lines of the style meet: stop and offer them (left out), or go on where exactly one goes straight on. */
  readonly atTees?: "stop" | "straight";
}

/** A way to go on from where a line stopped, or that was passed. */
export interface Branch {
  /** Where it leaves, and a place farther along it: following from there goes that way. Sheet space. */
  readonly at: Point2;
  readonly towards: Point2;
  readonly segment: number;
}

/** Why following stopped: nothing goes on; several lines do; a clip or the page's edge cuts it; it came round; it took too many steps. */
export type StopReason = "end" | "branch" | "cut" | "closed" | "limit";

/** Where and why following stopped. */
export interface FollowEnd {
  readonly at: Point2;
  readonly why: StopReason;
  /** The ways on, for "branch". */
  readonly branches: readonly Branch[];
}

/** A break that was bridged; `corner` is where the two lines would meet, when they do not lie in one line. */
export interface Bridge {
  readonly from: Point2;
  readonly to: Point2;
  readonly corner: Point2 | null;
}

/** A line of one style, followed both ways from the pointed place. Sheet space. */
export interface FollowedLine {
  /** In order; of a closed line the first is not repeated. Curves as flattened. */
  readonly vertices: readonly Point2[];
  readonly closed: boolean;
  readonly bridged: readonly Bridge[];
  /** At the first vertex and at the last. */
  readonly ends: readonly [FollowEnd, FollowEnd];
  /** Branches that were passed by going straight on. */
  readonly passed: readonly Branch[];
  /** The segments it consists of, in no order. */
  readonly segments: readonly number[];
}

/** Widest break bridged unless asked otherwise, in 1/72 in. of paper. */
export const GAP_PT = 12;
/** Ends this near on paper touch. */
const TOUCH_PT = 0.2;
/** Steps before following gives up. */
export const MOST_STEPS = 5000;
/** Directions nearer than this go straight on; farther, over a break, they are another line. */
const STRAIGHT = Math.cos((3 * Math.PI) / 180);
const ONWARD = Math.cos((20 * Math.PI) / 180);
/** A line that turns back on itself is the same line drawn twice. */
const BACK = -Math.cos((8 * Math.PI) / 180);
/** How far beside the line, in 1/72 in. of paper, the piece after a break may lie whatever its distance. */
const BESIDE_PT = 0.4;

/** The line at a place, followed through breaks, dashes and curves of its own style; null where none is within reach. Never takes more than `MOST_STEPS` steps each way. */
export function followLine(linework: Linework, at: Point2, options: FollowOptions): FollowedLine | null {
  const [segment] = nearestSegments(linework, at, options.reach, choiceOf(options));
  if (segment === undefined) return null;
  const place = pointOn(linework, segment, Math.min(1, Math.max(0, footOn(linework, segment, at))));
  const walk = walkFrom(linework, segment, options);
  const forth = follow(walk, segment, place, true);
  if (forth.end.why === "closed") {
    const ring = withoutStraightCorners(
      [...forth.points, endOf(linework, segment)],
      TOUCH_PT / 4 / linework.userUnit,
      true,
    );
    const end = { ...forth.end, at: ring[0]! };
    return { ...kept(walk), vertices: ring, closed: true, ends: [end, end] };
  }
  const back = follow(walk, segment, place, false);
  const vertices = withoutStraightCorners(
    [...[...back.points].reverse(), place, ...forth.points],
    TOUCH_PT / 4 / linework.userUnit,
    false,
  );
  return { ...kept(walk), vertices, closed: false, ends: [back.end, forth.end] };
}

/** The line a branch begins, followed one way from where it leaves: the first vertex is that place. */
export function followBranch(linework: Linework, branch: Branch, options: FollowOptions): FollowedLine {
  const { segment, at } = branch;
  const walk = walkFrom(linework, segment, options);
  const [start, end] = [startOf(linework, segment), endOf(linework, segment)];
  const forward =
    (end[0] - start[0]) * (branch.towards[0] - at[0]) + (end[1] - start[1]) * (branch.towards[1] - at[1]) > 0;
  const { points, end: stop } = follow(walk, segment, at, forward);
  const vertices = withoutStraightCorners([at, ...points], TOUCH_PT / 4 / linework.userUnit, false);
  const begin = { at, why: "branch", branches: [] } as const;
  return { ...kept(walk), vertices, closed: false, ends: [begin, stop] };
}

const kept = ({ bridged, passed, used }: Walk) => ({ bridged, passed, segments: [...used] });

interface Walk {
  readonly linework: Linework;
  /** Whether a segment is of the followed style and chosen. */
  readonly like: (segment: number) => boolean;
  readonly used: Set<number>;
  readonly bridged: Bridge[];
  readonly passed: Branch[];
  readonly options: FollowOptions;
}

/** Lines only: the edge of a fill is not followed. */
const choiceOf = ({ without = SEGMENT.hatch | SEGMENT.glyph, hidden = false }: FollowOptions): LineworkChoice => ({
  without: without | SEGMENT.filled,
  hidden,
});

function walkFrom(linework: Linework, segment: number, options: FollowOptions): Walk {
  const wanted = chosen(linework, choiceOf(options));
  const style = linework.style[segment]!;
  const like = (other: number): boolean => other < linework.count && linework.style[other] === style && wanted(other);
  return { linework, like, used: new Set([segment]), bridged: [], passed: [], options };
}

/** A way on from the tip: along `segment` to `to`. */
interface Way {
  readonly segment: number;
  readonly to: Point2;
  /** Unit direction. */
  readonly along: Point2;
  /** Whether it leads to the segment's end, or to its start. */
  readonly toEnd: boolean;
}

function follow(walk: Walk, first: number, place: Point2, forward: boolean): { points: Point2[]; end: FollowEnd } {
  const { linework, used } = walk;
  const touch = TOUCH_PT / linework.userUnit;
  const points: Point2[] = [];
  let [from, segment, toEnd] = [place, first, forward];
  const stop = (at: Point2, why: StopReason, ways: readonly Way[] = []) => {
    const branches = ways.map((way) => ({ at, towards: lerp2(at, way.to, 0.5), segment: way.segment }));
    return { points, end: { at, why, branches } };
  };
  for (let step = 0; step < MOST_STEPS; step++) {
    const tip = toEnd ? endOf(linework, segment) : startOf(linework, segment);
    const heading =
      directionOf(from, tip) ??
      directionOf(
        ...(toEnd ? ([startOf(linework, segment), tip] as const) : ([endOf(linework, segment), tip] as const)),
      )!;
    const tees = teesOn(walk, segment, from, tip, touch);
    if (tees[0] && walk.options.atTees !== "straight") {
      const [{ at, ways }] = tees as [Tee];
      points.push(at);
      return stop(at, "branch", [{ segment, to: tip, along: heading, toEnd }, ...ways]);
    }
    for (const { at, ways } of tees) {
      walk.passed.push(...ways.map((way) => ({ at, towards: lerp2(at, way.to, 0.5), segment: way.segment })));
      if (distance2(at, tip) > touch) for (const way of ways) used.add(way.segment);
    }
    points.push(tip);
    if (linework.flags[segment]! & (toEnd ? SEGMENT.cutEnd : SEGMENT.cutStart)) return stop(tip, "cut");
    if (
      step > 1 &&
      distance2(tip, forward ? startOf(linework, first) : endOf(linework, first)) <= touch &&
      used.size > 2
    )
      return stop(tip, "closed");
    const ways = waysFrom(walk, segment, tip, heading, touch);
    let way = ways[0];
    if (ways.length > 1) {
      const straight = ways.filter(({ along }) => dot(along, heading) >= STRAIGHT);
      if (walk.options.atTees !== "straight" || straight.length !== 1) return stop(tip, "branch", ways);
      way = straight[0]!;
      for (const other of ways) {
        if (other !== way) walk.passed.push({ at: tip, towards: lerp2(tip, other.to, 0.5), segment: other.segment });
      }
    }
    if (!way) {
      const over = bridgeFrom(walk, tip, heading, touch);
      if (!over) return stop(tip, "end");
      if (!over.way) return stop(tip, "branch", over.ways);
      walk.bridged.push({ from: tip, to: over.entry, corner: over.corner });
      if (over.corner) points.push(over.corner);
      points.push(over.entry);
      from = over.entry;
      way = over.way;
    } else from = tip;
    used.add(way.segment);
    [segment, toEnd] = [way.segment, way.toEnd];
  }
  return stop(points.at(-1)!, "limit");
}

const dot = (a: Point2, b: Point2): number => a[0] * b[0] + a[1] * b[1];

function directionOf(a: Point2, b: Point2): Point2 | undefined {
  const length = distance2(a, b);
  return length > 0 ? [(b[0] - a[0]) / length, (b[1] - a[1]) / length] : undefined;
}

/** Unused segments of the style whose distance from a place is at most `within`. */
function around({ linework, like, used }: Walk, at: Point2, within: number): number[] {
  return linework.index.search(
    at[0] - within,
    at[1] - within,
    at[0] + within,
    at[1] + within,
    (segment) => like(segment) && !used.has(segment),
  );
}

/** Every way on from a tip that touches it, each direction once. */
function waysFrom(walk: Walk, current: number, tip: Point2, heading: Point2, touch: number): Way[] {
  const { linework } = walk;
  const ways: Way[] = [];
  for (const segment of around(walk, tip, touch)) {
    if (segment === current) continue;
    const [a, b] = [startOf(linework, segment), endOf(linework, segment)];
    const [nearA, nearB] = [distance2(a, tip) <= touch, distance2(b, tip) <= touch];
    if (nearA && nearB) continue;
    const t = footOn(linework, segment, tip);
    const passes = t > 0 && t < 1 && distance2(pointOn(linework, segment, t), tip) <= touch;
    for (const [to, toEnd, here] of [
      [b, true, nearA],
      [a, false, nearB],
    ] as const) {
      if (!(here || (passes && !nearA && !nearB))) continue;
      const along = directionOf(tip, to);
      if (!along || dot(along, heading) <= BACK) continue;
      const same = ways.findIndex((way) => dot(way.along, along) >= STRAIGHT);
      // Drawn twice, or over part of its length: the longer one leads farther.
      if (same < 0) ways.push({ segment, to, along, toEnd });
      else if (distance2(tip, to) > distance2(tip, ways[same]!.to)) ways[same] = { segment, to, along, toEnd };
    }
  }
  return ways;
}

/** Where lines of the style end on another one, and their ways from there. */
interface Tee {
  readonly at: Point2;
  readonly ways: Way[];
}

/** The lines of the style that end on the way from a place to the tip, in the order of the way. */
function teesOn(walk: Walk, current: number, from: Point2, tip: Point2, touch: number): readonly Tee[] {
  const { linework, like, used } = walk;
  const length = distance2(from, tip);
  const heading = directionOf(from, tip);
  if (!heading || length <= 2 * touch) return [];
  const found: { readonly t: number; readonly at: Point2; readonly way: Way }[] = [];
  const test = (segment: number): boolean => {
    if (segment === current || used.has(segment) || !like(segment)) return false;
    for (const [end, far, toEnd] of [
      [startOf(linework, segment), endOf(linework, segment), true],
      [endOf(linework, segment), startOf(linework, segment), false],
    ] as const) {
      const t = dot([end[0] - from[0], end[1] - from[1]], heading);
      if (t <= touch || t >= length - touch) continue;
      const at: Point2 = [from[0] + heading[0] * t, from[1] + heading[1] * t];
      if (distance2(at, end) > touch) continue;
      const along = directionOf(end, far);
      if (!along || Math.abs(dot(along, heading)) >= ONWARD) continue;
      found.push({ t, at, way: { segment, to: far, along, toEnd } });
    }
    return false;
  };
  linework.index.search(
    Math.min(from[0], tip[0]) - touch,
    Math.min(from[1], tip[1]) - touch,
    Math.max(from[0], tip[0]) + touch,
    Math.max(from[1], tip[1]) + touch,
    test,
  );
  const tees: Tee[] = [];
  let before = Number.NEGATIVE_INFINITY;
  for (const { t, at, way } of found.sort((a, b) => a.t - b.t)) {
    if (t - before <= touch) tees.at(-1)!.ways.push(way);
    else {
      tees.push({ at, ways: [way] });
      before = t;
    }
  }
  return tees;
}

interface Over {
  /** The piece after the break; undefined when it cannot be told which of `ways` it is. */
  readonly way: Way | undefined;
  readonly ways: readonly Way[];
  /** Where that piece begins. */
  readonly entry: Point2;
  readonly corner: Point2 | null;
}

/** What goes on beyond a break: first what lies straight ahead, else the one line whose extension meets this one's. */
function bridgeFrom(walk: Walk, tip: Point2, heading: Point2, touch: number): Over | undefined {
  const { linework, options } = walk;
  const gap = options.gap ?? GAP_PT / linework.userUnit;
  const beside = BESIDE_PT / linework.userUnit;
  let ahead: { over: Over; apart: number } | undefined;
  const corners: { over: Over; apart: number }[] = [];
  for (const segment of around(walk, tip, gap)) {
    const ends = [
      [startOf(linework, segment), endOf(linework, segment), true],
      [endOf(linework, segment), startOf(linework, segment), false],
    ] as const;
    for (const [entry, to, toEnd] of ends) {
      const apart = distance2(tip, entry);
      const along = directionOf(entry, to);
      if (apart > gap || apart <= touch || !along) continue;
      const way = { segment, to, along, toEnd };
      const offset: Point2 = [entry[0] - tip[0], entry[1] - tip[1]];
      const forward = dot(offset, heading);
      const side = Math.abs(offset[0] * heading[1] - offset[1] * heading[0]);
      if (dot(along, heading) >= ONWARD) {
        const onward =
          forward > 0 && (side <= beside || forward >= ONWARD * apart) && dot(along, offset) >= ONWARD * apart;
        if (onward && (!ahead || apart < ahead.apart))
          ahead = { over: { way, ways: [way], entry, corner: null }, apart };
        continue;
      }
      const cross = heading[0] * along[1] - heading[1] * along[0];
      if (Math.abs(cross) < 0.3) continue;
      const reachOut = (offset[0] * along[1] - offset[1] * along[0]) / cross;
      const reachBack = -(offset[1] * heading[0] - offset[0] * heading[1]) / -cross;
      if (reachOut < -touch || reachOut > gap / 2 || reachBack < -touch || reachBack > gap / 2) continue;
      const corner: Point2 = [tip[0] + heading[0] * reachOut, tip[1] + heading[1] * reachOut];
      corners.push({ over: { way, ways: [way], entry, corner }, apart });
    }
  }
  if (ahead) return ahead.over;
  corners.sort((a, b) => a.apart - b.apart);
  const [first] = corners;
  if (!first) return undefined;
  // A line that goes on at the other side of the corner passes by: it is no corner of this one.
  const others = corners.filter(({ over }) => dot(over.way!.along, first.over.way!.along) < ONWARD);
  return others.length === 0
    ? first.over
    : { ...first.over, way: undefined, ways: [first, ...others].map(({ over }) => over.way!) };
}
