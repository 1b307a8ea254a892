import { type Remote, wrap } from "comlink";

/** Workers would not stay up. Nothing of the job is lost: it lives in the page. It is for the person to try again. */
export class WorkerLost extends Error {
  override readonly name = "WorkerLost";
}

/** The worker was stopped by the person, and with it the work that can be stopped. */
export class WorkStopped extends Error {
  override readonly name = "WorkStopped";
}

/** Failures in a row, without one answer between them, before it is given up. */
const RESTARTS = 3;

/** A worker of which another is started when it fails. */
export interface LastingWorker<T> {
  /** What the worker answers; another is asked where one fails. Rejects with a `WorkerLost` where none would stay up. */
  call<R>(ask: (worker: Remote<T>) => Promise<R>): Promise<R>;
  /** The same for work that `stop` ends: it rejects then with a `WorkStopped`. */
  callStoppable<R>(ask: (worker: Remote<T>) => Promise<R>): Promise<R>;
  /** Ends the worker at once, whatever it is in the middle of. What cannot be stopped is asked of another. */
  stop(): void;
}

/** `begun` is told of every worker that is started, before anything is asked of it. */
export function lastingWorker<T>(start: () => Worker, begun: (worker: Remote<T>) => void): LastingWorker<T> {
  let current: { readonly remote: Remote<T>; readonly lost: Promise<never>; readonly stop: () => void } | undefined;
  let failures = 0;

  const begin = () => {
    const worker = start();
    let stop = (): void => undefined;
    const lost = new Promise<never>((_, reject) => {
      stop = () => {
        worker.terminate();
        if (current === made) current = undefined;
        reject(new WorkStopped("stopped"));
      };
      const lose = (message: string) => {
        worker.terminate();
        if (current === made) current = undefined;
        failures++;
        reject(new WorkerLost(message));
      };
      worker.onerror = (event) => {
        event.preventDefault();
        lose(event.message || "the worker stopped");
      };
      worker.onmessageerror = () => lose("a message of the worker could not be read");
    });
    // Lost while nobody waits: the next call starts another.
    lost.catch(() => undefined);
    const made = { remote: wrap<T>(worker), lost, stop };
    begun(made.remote);
    return made;
  };

  const asked = async <R>(ask: (worker: Remote<T>) => Promise<R>, stoppable: boolean): Promise<R> => {
    for (;;) {
      current ??= begin();
      try {
        const answer = await Promise.race([ask(current.remote), current.lost]);
        failures = 0;
        return answer;
      } catch (error) {
        if (error instanceof WorkStopped && !stoppable) continue;
        if (!(error instanceof WorkerLost)) throw error;
        if (failures <= RESTARTS) continue;
        failures = 0;
        throw error;
      }
    }
  };

  return {
    call: (ask) => asked(ask, false),
    callStoppable: (ask) => asked(ask, true),
    stop: () => current?.stop(),
  };
}
