import { indexOf, lastIndexOf, readIndirect } from "./indirect-object.ts";
import { ObjectParser } from "./object-parser.ts";
import { damaged, failure } from "./pdf-failure.ts";
import { isDict, numberOf, type PdfDict, type PdfObject, PdfStream } from "./pdf-object.ts";
import { areRows, type Place, Places, ROW } from "./places.ts";
import { decodeStream } from "./stream-data.ts";

/** Kind of the last cross-reference section; an update writes the same kind (a table when hybrid). */
export type SectionKind = "table" | "stream" | "hybrid";

/** What the chain of cross-reference sections says, the newest section first in every question. */
export interface CrossReference {
  readonly kind: SectionKind;
  readonly places: Places;
  /** The newest section's trailer (or stream dictionary). */
  readonly trailer: PdfDict;
  /** The number behind the last `startxref`. */
  readonly start: number;
  /** One more than the highest object number in use or promised by any /Size. */
  readonly size: number;
  /** Bytes before `%PDF-` which the file's own offsets do not count. */
  readonly base: number;
}

/** Object numbers beyond this are not believed (ISO 32000-1, annex C gives it as a limit). */
export const MAX_OBJECT = 8_388_607;
const MAX_SECTIONS = 10_000;

/** Position of `%PDF-` within the first kilobyte; `pdf.not-a-pdf` when it is not there. */
export const headerPosition = (bytes: Uint8Array): number => {
  const at = indexOf(bytes.subarray(0, 1024 + 5), "%PDF-");
  if (at < 0) throw failure("pdf.not-a-pdf");
  return at;
};

/** Reads the whole chain from the last `startxref`. Throws `pdf.damaged` where it breaks. */
export const readCrossReference = (bytes: Uint8Array): CrossReference => {
  const header = headerPosition(bytes);
  const keyword = lastIndexOf(bytes, "startxref", bytes.length, Math.max(0, bytes.length - 4096));
  if (keyword < 0) throw damaged("end of the file", "it stops early, or its end was changed");
  const start = new ObjectParser(bytes, keyword + 9).integer();
  if (start === undefined) throw damaged("end of the file", "it does not say where its index is");
  // Objects behind the end: an update that was cut short. Going by the index before it would silently lose that update.
  if (indexOf(bytes, " obj", keyword) >= 0) throw damaged("end of the file", "it stops in the middle of an update");
  const base = header > 0 && !looksLikeSection(bytes, start) && looksLikeSection(bytes, start + header) ? header : 0;
  const reader = new SectionReader(bytes, base);
  const pending = [start];
  const seen = new Set<number>();
  while (pending.length > 0) {
    const at = pending.shift() as number;
    if (seen.has(at)) continue;
    seen.add(at);
    if (seen.size > MAX_SECTIONS) throw damaged("index", "it has too many sections");
    const trailer = reader.section(at);
    const previous = trailer.get("Prev");
    if (previous === undefined) continue;
    if (typeof previous !== "number") throw damaged("index", "a section does not say where the one before it is");
    pending.push(previous);
  }
  const { kind, trailer } = reader;
  if (kind === undefined || trailer === undefined) throw damaged("index", "it is empty");
  return { kind, trailer, places: reader.places, start, size: reader.size, base };
};

const looksLikeSection = (bytes: Uint8Array, at: number): boolean => {
  const parser = new ObjectParser(bytes, at);
  if (parser.takes("xref")) return true;
  return parser.integer() !== undefined && parser.integer() !== undefined && parser.takes("obj");
};

/** Rows of a table that stand one behind the other. */
interface Run {
  readonly first: number;
  readonly count: number;
  readonly at: number;
}

class SectionReader {
  readonly places: Places;
  kind: SectionKind | undefined;
  trailer: PdfDict | undefined;
  size = 0;

  constructor(
    private readonly bytes: Uint8Array,
    private readonly base: number,
  ) {
    this.places = new Places(bytes, base);
  }

  /** Reads the section at the file's own offset, and a hybrid's stream; answers its trailer. */
  section(at: number): PdfDict {
    const parser = new ObjectParser(this.bytes, at + this.base);
    if (!(at >= 0 && at + this.base < this.bytes.length)) throw damaged("index", "it lies outside the file");
    if (!parser.takes("xref")) {
      const dict = this.stream(at);
      this.note("stream", dict);
      return dict;
    }
    const free: number[] = [];
    const start = parser.pos;
    const runs = this.plainRuns(parser);
    if (runs === undefined) {
      parser.pos = start;
      this.table(parser, free);
    }
    const trailer = parser.object();
    if (!isDict(trailer)) throw damaged("index", "a trailer is missing");
    const hidden = trailer.get("XRefStm");
    this.note(hidden === undefined ? "table" : "hybrid", trailer);
    if (runs && hidden === undefined) for (const run of runs) this.putRows(run);
    else if (runs) {
      parser.pos = start;
      this.table(parser, free);
    }
    // What a hybrid's table calls free may stand in its stream, which therefore goes first.
    if (typeof hidden === "number") this.stream(hidden);
    for (const num of free) this.put(num, { kind: "free" });
    return trailer;
  }

