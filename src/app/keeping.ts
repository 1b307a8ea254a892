import type { StoreApi } from "zustand/vanilla";
import type { Session } from "../editor/session.ts";
import { type Autosave, createAutosave } from "../store/autosave.ts";
import type { JobStore } from "../store/job-store.ts";
import type { HostState } from "../ui/host.ts";

/** A pause long enough that a drag or a burst of typing is one save. */
const PAUSE_MS = 400;

/** Keeps the job in hand in the browser as it changes. */
export class Keeping {
  readonly #session: Session;
  readonly #store: JobStore;
  readonly #state: StoreApi<HostState>;
  #autosave: Autosave | undefined;
  #stopWatching: (() => void) | undefined;

  constructor(session: Session, store: JobStore, state: StoreApi<HostState>) {
    this.#session = session;
    this.#store = store;
    this.#state = state;
    // A window that is closed or put aside saves at once what it can.
    document.addEventListener("visibilitychange", () => document.visibilityState === "hidden" && void this.flush());
  }

  /** From now on the session's job is kept under `id`; `revision` is the one loaded, 0 for a job never saved. */
  follow(id: string, revision: number): void {
    this.stop();
    const autosave = createAutosave({
      store: this.#store,
      id,
      revision,
      now: () => new Date().toISOString(),
      pause: (then) => {
        const timer = setTimeout(then, PAUSE_MS);
        return () => clearTimeout(timer);
      },
      onState: (save) => this.#autosave === autosave && this.#state.setState({ save }),
    });
    this.#autosave = autosave;
    let job = this.#session.getState().job;
    this.#stopWatching = this.#session.subscribe((state) => {
      if (state.job === job) return;
      job = state.job;
      autosave.changed(job);
    });
    this.#state.setState({ jobId: id, save: null });
  }

  /** Saves the job in hand at once, though nobody has changed it. */
  async keepNow(): Promise<void> {
    this.#autosave?.changed(this.#session.getState().job);
    await this.flush();
  }

  /** Saves at once what is not saved yet. */
  async flush(): Promise<void> {
    await this.#autosave?.flush();
  }

  /** Follows no job any more; a save under way is completed. */
  stop(): void {
    this.#stopWatching?.();
    this.#stopWatching = undefined;
    this.#autosave?.stop();
    this.#autosave = undefined;
  }
}
