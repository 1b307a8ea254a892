import { distance2, type Point2 } from "../../geometry/point.ts";
import { collinearReach, DASH_GAP_PT } from "./collinear-reach.ts";
import { type Circle, circlesOf, gridLabelIn, isTitle } from "./grid-bubbles.ts";
import { chosen, type Linework, SEGMENT } from "./linework.ts";
import type { TextRun } from "./plan-contents.ts";
import { endOf, startOf } from "./segment-geometry.ts";

/** One line of a grid. Sheet space. */
export interface GridAxis {
  /** As written in the bubble; null for an empty one. */
  readonly label: string | null;
  /** From the edge of the first bubble to where the line ends. */
  readonly line: readonly [Point2, Point2];
  /** One, or one at either end. */
  readonly bubbles: readonly Circle[];
}

/** The axes that belong to one view: they cross, or stand in a row. No label occurs twice. */
export interface FoundGrid {
  readonly axes: readonly GridAxis[];
}

/** A grid line is at least this many radii of its bubble long; what is shorter is a leader. */
const LEAST_RADII = 8;
/** How far the line may pass beside the middle of its bubble, in radii, and where its end may lie. */
const OFF_CENTRE = 0.15;
const SAME_OFF = 0.02;
const NEAREST_END = 0.8;
const FARTHEST_END = 1.5;
/** Bubbles of one grid are of one size. */
const SAME_SIZE = 1.12;
/** Directions this near are parallel. */
const PARALLEL = Math.cos((2 * Math.PI) / 180);
/** The sine of 10 degrees. */
const LEAST_SINE = 0.17;
/** Empty bubbles count from this many in a row. */
const LEAST_EMPTY = 3;
/** Neighbours in a row stand no farther apart than this, in radii. */
const NEIGHBOURS = 40;
/** How long a row of empty bubbles may be to either side of one, in radii. */
const ROW = 400;

/**
 * The grids of a page: circles with a letter or number, or empty ones in a row, each at the end of a long line. What does not
 * count: circles before the title of a view, section marks, circles with a leader, and any whose like stands nowhere else on the page.
 */
export function findGrid(linework: Linework, texts: readonly TextRun[]): FoundGrid[] {
  const circles = circlesOf(linework).flatMap((circle) => {
    const label = gridLabelIn(linework, circle, texts);
    return label === undefined ? [] : [{ circle, label }];
  });
  const lone = circles.flatMap(({ circle, label }): GridAxis[] => {
    const line = lineFrom(linework, circle, label === null);
    return line && !isTitle(circle, line, texts) ? [{ label, line, bubbles: [circle] }] : [];
  });
  const axes = joined(lone).map((axis) => withFarBubble(axis, circles, DASH_GAP_PT / linework.userUnit));
  return grouped(axes.filter((axis) => isOfFamily(axis, axes)));
}

const directionOf = ({ line: [a, b] }: GridAxis): Point2 => {
  const length = distance2(a, b);
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
};
const cross = (a: Point2, b: Point2): number => a[0] * b[1] - a[1] * b[0];
const dot = (a: Point2, b: Point2): number => a[0] * b[0] + a[1] * b[1];
const minus = (a: Point2, b: Point2): Point2 => [a[0] - b[0], a[1] - b[1]];
const areParallel = (a: GridAxis, b: GridAxis): boolean => Math.abs(dot(directionOf(a), directionOf(b))) >= PARALLEL;
const radiusOf = ({ bubbles }: GridAxis): number => bubbles[0]!.radius;
const alike = (a: GridAxis, b: GridAxis): boolean =>
  Math.max(radiusOf(a), radiusOf(b)) <= SAME_SIZE * Math.min(radiusOf(a), radiusOf(b));
/** How far a place lies beside the line of an axis. */
const beside = (axis: GridAxis, p: Point2): number => cross(directionOf(axis), minus(p, axis.line[0]));

