import { type Remote, wrap } from "comlink";

/**
 * A worker failed. Nothing of the job is lost: it lives in the page. What was asked may be asked again, of another worker; when `final` is
 * true the workers would not stay up, and it is for the person to try again.
 */
export class WorkerLost extends Error {
  readonly final: boolean;
  constructor(message: string, final: boolean) {
    super(message);
    this.name = "WorkerLost";
    this.final = final;
  }
}

/** Failures in a row, without one answer between them, before it is given up. */
const RESTARTS = 3;

/** A worker of which another is started when it fails. */
export interface LastingWorker<T> {
  /** What the worker answers; rejects with a `WorkerLost` where it fails first. */
  call<R>(ask: (worker: Remote<T>) => Promise<R>): Promise<R>;
}

/** `begun` is told of every worker that is started, before anything is asked of it. */
export function lastingWorker<T>(start: () => Worker, begun: (worker: Remote<T>) => void): LastingWorker<T> {
  let current: { readonly remote: Remote<T>; readonly lost: Promise<never> } | undefined;
  let failures = 0;

  const begin = () => {
    const worker = start();
    const lost = new Promise<never>((_, reject) => {
      const lose = (message: string) => {
        worker.terminate();
        if (current === made) current = undefined;
        failures++;
        reject(new WorkerLost(message, failures > RESTARTS));
        if (failures > RESTARTS) failures = 0;
      };
      worker.onerror = (event) => {
        event.preventDefault();
        lose(event.message || "the worker stopped");
      };
      worker.onmessageerror = () => lose("a message of the worker could not be read");
    });
    // Lost while nobody waits: the next call starts another.
    lost.catch(() => undefined);
    const made = { remote: wrap<T>(worker), lost };
    begun(made.remote);
    return made;
  };

  return {
    async call(ask) {
      current ??= begin();
      const answer = await Promise.race([ask(current.remote), current.lost]);
      failures = 0;
      return answer;
    },
  };
}
