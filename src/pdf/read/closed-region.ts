import type { Point2 } from "../../geometry/point.ts";
import { type Ring, signedArea } from "../../geometry/polygon.ts";
import type { SheetUnits } from "../../units/quantity.ts";
import { chosen, type Linework, type LineworkChoice } from "./linework.ts";
import { type PlanarGraph, planarGraph, simpleLoops } from "./planar-graph.ts";
import { distanceTo } from "./segment-geometry.ts";
import { withoutStraightCorners } from "./straight-corners.ts";

/** How to look for a closed region. */
export interface RegionOptions extends LineworkChoice {
  /** Ends this near to each other or to a line count as touching, sheet units; left out: `TOUCH_PT` on paper. */
  readonly touch?: SheetUnits;
  /** Which segments may bound it, beside the choice: all when left out. */
  readonly only?: (segment: number) => boolean;
}

/** The smallest region of the plan round a place that the linework closes, or why there is none. Sheet space. */
export type ClosedRegion =
  | {
      readonly found: true;
      readonly outline: Ring;
      readonly holes: readonly Ring[];
      /** The segments its outline consists of. */
      readonly segments: readonly number[];
    }
  | {
      readonly found: false;
      /** Nothing closes round the place but the border of the sheet, or nothing at all; it lies on a line; the lines are too many to be sure. */
      readonly why: "open" | "frame" | "on-a-line" | "too-dense";
    };

/** Ends this near on paper touch. */
const TOUCH_PT = 0.25;
/** Lines met and steps taken, as the graph counts them, before the search gives up: a twentieth of a second or so. */
export const MOST_LOOKED = 150_000;
/** First stretch to the right of the place that is looked along, in 1/72 in. of paper; each next is longer by `WIDER`. */
const FIRST_STRETCH_PT = 48;
const WIDER = 4;
/** A region this near (as a part of the page's size) to the page's edge on three sides is bounded by the border of the sheet. */
const FRAME = 0.06;

/**
 * The smallest closed loop of linework round a place: the face of the plan that the lines make of it. Lines that end inside
 * it bound nothing; what stands free inside it becomes a hole. Hatching and letters bound nothing unless asked for. The region
 * between the border of a sheet and what is drawn there is none.
 */
export function closedRegion(linework: Linework, at: Point2, options: RegionOptions = {}): ClosedRegion {
  const touch = options.touch ?? TOUCH_PT / linework.userUnit;
  const among = chosen(linework, options);
  const { only } = options;
  const wanted = only ? (segment: number) => among(segment) && only(segment) : among;
  const [x, y] = at;
  const near = linework.index.search(x - touch, y - touch, x + touch, y + touch, (segment) => {
    return segment < linework.count && wanted(segment) && distanceTo(linework, segment, at) <= touch;
  });
  if (near.length > 0) return { found: false, why: "on-a-line" };
  const graph = planarGraph(linework, wanted, touch, MOST_LOOKED);
  const round = loopRound(graph, linework, at, wanted);
  if (graph.spent()) return { found: false, why: "too-dense" };
  if (!round) return { found: false, why: "open" };
  const slack = touch / 4;
  const outline = withoutStraightCorners(round.outline, slack, true);
  if (isFrame(outline, linework.view)) return { found: false, why: "frame" };
  const free = loopsWithin(graph, linework, round.loop, outline, wanted);
  if (graph.spent()) return { found: false, why: "too-dense" };
  // What stands free within another free part, or within a hole that hangs on the outline, is none of this face's.
  const all = [...round.own, ...round.free.filter((ring) => holds(round.outline, ring[0]!)), ...free];
  const holes = all.filter(
    (hole) => round.own.includes(hole) || !all.some((other) => other !== hole && within(hole, other)),
  );
  return {
    found: true,
    outline,
    holes: holes.map((hole) => withoutStraightCorners([...hole].reverse(), slack, true)),
    segments: round.segments,
  };
}

interface Round {
  readonly outline: Ring;
  /** The nodes of the outline. */
  readonly loop: readonly number[];
  /** Holes that hang on the outline at single places, clockwise. */
  readonly own: readonly Ring[];
  /** Loops round what stands free between the place and the outline, clockwise; of what stands inside such a loop some may be missing. */
  readonly free: readonly Ring[];
  readonly segments: readonly number[];
}

/** The loop that has a place at its left: the lines to the right of the place are asked one after the other. */
function loopRound(
  graph: PlanarGraph,
  linework: Linework,
  at: Point2,
  wanted: (segment: number) => boolean,
): Round | undefined {
  const { coords } = linework;
  const ringOf = (loop: readonly number[]): Ring => loop.map(graph.placeOf);
  // What stands free between the place and the outline is passed from side to side.
  const passed: (readonly [number, number])[] = [];
  const free: Ring[] = [];
  for (const { segment, x, part } of crossedBy(linework, at, wanted)) {
    if (graph.spent()) return undefined;
    if (passed.some(([from, to]) => x > from && x <= to)) continue;
    const edge = graph.edgeAt(segment, part);
    if (!edge) continue;
    // Going up, a line has at its left what lies to the left of it.
    const up = coords[4 * segment + 3]! > coords[4 * segment + 1]!;
    const [from, to] = up ? edge : [edge[1], edge[0]];
    if (graph.walked(from, to)) continue;
    const walked = graph.walk(from, to);
    if (!walked) return undefined;
    const loops = simpleLoops(walked);
    const rings = loops.map(ringOf);
    const round = rings.find((ring) => signedArea(ring) > 0 && holds(ring, at));
    if (round) {
      const own = rings.filter((ring) => signedArea(ring) < 0);
      const loop = loops[rings.indexOf(round)]!;
      const sources = loop.map((node, i) => graph.sourceOf(node, loop[(i + 1) % loop.length]!));
      return { outline: round, loop, own, free, segments: [...new Set(sources)] };
    }
    for (const ring of rings) {
      if (signedArea(ring) >= 0) continue;
      free.push(ring);
      passed.push(...spansOf(ring, at[1]));
    }
  }
  return undefined;
}