/** The longest line that leaves a circle straight outward, or after one bend. */
function lineFrom(linework: Linework, circle: Circle, isEmpty: boolean): readonly [Point2, Point2] | undefined {
  const { centre, radius } = circle;
  const wanted = chosen(linework, { without: SEGMENT.hatch | SEGMENT.glyph | SEGMENT.filled | SEGMENT.curved });
  const around = FARTHEST_END * radius;
  let best: readonly [Point2, Point2] | undefined;
  let off = Number.POSITIVE_INFINITY;
  for (const segment of linework.index.search(
    centre[0] - around,
    centre[1] - around,
    centre[0] + around,
    centre[1] + around,
    (each) => each < linework.count && wanted(each),
  )) {
    const [a, b] = [startOf(linework, segment), endOf(linework, segment)];
    const [near, far] = distance2(a, centre) <= distance2(b, centre) ? [a, b] : [b, a];
    const [apart, reach] = [distance2(near, centre), distance2(far, centre)];
    if (apart < NEAREST_END * radius || apart > FARTHEST_END * radius || reach <= apart) continue;
    const length = distance2(near, far);
    const aside = Math.abs(cross(minus(far, near), minus(centre, near))) / length;
    if (aside > OFF_CENTRE * radius || length < 0.5 * radius) continue;
    const line = straightOrBent(linework, segment, near, far, radius);
    if (!line) continue;
    // A section line may run close beside the grid line: the one that points at the middle is the bubble's own.
    const nearer = aside < off - SAME_OFF * radius;
    if (!nearer && !(best && aside < off + SAME_OFF * radius && distance2(...line) > distance2(...best))) continue;
    // An empty circle that a line goes through is a column or a fixture, not the end of it.
    if (isEmpty && goesThrough(linework, segment, far, near, circle)) continue;
    best = line;
    off = Math.min(off, aside);
  }
  return best;
}

/** Whether the line whose end is at a circle goes on beyond it. */
function goesThrough(linework: Linework, segment: number, far: Point2, near: Point2, { radius }: Circle): boolean {
  return distance2(collinearReach(linework, segment, far, near).ends[1], near) > radius;
}

function straightOrBent(
  linework: Linework,
  segment: number,
  near: Point2,
  far: Point2,
  radius: number,
): readonly [Point2, Point2] | undefined {
  const least = LEAST_RADII * radius;
  const { ends, fitted } = collinearReach(linework, segment, near, far);
  const [, end] = ends;
  if (distance2(near, end) >= least) return fitted;
  const touch = 0.3 / linework.userUnit;
  const style = linework.style[segment]!;
  let best: readonly [Point2, Point2] | undefined;
  for (const other of linework.index.search(end[0] - touch, end[1] - touch, end[0] + touch, end[1] + touch)) {
    if (other >= linework.count || other === segment || linework.style[other] !== style) continue;
    const [a, b] = [startOf(linework, other), endOf(linework, other)];
    const [from, to] = distance2(a, end) <= touch ? [a, b] : [b, a];
    if (distance2(from, end) > touch) continue;
    const reach = collinearReach(linework, other, from, to).fitted;
    const onward = dot(minus(reach[1], reach[0]), minus(far, near)) > 0;
    if (onward && distance2(...reach) >= least && (!best || distance2(...reach) > distance2(...best))) best = reach;
  }
  return best;
}

/** Axes with a bubble at both ends, found once from each, put together. */
function joined(axes: readonly GridAxis[]): GridAxis[] {
  const done: GridAxis[] = [];
  for (const axis of axes) {
    const radius = radiusOf(axis);
    const twin = done.findIndex(
      (other) =>
        other.label === axis.label &&
        other.bubbles.length === 1 &&
        alike(other, axis) &&
        dot(directionOf(other), directionOf(axis)) <= -PARALLEL &&
        Math.abs(beside(other, axis.line[0])) <= 0.5 * radius &&
        Math.abs(beside(other, axis.line[1])) <= 0.5 * radius &&
        distance2(other.line[1], axis.line[0]) <= distance2(...other.line),
    );
    const other = done[twin];
    if (!other) done.push(axis);
    else
      done[twin] = {
        label: axis.label,
        line: [other.line[0], axis.line[0]],
        bubbles: [other.bubbles[0]!, axis.bubbles[0]!],
      };
  }
  return done;
}

/** An axis with the bubble at its far end, where the last dash does not reach it. */
function withFarBubble(
  axis: GridAxis,
  circles: readonly { readonly circle: Circle; readonly label: string | null }[],
  gap: number,
): GridAxis {
  if (axis.bubbles.length > 1 || axis.label === null) return axis;
  const [, end] = axis.line;
  const radius = radiusOf(axis);
  const far = circles.find(
    ({ circle, label }) =>
      label === axis.label &&
      circle !== axis.bubbles[0] &&
      Math.abs(distance2(circle.centre, end) - radius) <= gap &&
      Math.abs(beside(axis, circle.centre)) <= OFF_CENTRE * radius &&
      dot(minus(circle.centre, end), directionOf(axis)) > 0,
  );
  return far ? { ...axis, bubbles: [...axis.bubbles, far.circle] } : axis;
}

