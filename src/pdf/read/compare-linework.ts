import type { Point2 } from "../../geometry/point.ts";
import { invert, mapBy, type Similarity } from "../../geometry/similarity.ts";
import { lengthOfSet, linesAlong } from "./lines-along.ts";
import { chosen, type Linework } from "./linework.ts";
import { endOf, startOf } from "./segment-geometry.ts";

/** What two issues of a sheet draw alike, and what only one of them does: start x, y and end x, y of each piece, in the space of the new one. */
export interface ComparedLines {
  readonly both: Float32Array;
  readonly oldOnly: Float32Array;
  readonly newOnly: Float32Array;
  /** 1 for each segment of the old linework that the new one still draws there, all but a tenth of it. */
  readonly oldKept: Uint8Array;
  /** 1 for each segment of the new linework that the old one drew there, all but a tenth of it. */
  readonly newKept: Uint8Array;
}

/** How far a line may lie from its partner and still be the same, in 1/72 in. of paper: the flattening of curves on both sides, and what refitting leaves. */
const SAME_LINE_PT = 0.75;
/** Pieces shorter than this say nothing, in 1/72 in. of paper. */
const LEAST_PIECE_PT = 0.75;
/** A segment of which less than this is missing is kept. */
const KEPT = 0.9;

/** How far a line may lie from its partner and still be the same, in units of the new sheet; on a sheet printed larger the old one's inaccuracy grows with it. */
export const sameLine = (old: Linework, fresh: Linework, { scale }: Similarity): number =>
  Math.max(SAME_LINE_PT / fresh.userUnit, (scale * SAME_LINE_PT) / old.userUnit);

/** Told now and then how many of the segments are done. */
export type ComparisonProgress = (done: number, total: number) => void;
const TELL_EVERY = 4096;

/** Compares two issues of a sheet line by line. `sim` takes the old sheet's space to that of the new. White and hidden lines take no part. */
export function compareLinework(
  old: Linework,
  fresh: Linework,
  sim: Similarity,
  onProgress: ComparisonProgress = () => undefined,
): ComparedLines {
  const [toNew, scale] = [mapBy(sim), sim.scale];
  const back = mapBy(invert(sim));
  const tolerance = sameLine(old, fresh, sim);
  const least = LEAST_PIECE_PT / fresh.userUnit;
  const [both, oldOnly, newOnly]: number[][] = [[], [], []];
  const [oldSeen, newSeen] = [chosen(old, { without: 0 }), chosen(fresh, { without: 0 })];
  const total = old.count + fresh.count;

  const oldKept = new Uint8Array(old.count);
  for (let i = 0; i < old.count; i++) {
    if (i % TELL_EVERY === 0) onProgress(i, total);
    if (!oldSeen(i)) continue;
    const [a, b] = [toNew(startOf(old, i)), toNew(endOf(old, i))];
    const there = linesAlong(fresh, a, b, { counts: newSeen, within: tolerance, bridge: tolerance });
    oldKept[i] = split(a, b, there, least, both!, oldOnly!);
  }
  const newKept = new Uint8Array(fresh.count);
  const without: number[] = [];
  for (let i = 0; i < fresh.count; i++) {
    if (i % TELL_EVERY === 0) onProgress(old.count + i, total);
    if (!newSeen(i)) continue;
    const [a, b] = [startOf(fresh, i), endOf(fresh, i)];
    const there = linesAlong(old, back(a), back(b), {
      counts: oldSeen,
      within: tolerance / scale,
      bridge: tolerance / scale,
    });
    const inNew = there.map(([from, to]): [number, number] => [from * scale, to * scale]);
    // What both draw is drawn once.
    newKept[i] = split(a, b, inNew, least, without, newOnly!);
    without.length = 0;
  }
  return {
    both: Float32Array.from(both!),
    oldOnly: Float32Array.from(oldOnly!),
    newOnly: Float32Array.from(newOnly!),
    oldKept,
    newKept,
  };
}

/** Puts the pieces of a segment where they belong: 1 where all but a tenth of it is there. */
function split(
  a: Point2,
  b: Point2,
  there: readonly (readonly [number, number])[],
  least: number,
  shared: number[],
  alone: number[],
): 0 | 1 {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length === 0) return 1;
  const at = (along: number): Point2 => [
    a[0] + ((b[0] - a[0]) * along) / length,
    a[1] + ((b[1] - a[1]) * along) / length,
  ];
  const put = (list: number[], from: number, to: number) => {
    if (to - from < Math.min(least, length)) return;
    list.push(...at(from), ...at(to));
  };
  let done = 0;
  for (const [from, to] of there) {
    put(alone, done, from);
    put(shared, from, to);
    done = to;
  }
  put(alone, done, length);
  return lengthOfSet(there) >= KEPT * length || length - lengthOfSet(there) < least ? 1 : 0;
}
