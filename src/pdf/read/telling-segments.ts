import { chosen, type Linework, SEGMENT } from "./linework.ts";

/** Squares a page is divided into either way, so that what tells comes from all over it. */
const SQUARES = 24;
/** Of each square, so many of its longest lines. */
const PER_SQUARE = 6;
/** Lines shorter than this on paper are letters, dashes and symbols: 1/72 in. */
const LEAST_PT = 7;

/** Segments by the square their middle lies in; squares without any are left out. */
export interface TellingSegments {
  readonly squares: readonly (readonly number[])[];
  /** All of them, the longest first. */
  readonly all: readonly number[];
}

/** Neither hatching nor letters, curves, edges of fills, or what the edge of a page or a clip has cut. */
const NOT_TELLING = SEGMENT.hatch | SEGMENT.glyph | SEGMENT.curved | SEGMENT.filled | SEGMENT.cutStart | SEGMENT.cutEnd;

/** Whether a segment is a whole straight line of the drawing. */
export const straightLines = (linework: Linework): ((segment: number) => boolean) =>
  chosen(linework, { without: NOT_TELLING });

/** The longest straight lines from every part of a page: what another issue of it is recognised by. */
export function tellingSegments(linework: Linework): TellingSegments {
  const { coords, count, view, userUnit } = linework;
  const counts = straightLines(linework);
  const lengths = new Float64Array(count);
  const squares: number[][] = Array.from({ length: SQUARES * SQUARES }, () => []);
  const [x0, y0, x1, y1] = view;
  const place = (at: number, from: number, to: number) =>
    Math.min(SQUARES - 1, Math.max(0, Math.floor(((at - from) / (to - from)) * SQUARES)));
  for (let i = 0; i < count; i++) {
    if (!counts(i)) continue;
    const at = 4 * i;
    const [ax, ay, bx, by] = [coords[at]!, coords[at + 1]!, coords[at + 2]!, coords[at + 3]!];
    lengths[i] = Math.hypot(bx - ax, by - ay);
    if (lengths[i]! * userUnit < LEAST_PT) continue;
    squares[place((ay + by) / 2, y0, y1) * SQUARES + place((ax + bx) / 2, x0, x1)]!.push(i);
  }
  const longest = (a: number, b: number) => lengths[b]! - lengths[a]! || a - b;
  const kept = squares.flatMap((square) => (square.length === 0 ? [] : [square.sort(longest).slice(0, PER_SQUARE)]));
  return { squares: kept, all: kept.flat().sort(longest) };
}
