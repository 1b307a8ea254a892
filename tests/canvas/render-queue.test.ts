import { expect, test } from "vitest";
import { RenderQueue } from "../../src/canvas/render-queue.ts";

test("one thing at a time and in order; what was cancelled before its turn never starts", async () => {
  const queue = new RenderQueue();
  const log: string[] = [];
  const work = (name: string) => async () => {
    log.push(`${name} starts`);
    await Promise.resolve();
    log.push(`${name} ends`);
    if (name === "b") throw new Error("b fails");
    return name;
  };
  const live = new AbortController().signal;
  const stopped = new AbortController();
  const asked = [
    queue.run(work("a"), live),
    queue.run(work("b"), live),
    queue.run(work("c"), stopped.signal),
    queue.run(work("d"), live),
  ];
  stopped.abort(new Error("stopped"));
  expect(queue.idle).toBe(false);
  const done = await Promise.allSettled(asked);
  expect(done.map((one) => (one.status === "fulfilled" ? one.value : (one.reason as Error).message))).toEqual([
    "a",
    "b fails",
    "stopped",
    "d",
  ]);
  expect(log).toEqual(["a starts", "a ends", "b starts", "b ends", "d starts", "d ends"]);
  expect(queue.idle).toBe(true);
});
