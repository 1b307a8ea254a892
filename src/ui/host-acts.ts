import type { Session } from "../editor/session.ts";
import { STAGES } from "../editor/stage.ts";
import { focusFirst } from "./focus-first.ts";
import type { Host } from "./host.ts";
import { turnRoomMap } from "./room-map-choice.ts";
import type { View } from "./view.ts";
import { stageWords } from "./words.ts";

/** An act of the application: opening, saving, moving about. */
export interface HostAct {
  readonly id: string;
  readonly name: string;
  /** Works wherever the focus is, "Ctrl+" standing for Control or Command; "Alt+1" to "Alt+5" are the stages. */
  readonly key?: string;
  run(): void;
}

/** Every act of the application, in the order of the list. */
export const hostActs = (host: Host, session: Session, view: View): readonly HostAct[] => [
  { id: "open-drawings", name: "Open drawings", key: "Ctrl+o", run: () => void host.chooseFiles("drawings") },
  { id: "open-job", name: "Open a job file", run: () => void host.chooseFiles("job") },
  { id: "save-job", name: "Save the job as a file", key: "Ctrl+s", run: () => void host.saveJobFile(true) },
  { id: "new-job", name: "New job", run: () => void host.newJob() },
  { id: "all-jobs", name: "All jobs", run: () => void host.showStart() },
  ...STAGES.map((stage, index) => ({
    id: `stage-${stage}`,
    name: `Stage ${stageWords[stage].name}`,
    key: `Alt+${index + 1}`,
    run: () => {
      session.setStage(stage);
      view.store.setState({ drawer: true });
      focusFirst(`#drawer-${stage}`);
    },
  })),
  {
    id: "lay-by-grid",
    name: "Lay this sheet on another by its grid",
    key: "Alt+g",
    run: () => {
      const { viewport } = session.getState();
      if (viewport === null) return;
      session.select({ table: "viewports", id: viewport });
      view.store.setState({ byGrid: viewport });
    },
  },
  { id: "room-map", name: "Show or hide the room map", key: "Alt+m", run: () => turnRoomMap(session, view) },
  {
    id: "new-issue",
    name: "New issue of this sheet",
    key: "Alt+r",
    run: () => {
      const { sheet } = session.getState();
      if (sheet !== null) view.store.setState({ issues: { is: "lay", sheet } });
    },
  },
  {
    id: "compare-issues",
    name: "Compare this sheet with the issue before",
    key: "Alt+u",
    run: () => {
      const { sheet, job } = session.getState();
      if (sheet !== null && job.sheets[sheet]?.earlier)
        view.store.setState({ issues: { is: "compare", sheet, begin: undefined } });
    },
  },
  {
    id: "grey-drawing",
    name: "Grey the drawing, or show it as it is",
    key: "Alt+k",
    run: () => view.store.setState(({ faded }) => ({ faded: !faded })),
  },
  {
    id: "sections",
    name: "Show the section through the wiring under the pointer, or no more",
    key: "Alt+x",
    run: () => {
      const sections = !view.store.getState().sections;
      const said = sections ? "Sections are shown where the pointer is on wiring." : "Sections are shown no more.";
      view.store.setState({ sections, said });
    },
  },
  { id: "fit-sheet", name: "Fit the sheet into the window", key: "Alt+0", run: () => view.fit() },
  { id: "focus-sheet", name: "Go to the sheet", key: "Alt+s", run: () => view.focusSheet() },
  {
    id: "focus-card",
    name: "Go to the card",
    key: "Alt+c",
    run: () => focusFirst(".card-body"),
  },
  {
    id: "focus-profile",
    name: "Go to the profile",
    key: "Alt+p",
    run: () => document.querySelector<HTMLElement>(".profile-plot")?.focus(),
  },
  { id: "find-label", name: "Find by label", key: "Alt+l", run: () => view.store.setState({ labels: true }) },
  { id: "find-act", name: "Find an act", key: "F1", run: () => view.store.setState({ finder: true }) },
];

/** Whether what has the focus takes text, and with it the keys that undo typing. */
const takesText = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.matches("input, textarea, [contenteditable]");

/** Takes back or does again with the keys every platform has for it, wherever the focus is but in a text; false for other keys. */
export function runUndoKey(event: KeyboardEvent, session: Session): boolean {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || takesText(event.target)) return false;
  const key = event.key.toLowerCase();
  if (key !== "z" && key !== "y") return false;
  event.preventDefault();
  if (key === "y" || event.shiftKey) session.redo();
  else session.undo();
  return true;
}

/** Runs the act of a key that works everywhere; false when there is none. */
export function runHostKey(event: KeyboardEvent, acts: readonly HostAct[]): boolean {
  const prefix = event.ctrlKey || event.metaKey ? "Ctrl+" : event.altKey ? "Alt+" : "";
  // With Alt held some keyboards give another letter: the place of the key says which it is.
  const key = prefix === "Alt+" ? event.code.replace(/^(Key|Digit)/, "").toLowerCase() : event.key;
  const found = acts.find((act) => act.key?.toLowerCase() === `${prefix}${key}`.toLowerCase());
  if (!found) return false;
  event.preventDefault();
  found.run();
  return true;
}
