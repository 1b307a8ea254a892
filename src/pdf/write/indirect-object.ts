import { ObjectParser } from "./object-parser.ts";
import { damaged } from "./pdf-failure.ts";
import { isDict, type PdfDict, type PdfObject, PdfRef, PdfStream } from "./pdf-object.ts";

/** An object as it stands in the file body, with the number it claims. */
export interface IndirectObject {
  readonly ref: PdfRef;
  readonly value: PdfObject;
  /** Where reading stopped. */
  readonly end: number;
}

/**
 * Reads `N G obj … endobj` at a byte offset. `lengthOf` answers a stream's /Length when it is a reference (undefined when it
 * cannot). A stream whose /Length does not lead to `endstream` is cut at the next `endstream`.
 */
export const readIndirect = (
  bytes: Uint8Array,
  offset: number,
  lengthOf: (length: PdfObject | undefined) => number | undefined,
): IndirectObject => {
  const parser = new ObjectParser(bytes, offset);
  const num = parser.integer();
  const gen = parser.integer();
  if (num === undefined || gen === undefined || !parser.takes("obj"))
    throw damaged(`byte ${offset}`, "no object starts here");
  const value = parser.object();
  const ref = new PdfRef(num, gen);
  if (isDict(value) && parser.takes("stream")) {
    const raw = streamBytes(bytes, parser, value, lengthOf);
    return { ref, value: new PdfStream(value, raw), end: parser.pos };
  }
  return { ref, value, end: parser.pos };
};

const streamBytes = (
  bytes: Uint8Array,
  parser: ObjectParser,
  dict: PdfDict,
  lengthOf: (length: PdfObject | undefined) => number | undefined,
): Uint8Array => {
  if (bytes[parser.pos] === 0x0d) parser.pos++;
  if (bytes[parser.pos] === 0x0a) parser.pos++;
  const start = parser.pos;
  const length = lengthOf(dict.get("Length"));
  if (length !== undefined && length >= 0 && start + length <= bytes.length) {
    parser.pos = start + length;
    if (parser.takes("endstream")) return bytes.subarray(start, start + length);
  }
  const end = indexOf(bytes, "endstream", start);
  if (end < 0) throw damaged(`byte ${start}`, "a stream does not end");
  parser.pos = end + 9;
  // The line break before the keyword is not data.
  const cut =
    bytes[end - 1] === 0x0a && bytes[end - 2] === 0x0d ? 2 : bytes[end - 1] === 0x0a || bytes[end - 1] === 0x0d ? 1 : 0;
  return bytes.subarray(start, Math.max(start, end - cut));
};

/** First place at or behind `from` where the ASCII text stands, -1 when nowhere. */
export const indexOf = (bytes: Uint8Array, text: string, from = 0): number => {
  const codes = Array.from(text, (c) => c.charCodeAt(0));
  const first = codes[0] as number;
  for (let at = bytes.indexOf(first, from); at >= 0; at = bytes.indexOf(first, at + 1))
    if (codes.every((code, i) => bytes[at + i] === code)) return at;
  return -1;
};

/** Last place at or before `from` where the ASCII text stands, -1 when nowhere (not looking below `floor`). */
export const lastIndexOf = (bytes: Uint8Array, text: string, from = bytes.length, floor = 0): number => {
  const codes = Array.from(text, (c) => c.charCodeAt(0));
  for (let at = Math.min(from, bytes.length - codes.length); at >= floor; at--)
    if (codes.every((code, i) => bytes[at + i] === code)) return at;
  return -1;
};
