/** Where an object is: at an offset of the file, or the how-manieth of an object stream. */
export type Place =
  | { readonly kind: "free" }
  | { readonly kind: "offset"; readonly offset: number; readonly gen: number }
  | { readonly kind: "packed"; readonly stream: number; readonly index: number };

/** Bytes of a row of a cross-reference table (ISO 32000-2, 7.5.4). */
export const ROW = 20;

/** Rows of a table that are read when they are asked for: a large drawing has more objects than an issue ever looks at. */
interface Rows {
  readonly first: number;
  readonly count: number;
  /** Where the first row stands. */
  readonly at: number;
}

/** The places of a file's objects, section by section, the newest first: what an earlier part says holds. */
export class Places {
  readonly #parts: (Map<number, Place> | Rows)[] = [];

  /** `base`: bytes before `%PDF-` that the file's own offsets do not count. */
  constructor(
    private readonly bytes: Uint8Array,
    private readonly base: number,
  ) {}

  get(num: number): Place | undefined {
    for (const part of this.#parts) {
      if (part instanceof Map) {
        const place = part.get(num);
        if (place) return place;
      } else if (num >= part.first && num < part.first + part.count)
        return this.#row(part.at + (num - part.first) * ROW);
    }
    return undefined;
  }

  has(num: number): boolean {
    return this.get(num) !== undefined;
  }

  /** Says of an object where it is, unless a newer section has said so. */
  add(num: number, place: Place): void {
    const last = this.#parts.at(-1);
    if (last instanceof Map) {
      if (!last.has(num)) last.set(num, place);
    } else this.#parts.push(new Map([[num, place]]));
  }

  /** Says where an object is, whatever was said before. */
  set(num: number, place: Place): void {
    const first = this.#parts[0];
    if (first instanceof Map) first.set(num, place);
    else this.#parts.unshift(new Map([[num, place]]));
  }

  /** Adds a run of rows, which have been seen to be in order (`areRows`). */
  addRows(first: number, count: number, at: number): void {
    if (count > 0) this.#parts.push({ first, count, at });
  }

  /** Every object and its place. */
  *entries(): Generator<[number, Place]> {
    const seen = new Set<number>();
    for (const part of this.#parts) {
      const numbers = part instanceof Map ? part.keys() : Array.from({ length: part.count }, (_, i) => part.first + i);
      for (const num of numbers) {
        if (seen.has(num)) continue;
        seen.add(num);
        yield [num, this.get(num) as Place];
      }
    }
  }

  #row(at: number): Place {
    const offset = digits(this.bytes, at, 10);
    if (this.bytes[at + 17] !== IN_USE || offset === 0) return { kind: "free" };
    return { kind: "offset", offset: offset + this.base, gen: digits(this.bytes, at + 11, 5) };
  }
}

const IN_USE = 0x6e;
const FREE = 0x66;

const digits = (bytes: Uint8Array, at: number, count: number): number => {
  let value = 0;
  for (let i = at; i < at + count; i++) value = value * 10 + (bytes[i] as number) - 48;
  return value;
};

/** Do so many rows of the form `nnnnnnnnnn ggggg n` and two bytes of line end stand there? */
export const areRows = (bytes: Uint8Array, at: number, count: number): boolean => {
  if (at + count * ROW > bytes.length) return false;
  for (let row = at; row < at + count * ROW; row += ROW) {
    const state = bytes[row + 17];
    if (bytes[row + 10] !== 32 || bytes[row + 16] !== 32 || (state !== IN_USE && state !== FREE)) return false;
    for (let i = 0; i < 16; i++) {
      const digit = bytes[row + i] as number;
      if (i !== 10 && (digit < 48 || digit > 57)) return false;
    }
    if ((bytes[row + 18] as number) > 32 || (bytes[row + 19] as number) > 32) return false;
  }
  return true;
};
