import { findingKey, isQuiet, isSameFinding } from "../check/finding.ts";
import type { Act } from "./act.ts";
import { classifyArea } from "./edits/areas.ts";
import { deleteRecords } from "./edits/delete-records.ts";
import { joinMany, settleMany } from "./edits/many.ts";
import { makeRack } from "./edits/racks.ts";
import { joinRuns, meetingRuns, splitRun } from "./edits/split-run.ts";
import { followOutlines } from "./edits/storey-outlines.ts";
import { type Lock, nextAxes, nextStep } from "./lock.ts";
import { plainOnes } from "./said/accept.ts";
import { acceptAllSaid, acceptSaid, nextSaid, setAsideSaid } from "./said/said-acts.ts";
import { inHand, openOnes, saidOf } from "./said/said-of.ts";
import { SELECTING_ACTS } from "./selecting-acts.ts";
import { pickedIn, pickedOf, type Selection } from "./selection.ts";
import type { Session, SessionState } from "./session.ts";
import { sheetsInOrder } from "./sheet-order.ts";
import type { Stage } from "./stage.ts";
import type { ToolKey } from "./tool-event.ts";
import type { ToolRequest } from "./tool-request.ts";

const tool = (
  id: string,
  name: string,
  key: string,
  stage: Stage,
  request: ToolRequest,
  enabled: (state: SessionState) => boolean = hasSheet,
): Act => ({
  id,
  name,
  key,
  stage,
  enabled,
  run(session) {
    if (session.getState().stage !== stage) session.setStage(stage);
    session.start(request);
  },
});

/** A tool that begins with what lies at the pointer or the crosshair, by its own key; where there is nothing, it waits to be shown a place. */
const atPointer = (id: string, name: string, key: string, stage: Stage, request: ToolRequest): Act => {
  const plain = tool(id, name, key, stage, request);
  return {
    ...plain,
    run(session) {
      plain.run(session);
      const { tool: inHand, aim } = session.getState();
      if (inHand.tool !== request.tool || aim === null) return;
      session.key({ key, shift: false, alt: false, ctrl: false });
      if (!session.getState().busy) session.notify(null);
    },
  };
};

const lock = (id: string, name: string, key: string, next: (present: Lock) => Lock): Act => ({
  id,
  name,
  key,
  always: true,
  enabled: hasSheet,
  run: (session) => session.lockTo(next(session.getState().lock)),
});

function hasSheet({ sheet, viewport }: SessionState): boolean {
  return sheet !== null && viewport !== null;
}

/** The record of a table that is selected, or undefined. */
const chosen = ({ selection }: SessionState, table: string): string | undefined =>
  selection && "table" in selection && selection.table === table ? selection.id : undefined;
/** The selected vertex of a run, where it is none of its ends. */
function chosenVertex({ job, selection }: SessionState): { readonly id: string; readonly vertex: number } | undefined {
  if (!selection || !("table" in selection) || selection.table !== "elements") return undefined;
  const { id, vertex } = selection;
  const element = job.elements[id];
  if (vertex === undefined || !element || !("wiring" in element)) return undefined;
  return vertex > 0 && vertex < element.vertices.length - 1 ? { id, vertex } : undefined;
}
/** Whether several runs are selected, and nothing else. */
const areRuns = ({ job, selection }: SessionState): boolean =>
  selection !== null &&
  "several" in selection &&
  selection.several.every(({ table, id }) => table === "elements" && job.elements[id]?.kind === "run");
const hasArea = (state: SessionState): boolean => chosen(state, "areas") !== undefined;
const hasSpots = (state: SessionState): boolean =>
  state.job.areas[chosen(state, "areas") ?? ""]?.elevation.shape.is === "spots";
const hasStorey = (state: SessionState): boolean => chosen(state, "storeyOutlines") !== undefined;

