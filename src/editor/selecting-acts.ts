import type { Act } from "./act.ts";
import { alike } from "./alike.ts";
import type { Placed } from "./near.ts";
import { type Picked, pickedOf, selectionOf, withAlso } from "./selection.ts";
import type { Session, SessionState } from "./session.ts";
import { allOnSheet } from "./window.ts";

const records = (things: readonly Placed[]): Picked[] => things.map(({ table, id }) => ({ table, id }));

/** Acts that select and do nothing else. */
export const SELECTING_ACTS: readonly Act[] = [
  {
    id: "select-several",
    name: "Select several by clicks and windows",
    key: "S",
    enabled: ({ sheet }) => sheet !== null,
    run: (session) => void session.start({ tool: "select-several" }),
  },
  {
    id: "select-all",
    name: "Select all of this stage on this sheet",
    key: "Ctrl+a",
    enabled: (state) => allOnSheet(state).length > 0,
    run: (session) => session.select(selectionOf(records(allOnSheet(session.getState())))),
  },
  {
    id: "select-alike",
    name: "Select all on this sheet that are like it",
    key: "L",
    enabled: ({ selection }) => pickedOf(selection).length > 0,
    run(session) {
      const state = session.getState();
      const { selection } = state;
      const like = alike(state.job, pickedOf(selection));
      session.select(withAlso(selection, records(allOnSheet(state)).filter(like)));
    },
  },
  {
    id: "extend-selection",
    name: "Add the next one by label to the selection",
    key: "]",
    enabled: (state) => next(state) !== undefined,
    run(session) {
      const one = next(session.getState());
      if (one) session.select(withAlso(session.getState().selection, [one]));
    },
  },
  {
    id: "shrink-selection",
    name: "Take the last one out of the selection",
    key: "[",
    enabled: ({ selection }) => selection !== null && "several" in selection,
    run: (session) => session.select(selectionOf(pickedOf(session.getState().selection).slice(0, -1))),
  },
  {
    id: "select-nothing",
    name: "Select nothing",
    enabled: ({ selection }) => selection !== null,
    run: (session: Session) => session.select(null),
  },
];

/** The thing on the sheet that follows the one selected last, in the order of labels, and is not selected; the first one while nothing is. */
function next(state: SessionState): Picked | undefined {
  const things = records(allOnSheet(state));
  const picked = pickedOf(state.selection);
  const taken = new Set(picked.map(({ table, id }) => `${table}/${id}`));
  const last = picked.at(-1);
  const from = last ? things.findIndex(({ table, id }) => table === last.table && id === last.id) : -1;
  return things.slice(from + 1).find(({ table, id }) => !taken.has(`${table}/${id}`));
}
