/** Numbers from 0 up to 1 that look random and are the same each time: the draftsman's variety of this sample. */
export function chanceFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    // A linear congruence modulo 2^32 (the multiplier and increment of many C libraries, from memory), its high bits taken.
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state >>> 8) / 2 ** 24;
  };
}