const settle = (is: "roof" | "floor-above" | "not-settled", name: string): Act => ({
  id: `settle-${is}`,
  name,
  stage: "roof",
  enabled: ({ job, selection }) =>
    pickedIn(selection, "areas").some((area) => job.areas[area]?.classification.is !== is),
  run(session) {
    const { job, selection } = session.getState();
    const [area, ...more] = pickedIn(selection, "areas");
    if (area === undefined) return;
    session.attempt(more.length === 0 ? classifyArea(job, area, { is }) : settleMany(job, [area, ...more], is));
  },
});

/** Every act of the session, in the order of the list. Stages, opening, saving and issuing are the application's own acts. */
export const ACTS: readonly Act[] = [
  tool("measure-scale", "Measure the scale", "m", "sheet", { tool: "measure-scale" }),
  tool("mark-viewport", "A part with its own scale", "v", "sheet", { tool: "mark-viewport" }),
  tool(
    "reshape-part",
    "Move the corners of this part",
    "r",
    "sheet",
    { tool: "reshape-part" },
    (state) => state.job.viewports[chosen(state, "viewports") ?? ""]?.region != null,
  ),
  tool("register", "Register on another sheet", "g", "sheet", { tool: "register" }, ({ job, viewport }) =>
    Object.keys(job.viewports).some((id) => viewport !== null && id !== viewport),
  ),
  tool("outline-area", "Outline a deck area", "o", "roof", { tool: "outline-area" }),
  atPointer("take-region", "Take the region round the pointer", "q", "roof", { tool: "outline-area", byRegion: true }),
  tool("outline-again", "Outline this area again", "O", "roof", { tool: "outline-area", part: "outline" }, hasArea),
  tool("cut-hole", "Cut a hole into this area", "h", "roof", { tool: "outline-area", part: "hole" }, hasArea),
  tool("slope-direction", "Give this deck a slope", "s", "roof", { tool: "slope-direction" }, hasArea),
  tool("spots", "Give this deck elevations at spots", "e", "roof", { tool: "spots" }, hasArea),
  tool("fold-line", "Draw ridges and valleys between spots", "l", "roof", { tool: "fold-line" }, hasSpots),
  tool("outline-storey", "Outline the storey above", "u", "roof", { tool: "outline-storey" }),
  tool(
    "outline-storey-again",
    "Outline this storey again",
    "U",
    "roof",
    { tool: "outline-storey", part: "outline" },
    hasStorey,
  ),
  tool(
    "cut-court",
    "Cut a court or shaft out of this storey",
    "k",
    "roof",
    { tool: "outline-storey", part: "hole" },
    hasStorey,
  ),
  settle("roof", "Settle this area as roof"),
  settle("floor-above", "Settle this area as floor above"),
  settle("not-settled", "Leave this area not settled"),
  {
    id: "settle-from-outline",
    name: "Let the storeys above settle this area",
    stage: "roof",
    enabled: (state) =>
      hasArea(state) &&
      Object.keys(state.job.storeyOutlines).length > 0 &&
      state.job.areas[chosen(state, "areas")!]?.classification.is !== "from-outline",
    run(session) {
      const area = chosen(session.getState(), "areas");
      if (area !== undefined) session.attempt(followOutlines(session.getState().job, area));
    },
  },
  tool("trace-run", "Trace a run", "t", "wiring", { tool: "trace-run" }),
  atPointer("follow-line", "Follow a drawn line", "w", "wiring", { tool: "follow-line" }),
  {
    id: "make-rack",
    name: "Make this run a rack",
    stage: "wiring",
    enabled: (state) => {
      const id = chosen(state, "elements");
      const element = id === undefined ? undefined : state.job.elements[id];
      return element !== undefined && "wiring" in element;
    },
    run(session) {
      const id = chosen(session.getState(), "elements");
      if (id !== undefined) session.attempt(makeRack(session.getState().job, id));
    },
  },
  {
    id: "split-run",
    name: "Split this run at its selected vertex",
    stage: "wiring",
    enabled: (state) => chosenVertex(state) !== undefined,
    run(session) {
      const at = chosenVertex(session.getState());
      if (at) session.attempt(splitRun(session.getState().job, at.id, at.vertex, session.newId()));
    },
  },
  {
    id: "join-runs",
    name: "Join runs that meet end to end",
    stage: "wiring",
    enabled: (state) => areRuns(state) || meetingRuns(state.job, chosen(state, "elements") ?? "").length === 1,
    run(session) {
      const { job, selection } = session.getState();
      if (areRuns(session.getState())) {
        session.attempt(joinMany(job, pickedIn(selection, "elements")));
        return;
      }
      const id = chosen(session.getState(), "elements");
      const [other] = meetingRuns(job, id ?? "");
      if (id !== undefined && other !== undefined) session.attempt(joinRuns(job, id, other));
    },
  },
  tool("trace-rack", "Trace a rack", "T", "wiring", { tool: "trace-rack" }),
  tool("parallel-runs", "Lay runs beside this one", "P", "wiring", { tool: "parallel-runs" }, (state) => {
    const [id, ...others] = pickedIn(state.selection, "elements");
    return hasSheet(state) && others.length === 0 && "wiring" in (state.job.elements[id ?? ""] ?? {});
  }),
  tool("copy-along", "Copy this along a line", "C", "wiring", { tool: "copy-along" }, (state) => {
    const [id, ...others] = pickedIn(state.selection, "elements");
    return hasSheet(state) && others.length === 0 && "at" in (state.job.elements[id ?? ""] ?? {});
  }),
  tool(
    "copy-selected",
    "Copy what is selected",
    "A",
    "wiring",
    { tool: "copy-selected" },
    (state) => hasSheet(state) && pickedIn(state.selection, "elements").length > 0,
  ),
  tool("place-box", "Place boxes", "b", "wiring", { tool: "place-box" }),
  tool("place-fitting", "Place fittings", "f", "wiring", { tool: "place-fitting" }),
  tool("place-entry", "Place conductor entries", "c", "wiring", { tool: "place-entry" }),
  {
    id: "place-note",
    name: "Write notes with a leader",
    key: "N",
    enabled: ({ sheet }) => sheet !== null,
    run: (session) => void session.start({ tool: "place-note" }),
  },
  {
    id: "next-suggestion",
    name: "Next thing the drawing says",
    key: "d",
    enabled: (state) => openOnes(state).length > 0,
    run: (session) => nextSaid(session, 1),
  },
  {
    id: "previous-suggestion",
    name: "Previous thing the drawing says",
    key: "D",
    enabled: (state) => openOnes(state).length > 0,
    run: (session) => nextSaid(session, -1),
  },
  {
    id: "accept-suggestion",
    name: "Take what the drawing says here",
    key: "y",
    enabled: (state) => {
      const meanings = inHand(state)?.meanings ?? [];
      return meanings.length === 1 && meanings[0]!.accept !== null;
    },
    run: (session) => acceptSaid(session, 0),
  },
  {
    id: "set-aside-suggestion",
    name: "Set aside what the drawing says here",
    key: "Y",
    enabled: (state) => inHand(state) !== undefined,
    run: setAsideSaid,
  },
  {
    id: "accept-elevations",
    name: "Take all elevations that mean one thing",
    enabled: (state) => plainOnes("elevation", saidOf(state)).length > 0,
    run: (session) => acceptAllSaid(session, "elevation"),
  },
  {
    id: "accept-sizes",
    name: "Take all sizes that mean one thing",
    enabled: (state) => plainOnes("size", saidOf(state)).length > 0,
    run: (session) => acceptAllSaid(session, "size"),
  },
  {
    id: "snap-to-drawing",
    name: "Snap to the lines of the drawing, or not",
    key: "x",
    always: true,
    enabled: ({ drawn, sheet }) => drawn !== null && drawn.sheet === sheet,
    run: (session) => session.snapToDrawing(!session.getState().toDrawing),
  },
  {
    id: "measure",
    name: "Measure a distance or an area",
    key: "M",
    enabled: hasSheet,
    run: (session) => void session.start({ tool: "measure" }),
  },
  lock("lock-directions", "Lock directions while drawing, or not", "z", (present) => ({ ...present, on: !present.on })),
  lock("lock-step", "Lock directions to right angles, or in steps of 45°, 30° or 15°", "Z", nextStep),
  lock("lock-axes", "Count locked directions from the page, the building or the last piece", "j", nextAxes),
  ...SELECTING_ACTS,
  {
    id: "move-selected",
    name: "Move what is selected by the arrow keys",
    key: "a",
    enabled: (state) => removable(state.selection),
    run: (session) => void session.start({ tool: "edit", begin: "move" }),
  },
  {
    id: "delete",
    name: "Delete what is selected",
    key: "Delete",
    enabled: (state) => removable(state.selection),
    run(session) {
      const { job, selection } = session.getState();
      if (removable(selection)) session.attempt(deleteRecords(job, pickedOf(selection)));
    },
  },
  {
    id: "next-finding",
    name: "Next finding",
    key: "n",
    enabled: (state) => openFindings(state).length > 0,
    run: (session) => goToFinding(session, 1),
  },
  {
    id: "previous-finding",
    name: "Previous finding",
    key: "p",
    enabled: (state) => openFindings(state).length > 0,
    run: (session) => goToFinding(session, -1),
  },
  {
    id: "next-sheet",
    name: "Next sheet",
    key: "PageDown",
    enabled: ({ job }) => Object.keys(job.sheets).length > 1,
    run: (session) => turnSheet(session, 1),
  },
  {
    id: "previous-sheet",
    name: "Previous sheet",
    key: "PageUp",
    enabled: ({ job }) => Object.keys(job.sheets).length > 1,
    run: (session) => turnSheet(session, -1),
  },
  {
    id: "undo",
    name: "Undo",
    key: "Ctrl+z",
    enabled: ({ undo, busy }) => busy || undo.length > 0,
    run: (session) => session.undo(),
  },
  {
    id: "redo",
    name: "Redo",
    key: "Ctrl+y",
    enabled: ({ redo, busy }) => !busy && redo.length > 0,
    run: (session) => session.redo(),
  },
];

