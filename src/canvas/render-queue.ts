/** One thing at a time, in order; work that was cancelled before its turn never starts. */
export class RenderQueue {
  #tail: Promise<unknown> = Promise.resolve();
  #waiting = 0;

  /** True when nothing runs or waits. */
  get idle(): boolean {
    return this.#waiting === 0;
  }

  /** Runs `work` after all that came before it. Rejects with the signal's reason when that is aborted by then. */
  run<T>(work: () => Promise<T>, signal: AbortSignal): Promise<T> {
    this.#waiting++;
    const turn = this.#tail.then(async () => {
      try {
        signal.throwIfAborted();
        return await work();
      } finally {
        this.#waiting--;
      }
    });
    this.#tail = turn.catch(() => undefined);
    return turn;
  }
}
