import { expose } from "comlink";
import { afterEach, expect, test } from "vitest";
import { lastingWorker, WorkerLost, WorkStopped } from "../../src/app/lasting-worker.ts";

interface Teller {
  tell(): Promise<number>;
  forever(): Promise<never>;
}

/** Stands in for a worker: the other end of a channel, which answers with the number it was started as. */
class FakeWorker {
  static started: FakeWorker[] = [];
  readonly #channel = new MessageChannel();
  onerror: ((event: { message: string; preventDefault(): void }) => void) | undefined;
  ended = false;

  constructor() {
    const number = FakeWorker.started.push(this);
    const teller: Teller = { tell: async () => number, forever: () => new Promise<never>(() => undefined) };
    expose(teller, this.#channel.port1);
    this.#channel.port2.start();
  }

  postMessage(message: unknown, transfer: Transferable[] = []): void {
    this.#channel.port2.postMessage(message, transfer);
  }
  addEventListener(type: "message", listener: (event: Event) => void): void {
    this.#channel.port2.addEventListener(type, listener);
  }
  removeEventListener(type: "message", listener: (event: Event) => void): void {
    this.#channel.port2.removeEventListener(type, listener);
  }
  terminate(): void {
    this.ended = true;
    this.#channel.port1.close();
    this.#channel.port2.close();
  }
}

const start = () =>
  lastingWorker<Teller>(
    () => new FakeWorker() as never,
    () => undefined,
  );

afterEach(() => {
  for (const worker of FakeWorker.started.splice(0)) worker.terminate();
});

test("work that can be stopped ends at once, and the next call is asked of another worker", async () => {
  const worker = start();
  expect(await worker.call((remote) => remote.tell())).toBe(1);
  const endless = worker.callStoppable((remote) => remote.forever());
  worker.stop();
  await expect(endless).rejects.toBeInstanceOf(WorkStopped);
  expect(FakeWorker.started[0]!.ended).toBe(true);
  expect(await worker.call((remote) => remote.tell())).toBe(2);
});

test("work that cannot be stopped is asked of another worker when one is", async () => {
  const worker = start();
  let asked = 0;
  const told = worker.call((remote) => (++asked === 1 ? remote.forever() : remote.tell()));
  worker.stop();
  expect(await told).toBe(2);
});

test("a worker that never stays up is given up, and stopping where there is none does nothing", async () => {
  const worker = start();
  worker.stop();
  const lost = worker.call((remote) => {
    queueMicrotask(() => FakeWorker.started.at(-1)!.onerror?.({ message: "gone", preventDefault: () => undefined }));
    return remote.forever();
  });
  await expect(lost).rejects.toBeInstanceOf(WorkerLost);
  expect(FakeWorker.started.length).toBe(4);
});
