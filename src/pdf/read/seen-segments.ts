import { type LineStyle, type Linework, SEGMENT } from "./linework.ts";

/** Segments looked at in one place: a bound, not a measure. */
const MOST_SEGMENTS = 30_000;

/** What shows on the sheet: the white grounds behind texts do not. */
const isSeen = ({ shown, stroke, fill }: LineStyle): boolean =>
  shown && (stroke !== null || (fill !== null && fill !== "#ffffff"));

/** Segments whose boxes touch a box; none when there are too many to look at. Letters and hatching are left out. */
export function within(
  linework: Linework,
  box: readonly [number, number, number, number],
  most = MOST_SEGMENTS,
): number[] {
  const list: number[] = [];
  const { flags, style, styles, count } = linework;
  let seen = 0;
  linework.index.search(box[0], box[1], box[2], box[3], (segment) => {
    if (++seen > most) return false;
    if (
      segment < count &&
      (flags[segment]! & (SEGMENT.glyph | SEGMENT.hatch)) === 0 &&
      isSeen(styles[style[segment]!]!)
    )
      list.push(segment);
    return false;
  });
  return seen > most ? [] : list;
}
