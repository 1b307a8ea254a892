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
  const kinds = kindsOf(linework);
  markIn(linework, kinds, 0);
  markIn(linework, kinds, 0.5);
}

/** Direction and style of each segment in one number; -1 for pieces of curves, which are in no family. */
function kindsOf({ count, coords, style, flags }: Linework): Int32Array {
  const kinds = new Int32Array(count);
  for (let segment = 0; segment < count; segment++) {
    const at = 4 * segment;
    const turn = Math.atan2(coords[at + 3]! - coords[at + 1]!, coords[at + 2]! - coords[at]!) / Math.PI;
    const direction = Math.round((turn + 1) * DIRECTIONS) % DIRECTIONS;
    kinds[segment] = flags[segment]! & SEGMENT.curved ? -1 : direction * 65_536 + style[segment]!;
  }
  return kinds;
}

function markIn({ count, coords, flags, userUnit, view }: Linework, kinds: Int32Array, shift: number): void {
  const square = SQUARE_PT / userUnit;
  const left = view[0] - shift * square;
  const bottom = view[1] - shift * square;
  const across = Math.min(4096, Math.ceil((view[2] - left) / square) + 2);
  const families = familyTable(count);
  const squares = new Int32Array(count);
  for (let segment = 0; segment < count; segment++) {
    const kind = kinds[segment]!;
    if (kind < 0) continue;
    const at = 4 * segment;
    const x0 = coords[at]!;
    const y0 = coords[at + 1]!;
    const dx = coords[at + 2]! - x0;
    const dy = coords[at + 3]! - y0;
    const steps = Math.min(MOST_STEPS, Math.max(1, Math.ceil(Math.sqrt(dx * dx + dy * dy) / square)));
    let before = -1;
    for (let i = 0; i < steps; i++) {
      const t = (i + 0.5) / steps;
      const column = Math.floor((x0 + dx * t - left) / square);
      const row = Math.floor((y0 + dy * t - bottom) / square);
      // Of a page too large to number its squares some count as one.
      const cell = (row * across + column) | 0;
      if (cell === before) continue;
      before = cell;
      families.add(cell, kind, segment);
      squares[segment]!++;
    }
  }
  const votes = new Int32Array(count);
  const judge = judgeOf(coords, userUnit);
  families.each(LEAST_ABREAST, (members, size) => {
    if (judge(members, size)) for (let i = 0; i < size; i++) votes[members[i]!]!++;
  });
  for (let segment = 0; segment < count; segment++)
    if (votes[segment]! > 0 && votes[segment]! >= MOST_SQUARES * squares[segment]!) flags[segment]! |= SEGMENT.hatch;
}

interface FamilyTable {
  add(cell: number, kind: number, segment: number): void;
  /** Every family of at least so many members, the last of them first; the list is used again for the next. */
  each(least: number, visit: (members: Int32Array, size: number) => void): void;
}

