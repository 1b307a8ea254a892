import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Entry } from "../../job/elements/entry.ts";
import type { Id } from "../../job/fields.ts";
import { nextLabel } from "../../job/labels.ts";
import { sheetToBuilding } from "../../job/registration.ts";
import { conductorSizeWords, findConductorSize, findInsulation } from "../../trade/conductors.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { DraftPen } from "../draft.ts";
import { addEntry } from "../edits/elements.ts";
import { nearestVertex, type Placed, placedOn } from "../near.ts";
import type { Tool, ToolContext } from "../tool.ts";
import { placedThere } from "./placing.ts";
import type { PlaceEntryState } from "./tool-state.ts";
import { problemOf, readySheet, viewportFor } from "./tool-steps.ts";

/** How near in plan the centre of a box must be to be taken for what is entered, building inches. */
const BOX_REACH_IN = 12;

/** Places conductor entries, one for every point, each with the run that ends there and the box beside it; conductors as typed last. */
export const placeEntryTool: Tool<PlaceEntryState> = {
  start(_, context) {
    const ready = readySheet(context);
    return ready.ok ? ok({ tool: "place-entry", conductor: null, insulation: null }) : ready;
  },
  reduce(state, event, context) {
    const { conductor, insulation } = state;
    switch (event.is) {
      case "point": {
        if (placedThere(context, event.at)) return { state };
        const viewport = viewportFor(context, event.at);
        if (!viewport.ok) return { state, ...problemOf(viewport) };
        const id = context.newId();
        const near = whatIsNear(context, viewport.value, event.at);
        const edit = addEntry(context.job, id, {
          viewport: viewport.value,
          at: event.at,
          ...near,
          conductor,
          insulation,
        });
        return edit.ok ? { state, edit: edit.value, select: { table: "elements", id } } : { state, ...problemOf(edit) };
      }
      case "typed": {
        const read = parseConductor(event.text);
        return read.ok ? { state: { ...state, ...read.value } } : { state, ...problemOf(read) };
      }
      case "back":
        return conductor === null && insulation === null
          ? { state, used: false }
          : { state: { ...state, conductor: null, insulation: null } };
      case "finish":
        return { state: null };
      default:
        return { state, used: false };
    }
  },
  wanted({ conductor, insulation }, { job }) {
    const wire = [conductor === null ? "" : conductorSizeWords(conductor), insulation ?? ""].filter(Boolean).join(" ");
    return {
      code: wire ? "place.entry-wired" : "place.entry",
      params: { item: nextLabel(job, "entry"), wire },
      asks: ["conductor", "position"],
    };
  },
  busy: () => false,
  stands: () => true,
  points: () => [],
  draft: (_state, at, { pixel }) => (at ? new DraftPen(pixel).ring(at, 8) : []),
};

/** `4/0 THWN-2`, `250 kcmil`, `THHN`: a size of the conductor table, an insulation, or both. Problem: `entry.not-a-conductor`. */
export function parseConductor(text: string): Result<Pick<PlaceEntryState, "conductor" | "insulation">> {
  const words = text.trim().split(/\s+/);
  const insulation = findInsulation((words.at(-1) ?? "").toUpperCase())?.id ?? null;
  const rest = (insulation === null ? words : words.slice(0, -1)).join(" ");
  const conductor = rest === "" ? null : findConductorSize(rest);
  if (conductor === undefined || (conductor === null && insulation === null))
    return fail("entry.not-a-conductor", "", { text });
  return ok({ conductor, insulation });
}

/** The run with an end at the place, and the box nearest to it; not recorded where there is none. */
function whatIsNear({ job, sheet, reach }: ToolContext, viewport: Id, at: Point2): Pick<Entry, "run" | "enclosure"> {
  const things = sheet === null ? [] : placedOn(job, sheet);
  const isEnd = ({ record }: Placed): boolean => {
    if (!("wiring" in record)) return false;
    const ends = [record.vertices[0], record.vertices.at(-1)];
    return ends.some((end) => end !== undefined && distance2(end.at, at) <= reach);
  };
  const registered = sheetToBuilding(job, viewport);
  const boxReach = Math.max(reach, registered.ok ? BOX_REACH_IN / registered.value.sim.scale : 0);
  const run = nearestVertex(things, at, reach, isEnd);
  const box = nearestVertex(things, at, boxReach, ({ record }) => "cover" in record);
  return {
    run: run?.thing.id ?? null,
    enclosure: box ? { is: "box", box: box.thing.id } : { is: "not-recorded" },
  };
}
