import { Driver } from "./driver.ts";
import { KeysToEvents } from "./keys-to-events.ts";
import { PointerToEvents } from "./pointer-to-events.ts";
import type { Session, SessionOptions } from "./session.ts";

/** A session over a job: the whole editor without a screen. */
export function createSession(options: SessionOptions): Session {
  const driver = new Driver(options);
  const pointer = new PointerToEvents(driver);
  const keys = new KeysToEvents(driver);
  const { store } = driver;
  const session: Session = {
    getState: store.getState,
    getInitialState: store.getInitialState,
    subscribe: store.subscribe,
    newId: options.newId,
    commit: (edit) => driver.commit(edit),
    attempt: (edit) => driver.attempt(edit),
    undo: () => driver.undo(),
    redo: () => driver.redo(),
    start: (request) => driver.start(request),
    pointer: (event) => pointer.take(event),
    key: (event) => keys.take(event, session),
    typed: (text) => keys.typed(text),
    finish: () => driver.feed({ is: "finish" }).used !== false,
    cancel: () => void driver.cancel(),
    select: (selection) => driver.select(selection),
    setStage: (stage) => driver.setStage(stage),
    setSheet: (sheet, viewport) => driver.setSheet(sheet, viewport),
    setView: (view) => driver.setView(view),
    setDrawn: (sheet, lines) => driver.patch({ drawn: lines && { sheet, lines } }),
    setWords: (sheet, words) => driver.patch({ words: words && { sheet, words }, said: null }),
    setRoom: (sheet, find) => driver.patch({ room: { sheet, find } }),
    assume: (patch) => driver.assume(patch),
    choose: (said) => driver.patch({ said }),
    snapToDrawing: (toDrawing) => driver.snapToDrawing(toDrawing),
    lockTo: (lock) => driver.lockTo(lock),
    checkAgain: () => driver.check(),
    replaceJob: (job) => driver.replaceJob(job),
    notify: (notice) => driver.patch({ notice }),
    draft: () => driver.draft(),
  };
  driver.check();
  return session;
}
