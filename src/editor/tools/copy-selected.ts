import type { Point2 } from "../../geometry/point.ts";
import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { addCopies, type Copy } from "../edits/copies.ts";
import { outlineOf, sheetOfRecord } from "../handles.ts";
import { parseCopies } from "../parse-copies.ts";
import { pickedIn, selectionOf } from "../selection.ts";
import type { Tool } from "../tool.ts";
import type { CopySelectedState } from "./tool-state.ts";
import { problemOf } from "./tool-steps.ts";

/** Copies what is selected to where its vertex is told to go, and as often again as far on as was typed. One undo step. */
export const copySelectedTool: Tool<CopySelectedState> = {
  start(_request, { job, selection, sheet }) {
    const elements = pickedIn(selection, "elements").filter((id) => sheetOfRecord(job, job.elements[id]!) === sheet);
    const first = job.elements[elements[0] ?? ""];
    if (!first) return fail("copy.nothing");
    const vertex = selection && "table" in selection ? (selection.vertex ?? 0) : 0;
    const { vertices } = outlineOf("elements", first);
    return ok({ tool: "copy-selected", elements, from: vertices[vertex] ?? vertices[0]!, count: 1 });
  },
  reduce(state, event, context) {
    const { elements, from, count } = state;
    switch (event.is) {
      case "point": {
        const by: Point2 = [event.at[0] - from[0], event.at[1] - from[1]];
        if (by[0] === 0 && by[1] === 0) return { state, ...problemOf(fail("copy.same-place")) };
        const copies = repeated(elements, count, by).map((copy) => ({ ...copy, id: context.newId() }));
        const edit = addCopies(context.job, copies);
        if (!edit.ok) return { state, ...problemOf(edit) };
        const select = selectionOf(copies.map(({ id }) => ({ table: "elements", id })));
        return { state: null, edit: edit.value, select };
      }
      case "typed": {
        const typed = parseCopies(event.text, context.job.settings.job.system);
        if (!typed.ok) return { state, ...problemOf(typed) };
        const { count: times, apart } = typed.value;
        if (times === null || apart !== null) return { state, ...problemOf(fail("copy.only-times")) };
        return { state: { ...state, count: times } };
      }
      case "finish":
        return { state, ...problemOf(fail("copy.point-first")) };
      default:
        return { state, used: false };
    }
  },
  wanted({ elements, count }, { job }) {
    const [only] = elements.length === 1 ? elements : [];
    const what = only === undefined ? `${elements.length} elements` : (job.elements[only]?.label ?? "");
    return { code: "copy.place", params: { what, count }, asks: ["times", "length", "position"] };
  },
  busy: () => false,
  draws: true,
  stands: ({ elements }, job) => elements.every((id) => Object.hasOwn(job.elements, id)),
  sheetOf({ elements }, job) {
    const first = job.elements[elements[0] ?? ""];
    return (first && sheetOfRecord(job, first)) ?? null;
  },
  points: ({ from }) => [from],
  draft({ elements, from, count }, at, { job, pixel }) {
    const pen = new DraftPen(pixel);
    if (!at) return pen.handles([from]);
    const copies = repeated(elements, count, [at[0] - from[0], at[1] - from[1]]);
    return [
      ...pen.line([from, at], { dashed: true, faint: true }),
      ...copies.flatMap(({ of, by: [dx, dy] }) => {
        const record = job.elements[of];
        const strands = record ? outlineOf("elements", record).strands : [];
        return strands.flatMap(({ knots, closed, joined }) => {
          const moved = knots.map(({ at: [x, y] }): Point2 => [x + dx, y + dy]);
          return [...(joined ? pen.line(moved, { closed }) : []), ...pen.handles(moved)];
        });
      }),
    ];
  },
};

/** Every element once for every time, each time as far on again. */
const repeated = (elements: readonly string[], count: number, [dx, dy]: Point2): Omit<Copy, "id">[] =>
  Array.from({ length: count }, (_, k) => k + 1).flatMap((k) =>
    elements.map((of) => ({ of, by: [k * dx, k * dy] as const })),
  );
