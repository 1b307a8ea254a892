/** The slowest of some works, each the fastest of three times, so that what else the machine does counts less; and how many gave anything. */
export function slowest(works: readonly (() => unknown)[]): { readonly ms: number; readonly some: number } {
  let [ms, some] = [0, 0];
  for (const work of works) {
    let least = Number.POSITIVE_INFINITY;
    for (let round = 0; round < 3; round++) {
      const start = performance.now();
      const result = work();
      least = Math.min(least, performance.now() - start);
      if (round === 0 && result) some++;
    }
    ms = Math.max(ms, least);
  }
  return { ms, some };
}
