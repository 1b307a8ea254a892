/** Longer nothing is kept waiting for a sheet, milliseconds: a drawing may take many seconds. */
const MOST_MS = 3000;

/** Whether a sheet is about to be seen for the first time: the check and all else that can wait is begun after that. */
export interface FirstView {
  /** A sheet is on its way; who waits already waits for this one. */
  awaited(): void;
  /** It is seen, or will not be. */
  over(): void;
  /** Resolves when no sheet is awaited, or one has been for too long. */
  wait(): Promise<void>;
}

/** `later` calls back once after so many milliseconds, and returns what takes the call back. */
export function firstView(later: (then: () => void, ms: number) => () => void): FirstView {
  let waiting: Promise<void> = Promise.resolve();
  let end: (() => void) | undefined;
  return {
    awaited() {
      if (end) return;
      waiting = new Promise((resolve) => {
        const done = () => {
          takeBack();
          end = undefined;
          resolve();
        };
        const takeBack = later(done, MOST_MS);
        end = done;
      });
    },
    over: () => end?.(),
    wait: () => waiting,
  };
}
