import { distance2, type Point2 } from "../../geometry/point.ts";
import type { SheetUnits } from "../../units/quantity.ts";
import { type Linework, SEGMENT } from "./linework.ts";
import type { TextRun } from "./plan-contents.ts";
import { distanceTo, endOf, startOf } from "./segment-geometry.ts";

/** A circle of the drawing; of a grid, the one at the end of a grid line. Sheet space. */
export interface Circle {
  readonly centre: Point2;
  readonly radius: SheetUnits;
}

/** Bubbles are of this size on paper, in 1/72 in.; a set printed at half its size is still within it. */
const LEAST_RADIUS_PT = 2.5;
const GREATEST_RADIUS_PT = 40;
/** Letters with or without a figure, or figures with or without a letter: A, AA, A.1, G.8, 1, 8.5, 12A, B'. */
const LABEL = /^(?:[A-Z]{1,2}(?:[.-]?\d{1,2}(?:\.\d{1,2})?)?|\d{1,3}(?:\.\d{1,2})?(?:[.-]?[A-Z]{1,2})?)['’′]{0,2}$/i;
/** Words this near to the middle, in radii, stand in the circle. */
const INSIDE = 0.75;

/** The whole circles of the drawing that are of the size of a grid bubble, each once. */
export function circlesOf({ arcs, flags, userUnit }: Linework): Circle[] {
  const found: Circle[] = [];
  const cells = new Map<string, Circle[]>();
  for (const { full, centre, radius, first } of arcs) {
    const onPaper = radius * userUnit;
    if (!full || onPaper < LEAST_RADIUS_PT || onPaper > GREATEST_RADIUS_PT) continue;
    if (flags[first]! & SEGMENT.filled) continue;
    const key = `${Math.round(centre[0] / 4)} ${Math.round(centre[1] / 4)}`;
    const known = cells.get(key) ?? [];
    if (
      known.some(
        (other) => distance2(other.centre, centre) < 0.2 * radius && Math.abs(other.radius - radius) < 0.1 * radius,
      )
    )
      continue;
    const circle = { centre, radius };
    cells.set(key, [...known, circle]);
    found.push(circle);
  }
  return found;
}

/**
 * What stands in a circle as the label of a grid: null for nothing at all; undefined when it is no grid bubble: other words
 * stand in it, several, or a line runs across it as in a section mark.
 */
export function gridLabelIn(linework: Linework, circle: Circle, texts: readonly TextRun[]): string | null | undefined {
  if (isParted(linework, circle)) return undefined;
  const inside = texts.flatMap((run) => wordsIn(run, circle));
  if (inside.length === 0) return null;
  const [word] = inside;
  return inside.length === 1 && LABEL.test(word!) ? word! : undefined;
}

/** The words of a line of text whose middle stands in a circle. Words of a line are placed by their share of its letters. */
function wordsIn({ text, at, angle, width, height }: TextRun, { centre, radius }: Circle): string[] {
  const far = width + height + radius;
  if (Math.abs(at[0] - centre[0]) > far || Math.abs(at[1] - centre[1]) > far || height > 2.5 * radius) return [];
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const each = width / text.length;
  return [...text.matchAll(/\S+/g)].flatMap(({ 0: word, index }) => {
    const along = (index + word.length / 2) * each;
    // The middle of a capital is about a third of an em above the baseline.
    const up = 0.35 * height;
    const middle: Point2 = [at[0] + c * along - s * up, at[1] + s * along + c * up];
    return distance2(middle, centre) <= INSIDE * radius ? [word] : [];
  });
}

/** Whether a line runs across the circle from edge to edge. */
function isParted(linework: Linework, { centre, radius }: Circle): boolean {
  const [x, y] = centre;
  const r = 0.2 * radius;
  return linework.index
    .search(x - r, y - r, x + r, y + r, (segment) => segment < linework.count)
    .some((segment) => {
      if (linework.flags[segment]! & (SEGMENT.filled | SEGMENT.glyph) || distanceTo(linework, segment, centre) > r)
        return false;
      const [a, b] = [startOf(linework, segment), endOf(linework, segment)];
      const onEdge = (p: Point2): boolean => Math.abs(distance2(p, centre) - radius) <= 0.2 * radius;
      return onEdge(a) && onEdge(b);
    });
}

/** Whether the line carries words that begin at the circle, as under the title of a view. */
export function isTitle(
  { centre, radius }: Circle,
  [from, to]: readonly [Point2, Point2],
  texts: readonly TextRun[],
): boolean {
  const length = distance2(from, to);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  return texts.some(({ text, at, angle, width, height }) => {
    if (text.trim().length < 3) return false;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    if (Math.abs(c * uy - s * ux) > 0.05) return false;
    const ends = [0, width].map((along): Point2 => [at[0] + c * along - centre[0], at[1] + s * along - centre[1]]);
    const along = ends.map(([x, y]) => x * ux + y * uy);
    // The letters fill the band from the baseline up; it stands on the line, or hangs close below it.
    const baseline = ends[0]![1] * ux - ends[0]![0] * uy;
    const top = baseline + 0.75 * height * (c * ux + s * uy);
    const apart = baseline * top <= 0 ? 0 : Math.min(Math.abs(baseline), Math.abs(top));
    const starts = Math.min(...along);
    return starts > 0.3 * radius && starts < 5 * radius && apart <= 0.8 * height;
  });
}