/** The act of that id; throws for an id that is none. */
export function act(id: string): Act {
  const found = ACTS.find((one) => one.id === id);
  if (!found) throw new Error(`no act "${id}"`);
  return found;
}

/** The act a key stands for, or undefined. Redo also answers to Ctrl+Shift+Z, as on every platform. */
export function actOfKey({ key, ctrl, shift, alt }: ToolKey): Act | undefined {
  if (alt) return undefined;
  const letter = key.length === 1 && !shift ? key.toLowerCase() : key;
  const name = ctrl ? `Ctrl+${shift && letter.toLowerCase() === "z" ? "y" : letter}` : letter;
  return ACTS.find((one) => one.key === name);
}

/** A viewport would take everything traced in it along: it is deleted where it is listed, not by a key. */
const removable = (selection: Selection): boolean =>
  selection !== null && !("finding" in selection) && pickedOf(selection).length > 0;

const openFindings = ({ result }: SessionState) => result?.findings.filter(({ verdict }) => !isQuiet(verdict)) ?? [];

/** Selects the next finding that needs attention, round and round, and shows its sheet. */
function goToFinding(session: Session, by: 1 | -1): void {
  const state = session.getState();
  const open = openFindings(state);
  const { selection } = state;
  const present =
    selection && "finding" in selection ? open.findIndex((finding) => isSameFinding(finding, selection.finding)) : -1;
  const next = open[present === -1 ? (by === 1 ? 0 : open.length - 1) : (present + by + open.length) % open.length];
  if (!next) return;
  session.setSheet(next.sheet);
  session.select({ finding: findingKey(next) });
}

function turnSheet(session: Session, by: 1 | -1): void {
  const { job, sheet } = session.getState();
  const sheets = sheetsInOrder(job);
  const present = sheet === null ? -by : sheets.indexOf(sheet);
  session.setSheet(sheets[(present + by + sheets.length) % sheets.length] ?? null);
}