/** Lists of segments by square and kind, kept in a few typed arrays: on a crowded page there are as many lists as lines. */
function familyTable(expected: number): FamilyTable {
  let slots = 1024;
  while (slots < 2 * expected) slots *= 2;
  let cells = new Int32Array(slots);
  let kinds = new Int32Array(slots);
  let heads = new Int32Array(slots).fill(-1);
  let sizes = new Int32Array(slots);
  let used = 0;
  let room = 1024 + expected;
  let members = new Int32Array(room);
  let next = new Int32Array(room);
  let count = 0;
  const slotOf = (cell: number, kind: number): number => {
    let slot = (Math.imul(kind ^ Math.imul(cell, 0x9e3779b1), 0x85ebca6b) >>> 7) & (slots - 1);
    while (sizes[slot]! > 0 && (cells[slot] !== cell || kinds[slot] !== kind)) slot = (slot + 1) & (slots - 1);
    return slot;
  };
  const widen = (): void => {
    const [oldCells, oldKinds, oldHeads, oldSizes] = [cells, kinds, heads, sizes];
    slots *= 2;
    cells = new Int32Array(slots);
    kinds = new Int32Array(slots);
    heads = new Int32Array(slots).fill(-1);
    sizes = new Int32Array(slots);
    for (let slot = 0; slot < oldSizes.length; slot++) {
      if (oldSizes[slot] === 0) continue;
      const to = slotOf(oldCells[slot]!, oldKinds[slot]!);
      cells[to] = oldCells[slot]!;
      kinds[to] = oldKinds[slot]!;
      heads[to] = oldHeads[slot]!;
      sizes[to] = oldSizes[slot]!;
    }
  };
  return {
    add(cell, kind, segment) {
      if (2 * used > slots) widen();
      if (count === room) {
        room *= 2;
        const [oldMembers, oldNext] = [members, next];
        members = new Int32Array(room);
        next = new Int32Array(room);
        members.set(oldMembers);
        next.set(oldNext);
      }
      const slot = slotOf(cell, kind);
      if (sizes[slot] === 0) {
        cells[slot] = cell;
        kinds[slot] = kind;
        used++;
      }
      members[count] = segment;
      next[count] = heads[slot]!;
      heads[slot] = count++;
      sizes[slot]!++;
    },
    each(least, visit) {
      let list = new Int32Array(1024);
      for (let slot = 0; slot < slots; slot++) {
        const size = sizes[slot]!;
        if (size < least) continue;
        if (size > list.length) list = new Int32Array(2 * size);
        for (let i = 0, at = heads[slot]!; at >= 0; at = next[at]!) list[i++] = members[at]!;
        visit(list, size);
      }
    },
  };
}

/** A test whether lines of one direction in one square are many, close and evenly spaced. Its lists are used again for the next family. */
function judgeOf(coords: Float32Array, userUnit: number): (family: Int32Array, size: number) => boolean {
  let numbers = new Float64Array(1024);
  let gaps = new Float64Array(1024);
  /** How far lines lie beside the origin, square to the direction of the first, in order. */
  const offsetsOf = (family: Int32Array, size: number): Float64Array => {
    const along = 4 * family[0]!;
    const dx = coords[along + 2]! - coords[along]!;
    const dy = coords[along + 3]! - coords[along + 1]!;
    const length = Math.hypot(dx, dy);
    const nx = -dy / length;
    const ny = dx / length;
    for (let i = 0; i < size; i++) {
      const at = 4 * family[i]!;
      numbers[i] = ((coords[at]! + coords[at + 2]!) * nx + (coords[at + 1]! + coords[at + 3]!) * ny) / 2;
    }
    return numbers.subarray(0, size).sort();
  };
  /** Whether most of the lines are short and of one length. */
  const isPattern = (family: Int32Array, size: number): boolean => {
    if (size < LEAST_SHORT) return false;
    for (let i = 0; i < size; i++) {
      const at = 4 * family[i]!;
      numbers[i] = userUnit * Math.hypot(coords[at + 2]! - coords[at]!, coords[at + 3]! - coords[at + 1]!);
    }
    const lengths = numbers.subarray(0, size).sort();
    const usual = lengths[size >> 1]!;
    if (usual > SHORT_PT) return false;
    let alike = 0;
    for (const length of lengths) if (Math.abs(length - usual) <= ONE_LENGTH * usual) alike++;
    return alike >= MOSTLY * size;
  };
  return (family, size) => {
    if (size > numbers.length) {
      numbers = new Float64Array(2 * size);
      gaps = new Float64Array(2 * size);
    }
    const offsets = offsetsOf(family, size);
    // The spacings in order, on paper; a line drawn twice counts once.
    let spaced = 0;
    let before = offsets[0]!;
    for (const offset of offsets) {
      const gap = (offset - before) * userUnit;
      if (gap <= SAME_LINE_PT) continue;
      gaps[spaced++] = gap;
      before = offset;
    }
    if (spaced + 1 < LEAST_ABREAST) return false;
    if (isPattern(family, size)) return true;
    const sorted = gaps.subarray(0, spaced).sort();
    const usual = sorted[spaced >> 1]!;
    if (usual > WIDEST_SPACING_PT) return false;
    let even = 0;
    for (const gap of sorted) {
      const times = Math.max(1, Math.round(gap / usual));
      if (Math.abs(gap - times * usual) <= EVEN * usual) even++;
    }
    return even >= MOSTLY * spaced;
  };
}
