/** One measured figure beside its floor: what the same machine needs, in the same run, for the part nobody can do without. */
export interface BenchRow {
  readonly name: string;
  /** Milliseconds, the least of several rounds. */
  readonly ms: number;
  readonly floorName: string;
  readonly floorMs: number;
  /** ms / floorMs. */
  readonly ratio: number;
  readonly note?: string;
}

/** A row from its measurements. */
export const benchRow = (name: string, ms: number, floorName: string, floorMs: number, note?: string): BenchRow => ({
  name,
  ms,
  floorName,
  floorMs,
  ratio: ms / floorMs,
  ...(note === undefined ? {} : { note }),
});

/** The least time of several rounds, in milliseconds: noise only ever adds. The rounds' results are handed to `keep`, so that no work can be left out as unused. */
export function leastTime(rounds: number, work: () => number, keep: (result: number) => void): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < rounds; i++) {
    const start = performance.now();
    keep(work());
    least = Math.min(least, performance.now() - start);
  }
  return least;
}

/** The least time of each of several works, their rounds taken in turn, so that a busy machine troubles all alike. */
export function leastTimes(rounds: number, works: readonly (() => number)[], keep: (result: number) => void): number[] {
  const least = works.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round < rounds; round++) {
    works.forEach((work, i) => {
      least[i] = Math.min(least[i]!, leastTime(1, work, keep));
    });
  }
  return least;
}
