import { expect, test } from "vitest";
import { firstView } from "../../src/app/first-view.ts";

/** A view whose time runs by hand, and whether what waits has been let go. */
function viewByHand() {
  const timers = new Set<() => void>();
  const view = firstView((then) => {
    timers.add(then);
    return () => timers.delete(then);
  });
  const isWaiting = async () => {
    let over = false;
    void view.wait().then(() => {
      over = true;
    });
    await new Promise((resolve) => setImmediate(resolve));
    return !over;
  };
  return { view, timers, isWaiting };
}

test("nothing waits while no sheet is awaited", async () => {
  const { view, isWaiting } = viewByHand();
  expect(await isWaiting()).toBe(false);
  view.over();
  expect(await isWaiting()).toBe(false);
});

test("what is to come after a sheet waits until it is seen, and takes its time limit back", async () => {
  const { view, timers, isWaiting } = viewByHand();
  view.awaited();
  expect(await isWaiting()).toBe(true);
  view.over();
  expect(await isWaiting()).toBe(false);
  expect(timers.size).toBe(0);
});

test("a sheet that never comes does not keep the rest for ever", async () => {
  const { view, timers, isWaiting } = viewByHand();
  view.awaited();
  for (const then of timers) then();
  expect(await isWaiting()).toBe(false);
});

test("a second sheet awaited before the first is seen lets go of nobody; the next one is waited for anew", async () => {
  const { view, isWaiting } = viewByHand();
  view.awaited();
  let early = false;
  void view.wait().then(() => {
    early = true;
  });
  view.awaited();
  expect(await isWaiting()).toBe(true);
  expect(early).toBe(false);
  view.over();
  expect(await isWaiting()).toBe(false);
  view.awaited();
  expect(await isWaiting()).toBe(true);
});
