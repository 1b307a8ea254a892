/** What makes one list of another: items that are gone from it, and items that have come to it. One that has moved is in both. */
export interface ListDifference<T> {
  readonly gone: readonly T[];
  /** In the order of the later list. */
  readonly come: readonly T[];
  /** For each that has come: the item before it in the later list, and the next one after it that was there before; undefined at the ends. */
  readonly following: readonly (readonly [T | undefined, T | undefined])[];
}

/**
 * How a list differs from an earlier one; items are the same when they are the same objects. What stays is in the same order in both. Quick
 * where single items were taken out, put in or replaced, and not the least difference where much was put in another order.
 */
export function listDifference<T extends object>(before: readonly T[], after: readonly T[]): ListDifference<T> {
  const [gone, come, following]: [T[], T[], [T | undefined, T | undefined][]] = [[], [], []];
  /** The first in `following` that has no item after it yet. */
  let open = 0;
  let [i, j] = [0, 0];
  while (i < before.length || j < after.length) {
    const [old, now] = [before[i], after[j]];
    if (old !== undefined && old === now) {
      for (; open < following.length; open++) following[open]![1] = old;
      i++;
      j++;
      continue;
    }
    const [out, put] = nearest(before, i, now, after, j, old);
    for (const end = i + out; i < end; i++) gone.push(before[i]!);
    for (const end = j + put; j < end; j++) {
      come.push(after[j]!);
      following.push([after[j - 1], undefined]);
    }
  }
  return { gone, come, following };
}

/** So far is looked for where two lists go on alike. */
const AHEAD = 32;

/** How many items were taken out, or put in, until the lists go on alike; else one was replaced by another. */
function nearest<T>(
  before: readonly T[],
  i: number,
  now: T | undefined,
  after: readonly T[],
  j: number,
  old: T | undefined,
): readonly [out: number, put: number] {
  if (now === undefined) return [before.length - i, 0];
  if (old === undefined) return [0, after.length - j];
  for (let k = 1; k <= AHEAD; k++) {
    if (before[i + k] === now) return [k, 0];
    if (after[j + k] === old) return [0, k];
  }
  return [1, 1];
}
