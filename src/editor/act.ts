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
  /** Works while a tool is in the middle of something too. */
  readonly always?: true;
  /** The stage it belongs to; left out, it makes sense everywhere. */
  readonly stage?: Stage;
  enabled(state: SessionState): boolean;
  run(session: Session): void;
}
