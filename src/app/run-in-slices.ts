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
    await rest();
    if (signal.aborted) {
      steps.return(undefined as never);
      return null;
    }
    rested = performance.now();
  }
}

/** Lets the messages that wait be taken. Not a timer: those are held back when they follow on one another. */
const rest = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