  private note(kind: SectionKind, trailer: PdfDict): void {
    this.kind ??= kind;
    this.trailer ??= trailer;
    const size = numberOf(trailer.get("Size")) ?? 0;
    if (size <= MAX_OBJECT + 1) this.size = Math.max(this.size, Math.floor(size));
  }

  /** Entries of newer sections stay; sections are read newest first. */
  private put(num: number, place: Place): void {
    if (num > MAX_OBJECT) throw damaged("index", `object number ${num} is too large`);
    this.places.add(num, place);
    if (num >= this.size) this.size = num + 1;
  }

  private putRows({ first, count, at }: Run): void {
    if (first + count - 1 > MAX_OBJECT) throw damaged("index", `object number ${first + count - 1} is too large`);
    this.places.addRows(first, count, at);
    this.size = Math.max(this.size, first + count);
  }

  /** The runs of a table whose rows are all as the standard has them; undefined where one is not. Reads past `trailer`. */
  private plainRuns(parser: ObjectParser): Run[] | undefined {
    const runs: Run[] = [];
    while (!parser.takes("trailer")) {
      const first = parser.integer();
      const count = parser.integer();
      if (first === undefined || count === undefined || !(first >= 0 && count >= 0)) return undefined;
      parser.skipSpace();
      const at = parser.pos;
      // Some writers number the first section from 1 although its first entry is the head of the free list.
      if (first === 1 || !areRows(this.bytes, at, count)) return undefined;
      runs.push({ first, count, at });
      parser.pos = at + count * ROW;
    }
    return runs;
  }

  private table(parser: ObjectParser, free: number[]): void {
    while (!parser.takes("trailer")) {
      let first = parser.integer();
      const count = parser.integer();
      if (first === undefined || count === undefined) throw damaged(`byte ${parser.pos}`, "the index cannot be read");
      for (let i = 0; i < count; i++) {
        const offset = parser.integer();
        const gen = parser.integer();
        const state = parser.letter();
        if (offset === undefined || gen === undefined || (state !== 0x6e && state !== 0x66))
          throw damaged(`byte ${parser.pos}`, "an entry of the index cannot be read");
        // Some writers number the first section from 1 although its first entry is the head of the free list.
        if (i === 0 && first === 1 && offset === 0 && gen === 65535 && state === 0x66) first = 0;
        if (state === 0x6e && offset > 0) this.put(first + i, { kind: "offset", offset: offset + this.base, gen });
        else free.push(first + i);
      }
    }
  }

  private stream(at: number): PdfDict {
    const { value } = readIndirect(this.bytes, at + this.base, numberOf);
    if (!(value instanceof PdfStream)) throw damaged(`byte ${at}`, "no index starts here");
    const { dict } = value;
    const data = decodeStream(dict, value.raw, (o: PdfObject | undefined) => o ?? null);
    const numbers = (key: string): number[] | undefined => {
      const list = dict.get(key);
      return Array.isArray(list) ? list.map((n) => Math.floor(numberOf(n) ?? 0)) : undefined;
    };
    const [a = 0, b = 0, c = 0] = numbers("W") ?? [];
    const width = a + b + c;
    if (!(width > 0 && Math.min(a, b, c) >= 0 && Math.max(a, b, c) <= 8))
      throw damaged("index", "its field widths make no sense");
    const ranges = numbers("Index") ?? [0, numberOf(dict.get("Size")) ?? 0];
    const field = (from: number, bytes: number): number => {
      let value = 0;
      for (let i = 0; i < bytes; i++) value = value * 256 + (data[from + i] as number);
      return value;
    };
    let row = 0;
    for (let r = 0; r + 1 < ranges.length; r += 2) {
      const [first = 0, count = 0] = [ranges[r], ranges[r + 1]];
      for (let i = 0; i < count && row + width <= data.length; i++, row += width) {
        const type = a === 0 ? 1 : field(row, a);
        const [two, three] = [field(row + a, b), field(row + a + b, c)];
        if (type === 1) this.put(first + i, { kind: "offset", offset: two + this.base, gen: three });
        else if (type === 2) this.put(first + i, { kind: "packed", stream: two, index: three });
        else if (type === 0) this.put(first + i, { kind: "free" });
      }
    }
    return dict;
  }
}
