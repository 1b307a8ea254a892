/** A part of a list: as many as `count` of the list before from its place `from` on, or items that were not in it. */
type ListPart<T> = { readonly from: number; readonly count: number } | { readonly fresh: readonly T[] };

/** A list said by what is kept of the one before. */
export type ListChange<T> = readonly ListPart<T>[];

/** What makes `after` of `before`: items that are the same objects are kept, and not said again. Each item is in a list once. */
export function listChange<T extends object>(before: readonly T[], after: readonly T[]): ListChange<T> {
  const places = new Map(before.map((item, place) => [item, place]));
  const parts: ({ from: number; count: number } | { fresh: T[] })[] = [];
  for (const item of after) {
    const place = places.get(item);
    const last = parts.at(-1);
    if (place === undefined) {
      if (last && "fresh" in last) last.fresh.push(item);
      else parts.push({ fresh: [item] });
    } else if (last && "from" in last && last.from + last.count === place) last.count++;
    else parts.push({ from: place, count: 1 });
  }
  return parts;
}

/** The list after a change. */
export function changedList<T>(before: readonly T[], change: ListChange<T>): T[] {
  const list: T[] = [];
  for (const part of change)
    if ("fresh" in part) for (const item of part.fresh) list.push(item);
    else for (let i = 0; i < part.count; i++) list.push(before[part.from + i]!);
  return list;
}

/** A change in portions with at most `most` fresh items each, to be put together again in this order; at least one. */
export function inPortions<T>(change: ListChange<T>, most: number): readonly ListChange<T>[] {
  const portions: ListPart<T>[][] = [[]];
  let room = most;
  for (const part of change) {
    if (!("fresh" in part)) {
      portions.at(-1)!.push(part);
      continue;
    }
    for (let start = 0; start < part.fresh.length; ) {
      if (room === 0) {
        portions.push([]);
        room = most;
      }
      const fresh = part.fresh.slice(start, start + room);
      portions.at(-1)!.push({ fresh });
      start += fresh.length;
      room -= fresh.length;
    }
  }
  return portions;
}
