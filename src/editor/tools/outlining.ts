import type { Point2 } from "../../geometry/point.ts";
import { selfCrossings } from "../../geometry/polygon.ts";
import { fail } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { soundRing } from "../edits/sound.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { ToolState } from "./tool-state.ts";
import { askedFor, problemOf, repeats } from "./tool-steps.ts";

/** A tool that draws a ring point by point. */
type OutlineState = ToolState & {
  readonly points: readonly Point2[];
  readonly part: "outline" | "hole";
  readonly byRegion?: boolean;
};

/** The key that takes the closed region of the drawing round the pointer or the crosshair for the ring. */
const REGION_KEY = "q";

/**
 * Everything but the start of a tool that draws a ring: point by point or as a closed region of the drawing, closed on its first point or
 * with Enter; `done` is given a sound one.
 */
export function outlining<S extends OutlineState>(
  done: (state: S, context: ToolContext) => ToolStep<S>,
  nameOfPart: (state: S) => string,
): Pick<Tool<S>, "reduce" | "wanted" | "busy" | "points" | "draft"> {
  const close = (state: S, context: ToolContext): ToolStep<S> => {
    const sound = soundRing("", state.points);
    return sound.ok ? done(state, context) : { state, ...problemOf(sound) };
  };
  return {
    reduce(state, event, context) {
      const { points } = state;
      switch (event.is) {
        case "point": {
          if (state.byRegion && points.length === 0) return withRegion(state, askedFor(event.at, context), context);
          if (repeats(points, event.at)) return { state };
          const [first] = points;
          if (first && points.length > 1 && first[0] === event.at[0] && first[1] === event.at[1])
            return close(state, context);
          const next = [...points, event.at];
          if (crosses(next)) return { state, ...problemOf(fail("ring.crosses-itself")) };
          return { state: { ...state, points: next } };
        }
        case "finish":
          return points.length === 0 ? { state, used: false } : close(state, context);
        case "back":
          return points.length === 0 ? { state, used: false } : { state: { ...state, points: points.slice(0, -1) } };
        case "key": {
          if (event.key.toLowerCase() !== REGION_KEY || event.ctrl || event.alt) return { state, used: false };
          // Off the sheet there is nothing to take: the next point says where.
          if (context.place === null) return { state: { ...state, byRegion: !state.byRegion } };
          return withRegion(state, context.place, context);
        }
        case "release":
          return { state: { ...state, points: [] } };
        default:
          return { state, used: false };
      }
    },
    wanted(state) {
      const { points } = state;
      const code =
        points.length === 0 && state.byRegion
          ? "outline.region"
          : points.length === 0
            ? "outline.first"
            : points.length < 3
              ? "outline.next"
              : "outline.close";
      const asks = points.length === 0 ? (["position"] as const) : (["length", "position"] as const);
      return { code, params: { part: nameOfPart(state) }, asks };
    },
    busy: ({ points }) => points.length > 0,
    points: ({ points }) => points,
    draft({ points }, at, { pixel }) {
      const pen = new DraftPen(pixel);
      const [first] = points;
      const open = at ? [...points, at] : points;
      const closing = first && open.length > 2 ? pen.line([open.at(-1)!, first], { dashed: true }) : [];
      return [...pen.line(open), ...closing, ...pen.handles(points)];
    },
  };
}

/** The state with the closed region of the drawing round a place for its ring, whatever was put before; what stands free inside it is left to be cut as holes. */
function withRegion<S extends OutlineState>(state: S, place: Point2, { drawn }: ToolContext): ToolStep<S> {
  const region = drawn ? drawn.region(place) : ({ found: false, why: "no-lines" } as const);
  if (!region.found) return { state, ...problemOf(fail(`region.${region.why}`)) };
  return { state: { ...state, points: region.outline } };
}

/** Whether the last piece of an open line crosses an earlier one. */
const crosses = (points: readonly Point2[]): boolean =>
  // The piece that would close the ring is not drawn yet, and may cross for now.
  selfCrossings(points).some(({ j }) => j !== points.length - 1);
