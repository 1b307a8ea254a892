/** A closed interval of the real line; `from` is not greater than `to`. What it measures is the holder's to say. */
export type Interval = readonly [from: number, to: number];
/** Closed intervals, sorted and disjoint (two that touch are one). The empty list is the empty set. */
export type IntervalSet = readonly Interval[];

/** A set from intervals in any order, overlapping or touching; reversed and NaN intervals count as empty. */
export function normalise(list: Iterable<Interval>): IntervalSet {
  if (Array.isArray(list) && list.length < 2 && list.every(isInOrder)) return list;
  const sorted: Interval[] = [];
  for (const interval of list) if (isInOrder(interval)) sorted.push(interval);
  if (sorted.length < 2) return sorted;
  // Most sets come sorted, and sorting takes memory.
  for (let i = 1; i < sorted.length; i++) {
    if (sorted[i]![0] >= sorted[i - 1]![0]) continue;
    sorted.sort((a, b) => a[0] - b[0]);
    break;
  }
  const set: Interval[] = [];
  let [from, to] = sorted[0]!;
  for (let i = 1; i < sorted.length; i++) {
    const [nextFrom, nextTo] = sorted[i]!;
    if (nextFrom <= to) {
      if (nextTo > to) to = nextTo;
    } else {
      set.push([from, to]);
      from = nextFrom;
      to = nextTo;
    }
  }
  set.push([from, to]);
  return set;
}

const isInOrder = (interval: Interval): boolean => interval[0] <= interval[1];

/** Sorts a few numbers where they are, least first: `Array.sort` takes memory each time, which tells where it is done for every segment. */
export function sortFew(numbers: number[] | Float64Array, count = numbers.length): void {
  for (let i = 1; i < count; i++) {
    const number = numbers[i]!;
    let j = i - 1;
    for (; j >= 0 && numbers[j]! > number; j--) numbers[j + 1] = numbers[j]!;
    numbers[j + 1] = number;
  }
}

/** Everything that lies in at least one of the sets. */
export function unite(...sets: readonly IntervalSet[]): IntervalSet {
  if (sets.length === 1) return normalise(sets[0]!);
  const all: Interval[] = [];
  for (const set of sets) for (const interval of set) all.push(interval);
  return normalise(all);
}

/** Everything that lies in both sets; sets that only touch share a point, an interval of length 0. */
export function intersect(a: IntervalSet, b: IntervalSet): IntervalSet {
  const common: Interval[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const [aFrom, aTo] = a[i]!;
    const [bFrom, bTo] = b[j]!;
    const from = Math.max(aFrom, bFrom);
    const to = Math.min(aTo, bTo);
    if (from <= to) common.push([from, to]);
    if (aTo < bTo) i++;
    else j++;
  }
  return normalise(common);
}

/**
 * What remains of `a` without `b`. Sets are closed, so the ends of what was cut out stay with the remainder; an interval
 * of `a` that `b` covers wholly leaves nothing, and points (length 0) are only left where `b` does not reach them.
 */
export function subtract(a: IntervalSet, b: IntervalSet): IntervalSet {
  const rest: Interval[] = [];
  for (const [from, to] of a) {
    let start = from;
    let swallowed = false;
    for (const [cutFrom, cutTo] of b) {
      if (cutFrom > to) break;
      if (cutFrom > start) rest.push([start, cutFrom]);
      start = Math.max(start, cutTo);
      if (cutTo >= to) {
        swallowed = true;
        break;
      }
    }
    if (!swallowed) rest.push([start, to]);
  }
  return normalise(rest);
}

/** The sum of the lengths of all intervals. */
export const totalLength = (set: IntervalSet): number => set.reduce((sum, [from, to]) => sum + (to - from), 0);