/** Whether the page has another axis like this one, beside it or across it; for empty bubbles, a row of them. */
function isOfFamily(axis: GridAxis, axes: readonly GridAxis[]): boolean {
  const like = axes.filter((other) => other !== axis && alike(other, axis));
  if (axis.label === null) {
    const row = like.filter((other) => other.label === null && inOneRow(axis, other, ROW));
    return row.length + 1 >= LEAST_EMPTY;
  }
  const aside = like.some(
    (other) =>
      other.label !== null && areParallel(axis, other) && Math.abs(beside(axis, other.line[0])) > radiusOf(axis),
  );
  return aside || like.some((other) => other.label !== null && crossingPoint(axis, other) !== undefined);
}

/** Whether the bubbles of two parallel axes stand side by side. */
function inOneRow(a: GridAxis, b: GridAxis, within = NEIGHBOURS): boolean {
  if (!areParallel(a, b)) return false;
  return a.bubbles.some(({ centre }) =>
    b.bubbles.some((other) => {
      const apart = minus(other.centre, centre);
      return (
        Math.abs(dot(apart, directionOf(a))) <= 0.75 * radiusOf(a) &&
        Math.hypot(...apart) <= within * radiusOf(a) &&
        Math.hypot(...apart) > radiusOf(a)
      );
    }),
  );
}

/**
 * Where the lines of two axes cross, each taken longer by `slack` at its ends (two bubbles when left out); undefined for
 * lines less than 10 degrees apart, whose crossing says little, and for such as do not reach.
 */
export function crossingPoint(a: GridAxis, b: GridAxis, slack?: number): Point2 | undefined {
  const [u, v] = [directionOf(a), directionOf(b)];
  const sine = cross(u, v);
  if (Math.abs(sine) < LEAST_SINE) return undefined;
  const offset = minus(b.line[0], a.line[0]);
  const [onA, onB] = [cross(offset, v) / sine, cross(offset, u) / sine];
  const more = slack ?? 4 * Math.max(radiusOf(a), radiusOf(b));
  const reaches = (on: number, axis: GridAxis): boolean => on >= -more && on <= distance2(...axis.line) + more;
  return reaches(onA, a) && reaches(onB, b) ? [a.line[0][0] + u[0] * onA, a.line[0][1] + u[1] * onA] : undefined;
}

/** Axes that cross or stand in a row, together; nearest first, and never two with one label. */
function grouped(axes: readonly GridAxis[]): FoundGrid[] {
  const links: { i: number; j: number; apart: number }[] = [];
  for (let i = 0; i < axes.length; i++) {
    for (let j = i + 1; j < axes.length; j++) {
      const [a, b] = [axes[i]!, axes[j]!];
      if (!alike(a, b)) continue;
      if (crossingPoint(a, b)) links.push({ i, j, apart: 0 });
      else if (inOneRow(a, b)) links.push({ i, j, apart: distance2(a.bubbles[0]!.centre, b.bubbles[0]!.centre) });
    }
  }
  links.sort((p, q) => p.apart - q.apart || p.i - q.i || p.j - q.j);
  const groupOf = axes.map((_, i) => i);
  const labels = axes.map(({ label }) => new Set(label === null ? [] : [label]));
  for (const { i, j } of links) {
    const [keep, drop] = [groupOf[i]!, groupOf[j]!];
    if (keep === drop || [...labels[drop]!].some((label) => labels[keep]!.has(label))) continue;
    for (const label of labels[drop]!) labels[keep]!.add(label);
    for (let k = 0; k < groupOf.length; k++) if (groupOf[k] === drop) groupOf[k] = keep;
  }
  return [...new Set(groupOf)].map((group) => ({
    axes: axes.filter((_, i) => groupOf[i] === group).sort(inOrder),
  }));
}

/** Lines of one direction together, those nearest to the sheet's y first, in the order in which they stand side by side. */
function inOrder(a: GridAxis, b: GridAxis): number {
  const turn = (axis: GridAxis): number => {
    const [x, y] = directionOf(axis);
    const degrees = (Math.atan2(y, x) * 180) / Math.PI;
    // Steps of 5 degrees: level and upright lie in the middle of theirs.
    return Math.round((((degrees % 180) + 180) % 180) / 5) % 36;
  };
  const rank = turn(a) - turn(b);
  if (rank !== 0) return rank;
  const [p, q] = [a.bubbles[0]!.centre, b.bubbles[0]!.centre];
  return p[0] + p[1] - q[0] - q[1];
}