/** The segments that the ray to the right of a place crosses, nearest first, and where. */
function* crossedBy(linework: Linework, [x, y]: Point2, wanted: (segment: number) => boolean) {
  const { coords, index, count, view, userUnit } = linework;
  const end = view[2] + 1;
  let stretch = FIRST_STRETCH_PT / userUnit;
  for (let from = x; from < end; from += stretch, stretch *= WIDER) {
    const to = from + stretch;
    const crossed: { segment: number; x: number; part: number }[] = [];
    index.search(from, y, to, y, (segment) => {
      if (segment >= count || !wanted(segment)) return false;
      const at = 4 * segment;
      const ay = coords[at + 1]!;
      const by = coords[at + 3]!;
      if (ay > y === by > y) return false;
      const part = (y - ay) / (by - ay);
      const crossing = coords[at]! + (coords[at + 2]! - coords[at]!) * part;
      if (crossing > from && crossing <= to) crossed.push({ segment, x: crossing, part });
      return false;
    });
    yield* crossed.sort((a, b) => a.x - b.x);
  }
}

/** The stretches of the level line at `y` that lie inside a ring. */
function spansOf(ring: Ring, y: number): (readonly [number, number])[] {
  const crossings: number[] = [];
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [xi, yi] = ring[i]!;
    const [xj, yj] = ring[j]!;
    if (yi > y !== yj > y) crossings.push(xi + ((xj - xi) * (y - yi)) / (yj - yi));
  }
  crossings.sort((a, b) => a - b);
  return crossings.flatMap((x, i) => (i % 2 === 1 ? [[crossings[i - 1]!, x] as const] : []));
}

/** The loops round what stands free inside an outline, clockwise. `loop` are the nodes of the outline, `plain` is it with fewer corners. */
function loopsWithin(
  graph: PlanarGraph,
  { coords, index, count }: Linework,
  loop: readonly number[],
  plain: Ring,
  wanted: (segment: number) => boolean,
): Ring[] {
  const outline = loop.map(graph.placeOf);
  const after = new Map(loop.map((node, i) => [node, loop[(i + 1) % loop.length]!]));
  const [x0, y0, x1, y1] = boxOf(outline);
  const inside = index.search(
    x0,
    y0,
    x1,
    y1,
    (segment) =>
      segment < count &&
      wanted(segment) &&
      holds(
        plain,
        middleOf(
          [coords[4 * segment]!, coords[4 * segment + 1]!],
          [coords[4 * segment + 2]!, coords[4 * segment + 3]!],
        ),
      ),
  );
  const loops: Ring[] = [];
  for (const segment of inside) {
    if (graph.spent()) return loops;
    const row = graph.nodesOf(segment);
    for (let i = 1; i < row.length; i++) {
      const [one, other] = [row[i - 1]!, row[i]!];
      // The outline's own edges have another face at their other side.
      if (after.get(one) === other || after.get(other) === one) continue;
      if (!holds(outline, middleOf(graph.placeOf(one), graph.placeOf(other)))) continue;
      for (const [from, to] of [
        [one, other],
        [other, one],
      ] as const) {
        if (graph.walked(from, to)) continue;
        const walked = graph.walk(from, to);
        if (!walked) return loops;
        const rings = simpleLoops(walked).map((loop) => loop.map(graph.placeOf));
        // Of the loops of a part only the one round its outside runs clockwise in all.
        if (rings.reduce((sum, ring) => sum + signedArea(ring), 0) >= 0) continue;
        loops.push(...rings.filter((ring) => signedArea(ring) < 0 && holds(outline, ring[0]!)));
      }
    }
  }
  return loops;
}

/** Whether a region is what the border of the sheet holds: it comes near the page's edge on three sides. */
function isFrame(outline: Ring, [x0, y0, x1, y1]: Linework["view"]): boolean {
  const [left, bottom, right, top] = boxOf(outline);
  const [wide, high] = [FRAME * (x1 - x0), FRAME * (y1 - y0)];
  return [left - x0 < wide, x1 - right < wide, bottom - y0 < high, y1 - top < high].filter(Boolean).length >= 3;
}

function boxOf(ring: Ring): [number, number, number, number] {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of ring) {
    [x0, x1] = [Math.min(x0, x), Math.max(x1, x)];
    [y0, y1] = [Math.min(y0, y), Math.max(y1, y)];
  }
  return [x0, y0, x1, y1];
}

const middleOf = ([ax, ay]: Point2, [bx, by]: Point2): Point2 => [(ax + bx) / 2, (ay + by) / 2];

/** Whether the first of two rings that do not cross lies inside the second; they may have corners in common. */
function within(ring: Ring, other: Ring): boolean {
  const own = ring.find((p) => !other.some((q) => p[0] === q[0] && p[1] === q[1]));
  return own !== undefined && holds(other, own);
}

/** Whether a ring holds a place, even-odd. */
function holds(ring: Ring, [x, y]: Point2): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [xi, yi] = ring[i]!;
    const [xj, yj] = ring[j]!;
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}
