import type { Point2 } from "../../geometry/point.ts";
import type { Edit } from "../../job/edit.ts";
import type { Id, Tag } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { Result } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { parseTag, tagIn } from "../parse-tag.ts";
import type { Tool, ToolContext, Wanted } from "../tool.ts";
import type { ToolState } from "./tool-state.ts";
import { problemOf, viewportFor } from "./tool-steps.ts";

/** Everything but the start of a tool that places a thing at every point, tagged as typed last; Enter or a double click leaves it. */
export function placing<S extends ToolState & { readonly tag: Tag | null }>(
  add: (state: S, job: Job, id: Id, viewport: Id, at: Point2) => Result<Edit>,
  wanted: (state: S, job: Job) => Wanted,
): Omit<Tool<S>, "start"> {
  return {
    reduce(state, event, context) {
      switch (event.is) {
        case "point": {
          if (placedThere(context, event.at)) return { state };
          const viewport = viewportFor(context, event.at);
          if (!viewport.ok) return { state, ...problemOf(viewport) };
          const tag = state.tag && tagIn(state.tag, context.job, viewport.value);
          if (tag && !tag.ok) return { state, ...problemOf(tag) };
          const id = context.newId();
          const edit = add(tag ? { ...state, tag: tag.value } : state, context.job, id, viewport.value, event.at);
          return edit.ok
            ? { state, edit: edit.value, select: { table: "elements", id } }
            : { state, ...problemOf(edit) };
        }
        case "typed": {
          const tag = parseTag(event.text, context.job, context.viewport);
          return tag.ok ? { state: { ...state, tag: tag.value } } : { state, ...problemOf(tag) };
        }
        case "back":
          return state.tag === null ? { state, used: false } : { state: { ...state, tag: null } };
        case "finish":
          return { state: null };
        default:
          return { state, used: false };
      }
    },
    wanted: (state, { job }) => wanted(state, job),
    busy: () => false,
    stands: () => true,
    points: () => [],
    draft: (_state, at, { pixel }) => (at ? new DraftPen(pixel).handles([at]) : []),
  };
}

/** Whether the thing placed last is just there: the second half of a double click. */
export function placedThere({ job, selection }: ToolContext, [x, y]: Point2): boolean {
  const element =
    selection && "table" in selection && selection.table === "elements" ? job.elements[selection.id] : null;
  return element != null && "at" in element && element.at[0] === x && element.at[1] === y;
}
