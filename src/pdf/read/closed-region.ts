import type { Point2 } from "../../geometry/point.ts";
import { type Ring, signedArea } from "../../geometry/polygon.ts";
import type { SheetUnits } from "../../units/quantity.ts";
import { chosen, type Linework, type LineworkChoice } from "./linework.ts";
import { type PlanarGraph, planarGraph } from "./planar-graph.ts";
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
      readonly segments: readonly number[];
    }
  | {
      readonly found: false;
      /** Nothing closes round the place; it lies on a line; the lines are too many to be sure. */
      readonly why: "open" | "on-a-line" | "too-dense";
    };

/** Ends this near on paper touch. */
const TOUCH_PT = 0.25;
/** Half the side of the first window looked at, in 1/72 in. of paper; each next is larger by `WIDER`. */
const FIRST_WINDOW_PT = 48;
const WIDER = 4;
/** Lines looked at in one window. */
export const MOST_LINES = 20_000;

/**
 * The smallest closed loop of linework round a place: the face of the plan that the lines make of it. Lines that end inside
 * it bound nothing; what stands free inside it becomes a hole. Hatching and letters bound nothing unless asked for.
 */
export function closedRegion(linework: Linework, at: Point2, options: RegionOptions = {}): ClosedRegion {
  const touch = options.touch ?? TOUCH_PT / linework.userUnit;
  const wanted = chosen(linework, options);
  const { only } = options;
  const [x0, y0, x1, y1] = linework.view;
  const whole = Math.max(at[0] - x0, x1 - at[0], at[1] - y0, y1 - at[1]) + 1;
  for (let half = FIRST_WINDOW_PT / linework.userUnit; ; half = Math.min(whole, half * WIDER)) {
    const lines = linework.index.search(
      at[0] - half,
      at[1] - half,
      at[0] + half,
      at[1] + half,
      (segment) => segment < linework.count && wanted(segment) && (!only || only(segment)),
    );
    if (lines.length > MOST_LINES) return { found: false, why: "too-dense" };
    const graph = planarGraph(linework, lines, touch);
    if (graph.distanceTo(at) <= touch) return { found: false, why: "on-a-line" };
    const face = faceRound(graph, at);
    // Within the window nothing is missing that could part the face further.
    const inside = face?.outline.every(([x, y]) => Math.abs(x - at[0]) < half && Math.abs(y - at[1]) < half);
    if (face && (inside || half >= whole)) {
      const slack = touch / 4;
      return {
        found: true,
        outline: withoutStraightCorners(face.outline, slack, true),
        holes: face.holes.map((hole) => withoutStraightCorners(hole, slack, true)),
        segments: face.segments,
      };
    }
    if (half >= whole) return { found: false, why: "open" };
  }
}

interface Face {
  readonly outline: Ring;
  readonly holes: readonly Ring[];
  readonly segments: readonly number[];
}

/** The face of the graph round a place: its outer loop, and the loops of what stands free inside that outer loop. */
function faceRound(graph: PlanarGraph, at: Point2): Face | undefined {
  let best: { loop: Ring; own: readonly Ring[]; segments: readonly number[]; part: number } | undefined;
  const seen = new Set<number>();
  for (const first of graph.edgesRightOf(at)) {
    if (seen.has(first)) continue;
    const { edges, loop, segments, part } = graph.loopFrom(first);
    for (const edge of edges) seen.add(edge);
    const loops = graph.simpleLoops(loop);
    const round = loops.find((simple) => signedArea(simple) > 0 && holds(simple, at));
    // What comes before the loop round the place stands free in the face.
    if (!round) continue;
    best = { loop: round, own: loops.filter((simple) => signedArea(simple) < 0), segments, part };
    break;
  }
  if (!best) return undefined;
  const { loop: outline, own, segments, part } = best;
  const free = graph
    .outerLoops()
    .filter((other) => other.part !== part && holds(outline, other.loop[0]!))
    .map(({ loop }) => loop);
  // A part that stands free within another free part, or within a hole that hangs on the outline, is none of this face's.
  const all = [...own, ...free];
  const holes = all.filter((hole) => own.includes(hole) || !all.some((other) => other !== hole && within(hole, other)));
  return { outline, holes: holes.map((hole) => [...hole].reverse()), segments };
}

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
