import { damaged } from "./pdf-failure.ts";
import { type PdfArray, type PdfDict, PdfName, type PdfObject, PdfRef, PdfString } from "./pdf-object.ts";

/** Deepest nesting of arrays and dictionaries that is read; a hostile file cannot exhaust the stack. */
const MAX_DEPTH = 256;

const SPACE = 1;
const DELIMITER = 2;
/** What each byte is: white space, delimiter or (0) a regular character. ISO 32000-2, tables 1 and 2. */
const KIND = new Uint8Array(256);
for (const c of [0, 9, 10, 12, 13, 32]) KIND[c] = SPACE;
for (const c of "()<>[]{}/%") KIND[c.charCodeAt(0)] = DELIMITER;

/** True for the characters that may stand inside a name or keyword. */
export const isRegular = (byte: number | undefined): boolean => byte !== undefined && KIND[byte] === 0;
const isDigit = (byte: number | undefined): byte is number => byte !== undefined && byte >= 48 && byte <= 57;

const hexValue = (byte: number | undefined): number => {
  if (byte === undefined) return -1;
  if (byte >= 48 && byte <= 57) return byte - 48;
  const letter = byte | 32;
  return letter >= 97 && letter <= 102 ? letter - 87 : -1;
};

/** Reads PDF objects from bytes, starting at `pos`, which moves on. Throws a `PdfFailure` where the syntax breaks. */
export class ObjectParser {
  constructor(
    readonly bytes: Uint8Array,
    public pos = 0,
  ) {}

  /** Skips white space and comments. */
  skipSpace(): void {
    const { bytes } = this;
    for (;;) {
      const c = bytes[this.pos];
      if (c === undefined) return;
      if (KIND[c] === SPACE) this.pos++;
      else if (c === 37) while (this.pos < bytes.length && bytes[this.pos] !== 10 && bytes[this.pos] !== 13) this.pos++;
      else return;
    }
  }

  /** The next run of regular characters, "" when a delimiter or the end comes first. */
  keyword(): string {
    this.skipSpace();
    const from = this.pos;
    while (isRegular(this.bytes[this.pos])) this.pos++;
    return String.fromCharCode(...this.bytes.subarray(from, Math.min(this.pos, from + 64)));
  }

  /** The code of a keyword of one letter, undefined when the next keyword is longer. Faster than `keyword`. */
  letter(): number | undefined {
    this.skipSpace();
    const code = this.bytes[this.pos];
    if (!isRegular(code) || isRegular(this.bytes[this.pos + 1])) return undefined;
    this.pos++;
    return code;
  }

  /** Reads `word` when it comes next; otherwise stays and answers false. */
  takes(word: string): boolean {
    const from = this.pos;
    if (this.keyword() === word) return true;
    this.pos = from;
    return false;
  }

  /** An unsigned integer, or undefined (and stays) when none comes next. */
  integer(): number | undefined {
    const from = this.pos;
    this.skipSpace();
    const start = this.pos;
    let value = 0;
    for (let c = this.bytes[this.pos]; isDigit(c); c = this.bytes[++this.pos]) value = value * 10 + (c - 48);
    if (this.pos > start) return value;
    this.pos = from;
    return undefined;
  }

  /** The next object. A stream's dictionary is read as a dictionary; the caller looks for `stream`. */
  object(depth = 0): PdfObject {
    if (depth > MAX_DEPTH) throw damaged(`byte ${this.pos}`, "objects are nested too deeply");
    this.skipSpace();
    const { bytes } = this;
    switch (bytes[this.pos]) {
      case 0x3c: // <
        return bytes[this.pos + 1] === 0x3c ? this.dictionary(depth) : this.hexString();
      case 0x28: // (
        return this.literalString();
      case 0x2f: // /
        return this.name();
      case 0x5b: // [
        return this.array(depth);
    }
    const c = bytes[this.pos];
    if (isDigit(c) || c === 0x2b || c === 0x2d || c === 0x2e) return this.numberOrReference();
    const at = this.pos;
    const word = this.keyword();
    if (word === "null") return null;
    if (word === "true") return true;
    if (word === "false") return false;
    throw damaged(`byte ${at}`, `an object was expected, not "${word.replace(/[^ -~]/g, ".")}"`);
  }

