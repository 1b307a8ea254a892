import type { Point2 } from "../../geometry/point.ts";
import { selfCrossings } from "../../geometry/polygon.ts";
import type { Id } from "../../job/fields.ts";
import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { addArea, addHole, setAreaOutline } from "../edits/areas.ts";
import { soundRing } from "../edits/sound.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import type { OutlineAreaState } from "./tool-state.ts";
import { chosenArea, problemOf, readySheet, repeats, sheetOfArea, viewportFor } from "./tool-steps.ts";

/** Outlines a deck area, gives one another outline, or cuts a hole into one. Closes on the first point or with Enter. */
export const outlineAreaTool: Tool<OutlineAreaState> = {
  start({ area, part = "outline" }, context) {
    const ready = readySheet(context);
    if (!ready.ok) return ready;
    if (area === undefined && part === "outline") return ok({ tool: "outline-area", area: null, part, points: [] });
    const chosen = chosenArea(context, area);
    return chosen.ok ? ok({ tool: "outline-area", area: chosen.value, part, points: [] }) : chosen;
  },
  reduce(state, event, context) {
    const { points } = state;
    switch (event.is) {
      case "point": {
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
      case "release":
        return { state: { ...state, points: [] } };
      default:
        return { state, used: false };
    }
  },
  wanted({ points, part }) {
    const code = points.length === 0 ? "outline.first" : points.length < 3 ? "outline.next" : "outline.close";
    return { code, params: { part }, asks: ["position"] };
  },
  busy: ({ points }) => points.length > 0,
  stands: ({ area }, job) => area === null || area in job.areas,
  sheetOf: ({ area }, job) => (area === null ? null : sheetOfArea(job, area)),
  points: ({ points }) => points,
  draft({ points }, at, { pixel }) {
    const pen = new DraftPen(pixel);
    const [first] = points;
    const open = at ? [...points, at] : points;
    const closing = first && open.length > 2 ? pen.line([open.at(-1)!, first], { dashed: true }) : [];
    return [...pen.line(open), ...closing, ...pen.handles(points)];
  },
};

/** Whether the last piece of an open line crosses an earlier one. */
const crosses = (points: readonly Point2[]): boolean =>
  // The piece that would close the ring is not drawn yet, and may cross for now.
  selfCrossings(points).some(({ j }) => j !== points.length - 1);

function close(state: OutlineAreaState, context: ToolContext): ToolStep<OutlineAreaState> {
  const { area, part, points } = state;
  const sound = soundRing("", points);
  if (!sound.ok) return { state, ...problemOf(sound) };
  const done = (id: Id, edit: ReturnType<typeof addArea>): ToolStep<OutlineAreaState> =>
    edit.ok ? { state: null, edit: edit.value, select: { table: "areas", id } } : { state, ...problemOf(edit) };
  if (area !== null) return done(area, (part === "hole" ? addHole : setAreaOutline)(context.job, area, points));
  const viewport = viewportFor(context, points[0]!);
  if (!viewport.ok) return { state, ...problemOf(viewport) };
  const id = context.newId();
  return done(id, addArea(context.job, id, viewport.value, points));
}
