import type { Point2 } from "../../geometry/point.ts";
import { invert, mapBy, type Similarity } from "../../geometry/similarity.ts";
import { linesAlong } from "./lines-along.ts";
import { chosen, type Linework } from "./linework.ts";
import { partnerStyles } from "./partner-styles.ts";
import { endOf, startOf } from "./segment-geometry.ts";

/** Pieces of lines in the space of the new sheet: start x, y and end x, y of each, and the segment of its own issue that it is of. */
export interface LinePieces {
  readonly coords: Float32Array;
  readonly of: Uint32Array;
}

/** What two issues of a sheet draw alike (pieces of the old one), and what only one of them does. */
export interface ComparedLines {
  readonly both: LinePieces;
  readonly oldOnly: LinePieces;
  readonly newOnly: LinePieces;
}

/** How far a line may lie from its partner and still be the same, in 1/72 in. of paper: the flattening of curves on both sides, and what refitting leaves. */
const SAME_LINE_PT = 0.75;
/** Pieces shorter than this say nothing, in 1/72 in. of paper. */
const LEAST_PIECE_PT = 0.75;

/** How far a line may lie from its partner and still be the same, in units of the new sheet; on a sheet printed larger the old one's inaccuracy grows with it. */
export const sameLine = (old: Linework, fresh: Linework, { scale }: Similarity): number =>
  Math.max(SAME_LINE_PT / fresh.userUnit, (scale * SAME_LINE_PT) / old.userUnit);

/** Told now and then how many of the segments are done. */
export type ComparisonProgress = (done: number, total: number) => void;
const TELL_EVERY = 4096;

/**
 * Compares two issues of a sheet line by line, pen by pen. `sim` takes the old sheet's space to that of the new. White and hidden lines take no part.
 */
export function compareLinework(
  old: Linework,
  fresh: Linework,
  sim: Similarity,
  onProgress: ComparisonProgress = () => undefined,
): ComparedLines {
  const [toNew, back] = [mapBy(sim), mapBy(invert(sim))];
  const tolerance = sameLine(old, fresh, sim);
  const least = LEAST_PIECE_PT / fresh.userUnit;
  const { ofOld, ofNew } = partnerStyles(old, fresh, sim, tolerance);
  const [oldSeen, newSeen] = [chosen(old, { without: 0 }), chosen(fresh, { without: 0 })];
  const [both, oldOnly, newOnly] = [new Gathered(least), new Gathered(least), new Gathered(least)];
  const total = old.count + fresh.count;
  for (let i = 0; i < old.count; i++) {
    if (i % TELL_EVERY === 0) onProgress(i, total);
    if (!oldSeen(i)) continue;
    const [a, b] = [toNew(startOf(old, i)), toNew(endOf(old, i))];
    const partners = ofOld[old.style[i]!]!;
    const counts = (each: number) => partners[fresh.style[each]!] === 1 && newSeen(each);
    const there = linesAlong(fresh, a, b, { counts, within: tolerance, bridge: tolerance });
    split(i, a, b, there, oldOnly, both);
  }
  for (let i = 0; i < fresh.count; i++) {
    if (i % TELL_EVERY === 0) onProgress(old.count + i, total);
    if (!newSeen(i)) continue;
    const [a, b] = [startOf(fresh, i), endOf(fresh, i)];
    const partners = ofNew[fresh.style[i]!]!;
    const counts = (each: number) => partners[old.style[each]!] === 1 && oldSeen(each);
    const within = tolerance / sim.scale;
    const there = linesAlong(old, back(a), back(b), { counts, within, bridge: within });
    split(
      i,
      a,
      b,
      there.map(([from, to]) => [from * sim.scale, to * sim.scale] as const),
      newOnly,
    );
  }
  return { both: both.pieces(), oldOnly: oldOnly.pieces(), newOnly: newOnly.pieces() };
}

class Gathered {
  readonly #coords: number[] = [];
  readonly #of: number[] = [];
  readonly #least: number;
  constructor(least: number) {
    this.#least = least;
  }
  put(segment: number, length: number, a: Point2, b: Point2): void {
    if (Math.hypot(b[0] - a[0], b[1] - a[1]) < Math.min(this.#least, 0.999 * length)) return;
    this.#coords.push(a[0], a[1], b[0], b[1]);
    this.#of.push(segment);
  }
  pieces(): LinePieces {
    return { coords: Float32Array.from(this.#coords), of: Uint32Array.from(this.#of) };
  }
}

/** Puts the pieces of a segment where they belong: what both draw is drawn once. */
function split(
  segment: number,
  a: Point2,
  b: Point2,
  there: readonly (readonly [number, number])[],
  alone: Gathered,
  shared?: Gathered,
): void {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (length === 0) return;
  const at = (along: number): Point2 => [
    a[0] + ((b[0] - a[0]) * along) / length,
    a[1] + ((b[1] - a[1]) * along) / length,
  ];
  let done = 0;
  for (const [from, to] of there) {
    if (from > done) alone.put(segment, length, at(done), at(from));
    shared?.put(segment, length, at(from), at(to));
    done = to;
  }
  if (length > done) alone.put(segment, length, at(done), at(length));
}
