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
  const across = Math.min(4096, Math.ceil((view[2] - left) / square) + 2);
  const families = familyTable();
  const squares = new Int32Array(count);
  // Pieces of curves are in no family.
  for (let segment = 0; segment < count; segment++) {
    if (flags[segment]! & SEGMENT.curved) continue;
    const at = 4 * segment;
    const x0 = coords[at]!;
    const y0 = coords[at + 1]!;
    const dx = coords[at + 2]! - x0;
    const dy = coords[at + 3]! - y0;
    const length = Math.sqrt(dx * dx + dy * dy);
    const direction = Math.round((Math.atan2(dy, dx) / Math.PI + 1) * DIRECTIONS) % DIRECTIONS;
    const kind = direction * 65_536 + style[segment]!;
    const steps = Math.min(MOST_STEPS, Math.max(1, Math.ceil(length / square)));
    let before = -1;
    for (let i = 0; i < steps; i++) {
      const t = (i + 0.5) / steps;
      const column = Math.floor((x0 + dx * t - left) / square);
      const row = Math.floor((y0 + dy * t - bottom) / square);
      const cell = row * across + column;
      if (cell === before) continue;
      before = cell;
      families.add(cell * SQUARE_STEP + kind, segment);
      squares[segment]!++;
    }
  }
  const votes = new Int32Array(count);
  families.each(LEAST_ABREAST, (family) => {
    if (isHatching(coords, family, userUnit)) for (const segment of family) votes[segment]!++;
  });
  for (let segment = 0; segment < count; segment++)
    if (votes[segment]! > 0 && votes[segment]! >= MOST_SQUARES * squares[segment]!) flags[segment]! |= SEGMENT.hatch;
}

/** Keys of families: the square, then the direction, then the style. */
const SQUARE_STEP = DIRECTIONS * 65_536;

interface FamilyTable {
  add(key: number, segment: number): void;
  /** Every family of at least so many members, the last of them first. */
  each(least: number, visit: (members: readonly number[]) => void): void;
}

/** Lists of segments by key, kept in a few typed arrays: on a crowded page there are as many lists as lines. */
function familyTable(): FamilyTable {
  let slots = 16_384;
  let keys = new Float64Array(slots).fill(-1);
  let heads = new Int32Array(slots).fill(-1);
  let sizes = new Int32Array(slots);
  let used = 0;
  let room = 16_384;
  let members = new Int32Array(room);
  let next = new Int32Array(room);
  let count = 0;
  const slotOf = (key: number): number => {
    // The low and the high half of the key, stirred.
    const low = (key % 4_294_967_296) | 0;
    const high = (key / 4_294_967_296) | 0;
    let slot = (Math.imul(low ^ Math.imul(high, 0x9e3779b1), 0x85ebca6b) >>> 7) & (slots - 1);
    while (keys[slot] !== -1 && keys[slot] !== key) slot = (slot + 1) & (slots - 1);
    return slot;
  };
  const membersAt = (slot: number): number[] => {
    const list: number[] = [];
    for (let at = heads[slot]!; at >= 0; at = next[at]!) list.push(members[at]!);
    return list;
  };
  const widen = (): void => {
    const [oldKeys, oldHeads, oldSizes] = [keys, heads, sizes];
    slots *= 2;
    keys = new Float64Array(slots).fill(-1);
    heads = new Int32Array(slots).fill(-1);
    sizes = new Int32Array(slots);
    for (let slot = 0; slot < oldKeys.length; slot++) {
      if (oldKeys[slot] === -1) continue;
      const to = slotOf(oldKeys[slot]!);
      keys[to] = oldKeys[slot]!;
      heads[to] = oldHeads[slot]!;
      sizes[to] = oldSizes[slot]!;
    }
  };
  return {
    add(key, segment) {
      if (2 * used > slots) widen();
      if (count === room) {
        room *= 2;
        const [oldMembers, oldNext] = [members, next];
        members = new Int32Array(room);
        next = new Int32Array(room);
        members.set(oldMembers);
        next.set(oldNext);
      }
      const slot = slotOf(key);
      if (keys[slot] === -1) {
        keys[slot] = key;
        used++;
      }
      members[count] = segment;
      next[count] = heads[slot]!;
      heads[slot] = count++;
      sizes[slot]!++;
    },
    each(least, visit) {
      for (let slot = 0; slot < slots; slot++) if (sizes[slot]! >= least) visit(membersAt(slot));
    },
  };
}

/** Whether lines of one direction in one square are many, close and evenly spaced. */
function isHatching(coords: Float32Array, family: readonly number[], userUnit: number): boolean {
  const gaps = gapsOf(offsetsOf(coords, family), userUnit);
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

/** How far lines lie beside the origin, square to the direction of the first, in order. */
function offsetsOf(coords: Float32Array, family: readonly number[]): Float64Array {
  const along = family[0]!;
  const dx = coords[4 * along + 2]! - coords[4 * along]!;
  const dy = coords[4 * along + 3]! - coords[4 * along + 1]!;
  const length = Math.hypot(dx, dy);
  const [nx, ny] = [-dy / length, dx / length];
  return Float64Array.from(family, (segment) => {
    const at = 4 * segment;
    return ((coords[at]! + coords[at + 2]!) * nx + (coords[at + 1]! + coords[at + 3]!) * ny) / 2;
  }).sort();
}

/** The spacings of lines in order, on paper; a line drawn twice counts once. */
function gapsOf(offsets: Float64Array, userUnit: number): number[] {
  const gaps: number[] = [];
  let before = offsets[0]!;
  for (const offset of offsets) {
    const gap = (offset - before) * userUnit;
    if (gap <= SAME_LINE_PT) continue;
    gaps.push(gap);
    before = offset;
  }
  return gaps;
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