  private dictionary(depth: number): PdfDict {
    const made: PdfDict = new Map();
    this.pos += 2;
    for (;;) {
      this.skipSpace();
      const c = this.bytes[this.pos];
      if (c === 0x3e) {
        this.pos += this.bytes[this.pos + 1] === 0x3e ? 2 : 1;
        return made;
      }
      if (c !== 0x2f) throw damaged(`byte ${this.pos}`, "a dictionary is not closed");
      const key = this.name().value;
      this.skipSpace();
      // A key whose value was left out: the dictionary ends instead.
      if (this.bytes[this.pos] === 0x3e && this.bytes[this.pos + 1] === 0x3e) continue;
      made.set(key, this.object(depth + 1));
    }
  }

  private array(depth: number): PdfArray {
    const made: PdfArray = [];
    this.pos++;
    for (;;) {
      this.skipSpace();
      const c = this.bytes[this.pos];
      if (c === undefined) throw damaged(`byte ${this.pos}`, "an array is not closed");
      if (c === 0x5d) {
        this.pos++;
        return made;
      }
      made.push(this.object(depth + 1));
    }
  }

  private numberOrReference(): number | PdfRef {
    const { bytes } = this;
    const from = this.pos;
    const whole = this.integer();
    if (whole !== undefined && !isRegular(bytes[this.pos])) {
      const after = this.pos;
      const gen = this.integer();
      if (gen !== undefined && KIND[bytes[this.pos] ?? 32] === SPACE) {
        this.skipSpace();
        if (bytes[this.pos] === 0x52 && !isRegular(bytes[this.pos + 1])) {
          this.pos++;
          return new PdfRef(whole, gen);
        }
      }
      this.pos = after;
      return whole;
    }
    this.pos = from;
    const word = this.keyword();
    // Some writers double the sign or put one in the middle ("--5", "0.-2"); readers take what comes before.
    const match = /^([+-]*)(\d*\.?\d*)/.exec(word);
    const value = Number.parseFloat(match?.[2] ?? "");
    if (Number.isNaN(value)) return 0;
    return match?.[1]?.includes("-") ? -value : value;
  }

  private name(): PdfName {
    const { bytes } = this;
    let text = "";
    for (this.pos++; isRegular(bytes[this.pos]); this.pos++) {
      let c = bytes[this.pos] as number;
      if (c === 0x23) {
        const high = hexValue(bytes[this.pos + 1]);
        const low = hexValue(bytes[this.pos + 2]);
        if (high >= 0 && low >= 0) {
          c = high * 16 + low;
          this.pos += 2;
        }
      }
      text += String.fromCharCode(c);
    }
    return new PdfName(text);
  }

  private hexString(): PdfString {
    const digits: number[] = [];
    for (this.pos++; ; this.pos++) {
      const c = this.bytes[this.pos];
      if (c === undefined) throw damaged(`byte ${this.pos}`, "a string is not closed");
      if (c === 0x3e) break;
      const value = hexValue(c);
      if (value >= 0) digits.push(value);
    }
    this.pos++;
    const made = new Uint8Array((digits.length + 1) >> 1);
    digits.forEach((digit, i) => {
      made[i >> 1] = (made[i >> 1] as number) | (i % 2 ? digit : digit << 4);
    });
    return new PdfString(made);
  }

  private literalString(): PdfString {
    const { bytes } = this;
    const made: number[] = [];
    let open = 1;
    this.pos++;
    for (;;) {
      let c = bytes[this.pos++];
      if (c === undefined) throw damaged(`byte ${this.pos}`, "a string is not closed");
      if (c === 0x29 && --open === 0) return new PdfString(Uint8Array.from(made));
      if (c === 0x28) open++;
      if (c === 0x0d) {
        if (bytes[this.pos] === 0x0a) this.pos++;
        c = 0x0a;
      } else if (c === 0x5c) {
        const escaped = this.escape();
        if (escaped === undefined) continue;
        c = escaped;
      }
      made.push(c);
    }
  }

  /** What stands after a backslash: a byte, or undefined for a line break that does not count. */
  private escape(): number | undefined {
    const { bytes } = this;
    const c = bytes[this.pos++];
    if (c === undefined) throw damaged(`byte ${this.pos}`, "a string is not closed");
    if (c === 0x0a) return undefined;
    if (c === 0x0d) {
      if (bytes[this.pos] === 0x0a) this.pos++;
      return undefined;
    }
    if (c >= 48 && c <= 55) {
      let value = c - 48;
      for (let n = 0; n < 2; n++) {
        const d = bytes[this.pos];
        if (d === undefined || d < 48 || d > 55) break;
        value = value * 8 + d - 48;
        this.pos++;
      }
      return value & 255;
    }
    const plain = { 110: 10, 114: 13, 116: 9, 98: 8, 102: 12 }[c];
    return plain ?? c;
  }
}
