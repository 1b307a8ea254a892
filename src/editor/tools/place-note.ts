import type { Point2 } from "../../geometry/point.ts";
import { nextLabel } from "../../job/labels.ts";
import type { NoteAbout } from "../../job/note.ts";
import { fail, ok } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { addNote } from "../edits/notes.ts";
import { nearestSegment, nearestVertex, placedOn } from "../near.ts";
import { selectionOfMark } from "../pick.ts";
import type { Tool, ToolContext, ToolStep } from "../tool.ts";
import { placeForWords } from "../words-room.ts";
import type { PlaceNoteState } from "./tool-state.ts";
import { problemOf, repeats } from "./tool-steps.ts";

const FRESH: PlaceNoteState = { tool: "place-note", at: null, place: null, about: null };

/** Writes notes, one after the other: the point a note shows to, where its words stand (or Enter, and room is found for them), then the words. */
export const placeNoteTool: Tool<PlaceNoteState> = {
  start: (_, { job, sheet }) => (sheet !== null && sheet in job.sheets ? ok(FRESH) : fail("tool.no-sheet")),
  reduce(state, event, context) {
    const { at, place } = state;
    switch (event.is) {
      case "point":
        if (at === null)
          return { state: { ...state, at: event.at, about: whatIsThere(context, event.at, event.mark) } };
        return repeats([at], event.at) ? { state } : { state: { ...state, place: event.at } };
      case "typed":
        return written(state, event.text, context);
      case "finish":
        if (at === null) return { state: null };
        return place === null
          ? { state: { ...state, place: roomFor(at, "", context) } }
          : refused(state, "note.no-words");
      case "back":
        if (at === null) return { state, used: false };
        return { state: place === null ? FRESH : { ...state, place: null } };
      case "release":
        return { state: FRESH };
      default:
        return { state, used: false };
    }
  },
  wanted({ at, place }, { job }) {
    const params = { label: nextLabel(job, "note") };
    if (at === null) return { code: "note.first", params, asks: ["position"] };
    if (place === null) return { code: "note.place", params, asks: ["words", "position"] };
    return { code: "note.words", params, asks: ["words"] };
  },
  busy: ({ at }) => at !== null,
  // Words stand where there is room, not where something is drawn.
  snaps: ({ at }) => at === null,
  stands: () => true,
  points: ({ at, place }) => [at, place].filter((point) => point !== null),
  draft({ at, place }, pointer, { job, pixel }) {
    const pen = new DraftPen(pixel);
    const words = place ?? pointer;
    if (!at || !words) return at ? pen.handles([at]) : [];
    const beside: Point2 = [words[0] + 6 * pixel, words[1] + 4 * pixel];
    return [...pen.arrow(words, at), ...pen.handles([at, words]), ...pen.text(nextLabel(job, "note"), beside, [1, 0])];
  },
};

const refused = (state: PlaceNoteState, code: string): ToolStep<PlaceNoteState> => ({
  state,
  ...problemOf(fail(code)),
});

const roomFor = (at: Point2, text: string, { job, sheet, room }: ToolContext): Point2 =>
  placeForWords(job, sheet ?? "", at, text, room);

function written(state: PlaceNoteState, text: string, context: ToolContext): ToolStep<PlaceNoteState> {
  const { job, sheet, newId } = context;
  const { at, place, about } = state;
  if (at === null || sheet === null) return refused(state, "note.point-first");
  const id = newId();
  const stands = place ?? roomFor(at, text, context);
  const edit = addNote(job, id, { sheet, text, at, place: stands, ...(about ? { about } : {}) });
  if (!edit.ok) return { state, ...problemOf(edit) };
  return { state: FRESH, edit: edit.value, select: { table: "notes", id } };
}

/** What a point shows to: the element marked there or in reach, else the edge of an area or of a storey above. */
function whatIsThere(context: ToolContext, at: Point2, mark: string | null | undefined): NoteAbout | null {
  const { job, sheet, reach } = context;
  const marked = mark == null ? null : selectionOfMark(mark, context);
  if (marked && "finding" in marked) return { table: "elements", id: marked.finding.elementId };
  if (marked && "table" in marked && marked.table === "elements") return { table: "elements", id: marked.id };
  const things = sheet === null ? [] : placedOn(job, sheet);
  for (const table of ["elements", "areas", "storeyOutlines"] as const) {
    const of = (thing: { readonly table: string }) => thing.table === table;
    const near = nearestVertex(things, at, reach, of) ?? nearestSegment(things, at, reach, of);
    if (near) return { table, id: near.thing.id };
  }
  return null;
}
