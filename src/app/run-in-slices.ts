import { takeMessages } from "../canvas/take-messages.ts";

/** How long work goes on before a rest, milliseconds: what has come in meanwhile, such as the wish to stop, is heard then. */
const SLICE = 40;

/** What steps come to, or null when they were left because of the signal. */
export async function runInSlices<P, T>(
  steps: Generator<P, T, void>,
  signal: AbortSignal,
  told: (step: P) => void,
): Promise<T | null> {
  let rested = performance.now();
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    if (performance.now() - rested < SLICE) continue;
    told(step.value);
    await takeMessages();
    if (signal.aborted) {
      steps.return(undefined as never);
      return null;
    }
    rested = performance.now();
  }
}
