/** Numbers that look random and are the same for the same seed (mulberry32, a generator in the public domain). */
export class Chance {
  #state: number;
  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0, inclusive, to 1, exclusive. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  /** A whole number from 0 to `below`, exclusive. */
  upTo(below: number): number {
    return Math.floor(this.next() * below);
  }

  /** One time in so many. */
  oneIn(times: number): boolean {
    return this.upTo(times) === 0;
  }

  /** One of a list that is not empty. */
  of<T>(list: readonly T[]): T {
    return list[this.upTo(list.length)]!;
  }
}
