import { distance2, type Point2 } from "../../geometry/point.ts";
import { AT_TIP_PT, isArrowTip, isDotTip } from "./arrowheads.ts";
import { type Linework, SEGMENT } from "./linework.ts";
import type { TextRun } from "./plan-contents.ts";
import { within } from "./seen-segments.ts";
import { distanceTo, endOf, footOn, lengthOf, pointOn, startOf } from "./segment-geometry.ts";

/** A leader that begins at a text. Sheet space. */
export interface Leader {
  /** Where it points, at its arrowhead or dot. */
  readonly tip: Point2;
  /** The place on the line it points at; null where it points at nothing drawn. */
  readonly on: Point2 | null;
  /** Whether a line in another pen passes the tip about as near. */
  readonly ambiguous: boolean;
}

/** How far from the text a leader may begin, in heights of the text. */
const NEAR_EM = 1.2;
/** Most pieces of a leader, and its greatest length in 1/72 in. of paper. */
const PIECES = 12;
const LONGEST_PT = 900;
/** Pieces whose ends are this near on paper touch. */
const TOUCH_PT = 0.4;
/** How far beside the tip the thing pointed at may lie, in 1/72 in. of paper. */
const AT_THING_PT = 3;
/** Another thing this much farther off than the nearest, or less, makes it doubtful; in 1/72 in. of paper. */
const DOUBTFUL_PT = 0.5;
const MOST = 2_000;

/**
 * The leader of a text: a line that begins at either end of the text, at half its height, goes on in the same pen and ends in an
 * arrowhead or a dot. A line that ends in neither is taken for none: a wall beside a text looks the same. Segments
 * that `isLeftOut` names are not pointed at.
 */
export function leaderOf(
  linework: Linework,
  run: TextRun,
  isLeftOut: (segment: number) => boolean = () => false,
): Leader | undefined {
  const [c, s] = [Math.cos(run.angle), Math.sin(run.angle)];
  const first: Point2 = [run.at[0] - s * 0.35 * run.height, run.at[1] + c * 0.35 * run.height];
  const last: Point2 = [first[0] + c * run.width, first[1] + s * run.width];
  const around = NEAR_EM * run.height;
  for (const begin of [first, last]) {
    const near = within(
      linework,
      [begin[0] - around, begin[1] - around, begin[0] + around, begin[1] + around],
      MOST,
    ).flatMap((segment) =>
      [false, true].flatMap((turned) => {
        const [a, b] = endsOf(linework, segment, turned);
        const apart = distance2(a, begin);
        return apart <= around && distance2(b, begin) > apart ? [{ segment, turned, apart }] : [];
      }),
    );
    near.sort((a, b) => a.apart - b.apart);
    for (const { segment, turned } of near.slice(0, 16)) {
      const way = walk(linework, segment, turned, begin);
      if (way && distance2(way.tip, begin) > 2 * around) return { tip: way.tip, ...thingAt(linework, way, isLeftOut) };
    }
  }
  return undefined;
}

const endsOf = (linework: Linework, segment: number, turned: boolean): readonly [Point2, Point2] =>
  turned
    ? [endOf(linework, segment), startOf(linework, segment)]
    : [startOf(linework, segment), endOf(linework, segment)];

interface Way {
  readonly tip: Point2;
  readonly pieces: ReadonlySet<number>;
}

/** Goes along touching pieces of one pen up to an arrowhead or a dot; undefined where it ends without one, or forks. */
function walk(linework: Linework, from: number, turned: boolean, begin: Point2): Way | undefined {
  const { userUnit, style, flags } = linework;
  const touch = TOUCH_PT / userUnit;
  const pieces = new Set<number>();
  let [segment, back] = [from, turned];
  for (let i = 0; i < PIECES; i++) {
    if ((flags[segment]! & SEGMENT.filled) !== 0) return undefined;
    pieces.add(segment);
    const [a, b] = endsOf(linework, segment, back);
    const long = distance2(a, b);
    if (long === 0 || distance2(b, begin) * userUnit > LONGEST_PT) return undefined;
    const heading: Point2 = [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
    if (isArrowTip(linework, b, heading) || isDotTip(linework, b)) return { tip: b, pieces };
    const onward = within(linework, [b[0] - touch, b[1] - touch, b[0] + touch, b[1] + touch], MOST).flatMap((next) =>
      pieces.has(next) || style[next] !== style[from]
        ? []
        : [false, true].flatMap((turn) => {
            const [start, end] = endsOf(linework, next, turn);
            return distance2(start, b) <= touch && distance2(end, b) > touch ? [{ next, turn }] : [];
          }),
    );
    if (onward.length !== 1) return undefined;
    segment = onward[0]!.next;
    back = onward[0]!.turn;
  }
  return undefined;
}

/** The nearest place at the tip on a line that belongs neither to the leader nor to its arrowhead or dot. */
function thingAt(
  linework: Linework,
  { tip, pieces }: Way,
  isLeftOut: (segment: number) => boolean,
): Pick<Leader, "on" | "ambiguous"> {
  const { userUnit, arcs, style } = linework;
  const reach = AT_THING_PT / userUnit;
  const dots = arcs.filter(({ centre, full }) => full && distance2(centre, tip) <= 2 * reach);
  const near: { segment: number; apart: number }[] = [];
  for (const segment of within(linework, [tip[0] - reach, tip[1] - reach, tip[0] + reach, tip[1] + reach], MOST)) {
    const long = lengthOf(linework, segment) * userUnit;
    const nearest = Math.min(distance2(startOf(linework, segment), tip), distance2(endOf(linework, segment), tip));
    const isHead = long <= 20 && nearest * userUnit <= AT_TIP_PT;
    const isBase = long <= 8 && (linework.flags[segment]! & SEGMENT.filled) !== 0;
    const isDot = dots.some(({ first, last }) => segment >= first && segment <= last);
    if (pieces.has(segment) || isHead || isBase || isDot || long < 1 || isLeftOut(segment)) continue;
    const apart = distanceTo(linework, segment, tip);
    if (apart <= reach) near.push({ segment, apart });
  }
  near.sort((a, b) => a.apart - b.apart);
  const [best] = near;
  if (!best) return { on: null, ambiguous: false };
  const along = Math.min(1, Math.max(0, footOn(linework, best.segment, tip)));
  return {
    on: pointOn(linework, best.segment, along),
    ambiguous: near.some(
      ({ segment, apart }) => style[segment] !== style[best.segment] && apart <= best.apart + DOUBTFUL_PT / userUnit,
    ),
  };
}
