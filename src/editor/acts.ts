import type { Session, SessionState } from "./session.ts";
import type { Stage } from "./stage.ts";

/** One thing a person can do: a button, a key and a line of the searchable list are all made from it. */
export interface Act {
  /** Stable, for tests and buttons: "trace-run". */
  readonly id: string;
  /** On the button and in the list: "Trace a run". */
  readonly name: string;
  /** The key while the sheet has the focus, as KeyboardEvent.key, "Ctrl+" before it where Control or Command is held. */
  readonly key?: string;
  /** The stage it belongs to; left out, it makes sense everywhere. */
  readonly stage?: Stage;
  enabled(state: SessionState): boolean;
  run(session: Session): void;
}

/** Every act of the session, in the order of the list. Opening, saving and issuing are the application's own acts. */
export const ACTS: readonly Act[] = [];

/** The act of that id; throws for an id that is none. */
export function act(id: string): Act {
  const found = ACTS.find((one) => one.id === id);
  if (!found) throw new Error(`no act "${id}"`);
  return found;
}
