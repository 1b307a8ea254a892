/** How a page fared while something moved on it, milliseconds. */
export interface FrameTimes {
  /** From one frame to the next, while it moved. */
  readonly frames: number[];
  /** The longest the page's thread answered nobody, while it moved and while it came to rest. */
  readonly block: number;
}

const frame = () => new Promise<number>((resolve) => requestAnimationFrame(resolve));

/** Calls `move` once a frame, so many times, then watches the page for `rest` milliseconds more. */
export async function frameTimes(move: (step: number) => void, steps: number, rest: number): Promise<FrameTimes> {
  let [block, ticked, watching] = [0, performance.now(), true];
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => {
    const now = performance.now();
    block = Math.max(block, now - ticked);
    ticked = now;
    // Messages that follow on one another at once would take the time that frames need.
    if (watching) setTimeout(() => port2.postMessage(null), 1);
    else port1.close();
  };
  port2.postMessage(null);
  const frames: number[] = [];
  let before = await frame();
  for (let step = 0; step < steps; step++) {
    move(step);
    const now = await frame();
    frames.push(now - before);
    before = now;
  }
  await new Promise((resolve) => setTimeout(resolve, rest));
  watching = false;
  return { frames, block };
}

/** How a gesture of the measurements moves, step by step: CSS pixels across and down, and the factor of a zoom. It ends elsewhere than it began. */
export const gestureStep = (kind: "pan" | "zoom", step: number): { dx: number; dy: number; factor: number } =>
  kind === "pan"
    ? { dx: step % 60 < 31 ? 9 : -9, dy: step % 60 < 30 ? 4 : -4, factor: 1 }
    : { dx: 0, dy: 0, factor: step % 60 < 31 ? 1.03 : 1 / 1.03 };
