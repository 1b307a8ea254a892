import { type Linework, SEGMENT } from "./linework.ts";

/** Side of the squares of the page in which lines are compared, in 1/72 in. of paper. */
const SQUARE_PT = 48;
/** Directions are told apart to this many parts of a half turn. */
const DIRECTIONS = 180;
/** Lines this many abreast in a square, evenly spaced, are hatching there. */
const LEAST_ABREAST = 6;
/** Spacing wider than this is a ceiling grid or a row of joists, which people do want to point at. */
const WIDEST_SPACING_PT = 9;
/** Lines closer than this count as one drawn twice. */
const SAME_LINE_PT = 0.15;
/** Spacings this near to the usual one (as a part of it), or to a multiple of it, are even. */
const EVEN = 0.12;
/** The part of the spacings that has to be even. */
const MOSTLY = 0.75;
/** Short lines this many in a square, abreast of each other and of one length, are a pattern, whatever their spacing. */
const SHORT_PT = 8;
const LEAST_SHORT = 32;
/** Lengths this near to the usual one (as a part of it) are one length. */
const ONE_LENGTH = 0.15;
/** The part of a line's squares in which it has to be hatching. */
const MOST_SQUARES = 0.6;
/** Squares one line is looked at in: the page's edge is never farther away than that on a sheet of paper. */
const MOST_STEPS = 200;

/**
 * Sets `SEGMENT.hatch` on the members of families of many parallel, evenly spaced lines of one style. Judged square by
 * square of the page, in two nets of squares half a square apart, so that lines of any length and hatching of any outline are found; ceiling grids are spaced too widely to count.
 */
export function markHatching(linework: Linework): void {
  markIn(linework, 0);
  markIn(linework, 0.5);
}

function markIn({ count, coords, style, flags, userUnit, view }: Linework, shift: number): void {
  const square = SQUARE_PT / userUnit;
  const [left, bottom] = [view[0] - shift * square, view[1] - shift * square];
  const across = Math.min(4096, Math.ceil((view[2] - view[0]) / square) + 2);
  const families = new Map<number, number[]>();
  const keyed = (segment: number, visit: (key: number) => void): void => {
    const at = 4 * segment;
    const [x0, y0, x1, y1] = [coords[at]!, coords[at + 1]!, coords[at + 2]!, coords[at + 3]!];
    const turn = Math.atan2(y1 - y0, x1 - x0) / Math.PI + 1;
    const direction = Math.round(turn * DIRECTIONS) % DIRECTIONS;
    const steps = Math.min(MOST_STEPS, Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0) / square)));
    let before = -1;
    for (let i = 0; i < steps; i++) {
      const t = (i + 0.5) / steps;
      const column = Math.floor((x0 + (x1 - x0) * t - left) / square);
      const row = Math.floor((y0 + (y1 - y0) * t - bottom) / square);
      const cell = row * across + column;
      if (cell === before) continue;
      before = cell;
      visit((cell * DIRECTIONS + direction) * 65_536 + style[segment]!);
    }
  };
  for (let segment = 0; segment < count; segment++) {
    if (flags[segment]! & NOT_ASKED) continue;
    keyed(segment, (key) => {
      const family = families.get(key);
      if (family) family.push(segment);
      else families.set(key, [segment]);
    });
  }
  const hatched = new Set<number>();
  for (const [key, family] of families) {
    if (family.length >= LEAST_ABREAST && isHatching(coords, family, userUnit)) hatched.add(key);
  }
  if (hatched.size === 0) return;
  for (let segment = 0; segment < count; segment++) {
    if (flags[segment]! & NOT_ASKED) continue;
    let [yes, all] = [0, 0];
    keyed(segment, (key) => {
      all++;
      if (hatched.has(key)) yes++;
    });
    if (yes >= MOST_SQUARES * all) flags[segment]! |= SEGMENT.hatch;
  }
}

/** Pieces of curves are in no family. */
const NOT_ASKED = SEGMENT.curved;

/** Whether lines of one direction in one square are many, close and evenly spaced. */
function isHatching(coords: Float32Array, family: readonly number[], userUnit: number): boolean {
  const first = 4 * family[0]!;
  const [dx, dy] = [coords[first + 2]! - coords[first]!, coords[first + 3]! - coords[first + 1]!];
  const length = Math.hypot(dx, dy);
  const [nx, ny] = [-dy / length, dx / length];
  const offsets = Float64Array.from(family, (segment) => {
    const at = 4 * segment;
    return ((coords[at]! + coords[at + 2]!) * nx + (coords[at + 1]! + coords[at + 3]!) * ny) / 2;
  }).sort();
  const gaps: number[] = [];
  let before = offsets[0]!;
  for (const offset of offsets) {
    const gap = (offset - before) * userUnit;
    if (gap <= SAME_LINE_PT) continue;
    gaps.push(gap);
    before = offset;
  }
  if (gaps.length + 1 < LEAST_ABREAST) return false;
  if (isPattern(coords, family, userUnit)) return true;
  const usual = [...gaps].sort((a, b) => a - b)[gaps.length >> 1]!;
  if (usual > WIDEST_SPACING_PT) return false;
  const even = gaps.filter((gap) => {
    const times = Math.max(1, Math.round(gap / usual));
    return Math.abs(gap - times * usual) <= EVEN * usual;
  });
  return even.length >= MOSTLY * gaps.length;
}

/** Whether most of the lines are short and of one length. */
function isPattern(coords: Float32Array, family: readonly number[], userUnit: number): boolean {
  if (family.length < LEAST_SHORT) return false;
  const lengths = Float64Array.from(
    family,
    (segment) =>
      userUnit *
      Math.hypot(coords[4 * segment + 2]! - coords[4 * segment]!, coords[4 * segment + 3]! - coords[4 * segment + 1]!),
  ).sort();
  const usual = lengths[lengths.length >> 1]!;
  if (usual > SHORT_PT) return false;
  const alike = lengths.filter((length) => Math.abs(length - usual) <= ONE_LENGTH * usual);
  return alike.length >= MOSTLY * lengths.length;
}
