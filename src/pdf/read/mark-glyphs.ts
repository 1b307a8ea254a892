import { type Linework, SEGMENT } from "./linework.ts";

/** Largest letter, in 1/72 in. of paper. */
const TALLEST_PT = 20;
/** Fewest letters that make a word here. */
const LEAST_LETTERS = 4;
/** A filled outline of fewer segments is an arrowhead, a tick or a plain box. */
const LEAST_EDGES = 5;
/** How far apart the letters of a line stand, in heights of its largest letter. */
const APART = 1.6;
/** How much of a line of stroked letters must not be lines in one direction: a dashed line is no word. */
const VARIED = 0.35;

interface Piece {
  readonly first: number;
  readonly end: number;
  readonly box: readonly [number, number, number, number];
  readonly size: number;
}

/**
 * Sets `SEGMENT.glyph` on letters that were drawn as outlines or as strokes: runs of small paths of one style, drawn one
 * after the other, standing side by side along a line. A lone letter is left unmarked.
 */
export function markGlyphs({ coords, style, flags, pathStart, pathClosed, arcs, userUnit }: Linework): void {
  const tallest = TALLEST_PT / userUnit;
  const circles = new Set(arcs.filter(({ full }) => full).map(({ first }) => first));
  let run: Piece[] = [];
  const flush = (): void => {
    if (run.length >= LEAST_LETTERS && isWord(run)) {
      for (const { first, end } of run) for (let i = first; i < end; i++) flags[i]! |= SEGMENT.glyph;
    }
    run = [];
  };
  for (let path = 0; path < pathClosed.length; path++) {
    const [first, end] = [pathStart[path]!, pathStart[path + 1]!];
    const filled = (flags[first]! & SEGMENT.filled) !== 0;
    const box = boxOf(coords, first, end, tallest);
    if (!box || circles.has(first) || (filled && end - first < LEAST_EDGES)) {
      flush();
      continue;
    }
    const piece = { first, end, box, size: Math.max(box[2] - box[0], box[3] - box[1]) };
    const before = run.at(-1);
    if (before && !(style[before.first] === style[first] && near(before, piece))) flush();
    run.push(piece);
  }
  flush();

  function isWord(pieces: readonly Piece[]): boolean {
    const size = Math.max(...pieces.slice(0, 200).map((piece) => piece.size));
    // Upright or lying: the letters of a line reach no farther across it than the tallest of them.
    const [x0, y0, x1, y1] = pieces.reduce<readonly [number, number, number, number]>(
      (all, { box }) => [
        Math.min(all[0], box[0]),
        Math.min(all[1], box[1]),
        Math.max(all[2], box[2]),
        Math.max(all[3], box[3]),
      ],
      [Infinity, Infinity, -Infinity, -Infinity],
    );
    const [long, short] = [Math.max(x1 - x0, y1 - y0), Math.min(x1 - x0, y1 - y0)];
    if (long < 1.5 * size || short > 1.5 * size) return false;
    if ((flags[pieces[0]!.first]! & SEGMENT.filled) !== 0) return true;
    // Strokes: of all the ink, how much runs in another direction than the usual one.
    const byDirection = new Float64Array(12);
    for (const { first, end } of pieces) {
      for (let at = 4 * first; at < 4 * end; at += 4) {
        const [dx, dy] = [coords[at + 2]! - coords[at]!, coords[at + 3]! - coords[at + 1]!];
        byDirection[Math.round((Math.atan2(dy, dx) / Math.PI + 1) * 12) % 12]! += Math.hypot(dx, dy);
      }
    }
    const all = byDirection.reduce((sum, length) => sum + length, 0);
    const bent = pieces.filter(({ first, end }) => end - first > 1).length;
    return 1 - Math.max(...byDirection) / all >= VARIED && bent >= pieces.length / 2;
  }
}

/** The box of a path, or undefined as soon as it is larger than a letter. */
function boxOf(
  coords: Float32Array,
  first: number,
  end: number,
  tallest: number,
): readonly [number, number, number, number] | undefined {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let at = 4 * first; at < 4 * end; at += 2) {
    x0 = Math.min(x0, coords[at]!);
    y0 = Math.min(y0, coords[at + 1]!);
    x1 = Math.max(x1, coords[at]!);
    y1 = Math.max(y1, coords[at + 1]!);
    if (x1 - x0 > tallest || y1 - y0 > tallest) return undefined;
  }
  return [x0, y0, x1, y1];
}

/** Whether the second piece stands where the next letter would: close, and no farther up or down (or across) than a letter. */
function near(a: Piece, b: Piece): boolean {
  const size = Math.max(a.size, b.size);
  const gapX = Math.max(a.box[0] - b.box[2], b.box[0] - a.box[2]);
  const gapY = Math.max(a.box[1] - b.box[3], b.box[1] - a.box[3]);
  return Math.max(gapX, gapY) <= APART * size && Math.min(gapX, gapY) <= 0.25 * size;
}
