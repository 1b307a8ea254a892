import { type CrossReference, headerPosition, MAX_OBJECT } from "./cross-reference.ts";
import { indexOf } from "./indirect-object.ts";
import { ObjectParser } from "./object-parser.ts";
import { damaged, PdfFailure } from "./pdf-failure.ts";
import { isDict, nameOf, numberOf, type PdfDict, PdfRef } from "./pdf-object.ts";
import { Places } from "./places.ts";

/** Objects that a scan found, and which of them are object streams (to be unpacked once the file can be decrypted). */
export interface RebuiltReference extends CrossReference {
  readonly objectStreams: readonly number[];
}

/**
 * Finds the objects of a file whose own index is unusable by looking for `N G obj`, the last of each number winning. What stands inside a
 * stream that ends where it says is data and no object. Something is appended to such a file only where a person asks for a repaired copy.
 */
export const rebuildReference = (bytes: Uint8Array): RebuiltReference => {
  // Readers count from the header where words stand before it.
  const base = headerPosition(bytes);
  const places = new Places(bytes, base);
  let size = 1;
  const objectStreams: number[] = [];
  let trailer: PdfDict | undefined;
  let catalog: PdfRef | undefined;
  const budget = { wholeReads: 100 };
  for (let at = indexOf(bytes, " obj"), next: number; at >= 0; at = indexOf(bytes, " obj", next)) {
    next = at + 1;
    const found = numbersBefore(bytes, at);
    if (found === undefined || found.num > MAX_OBJECT) continue;
    const { num, gen, offset } = found;
    places.set(num, { kind: "offset", offset, gen });
    size = Math.max(size, num + 1);
    const { dict, end } = peek(bytes, offset, budget);
    next = endOfStream(bytes, dict, end) ?? next;
    const type = nameOf(dict?.get("Type"));
    if (type === "Catalog") catalog = new PdfRef(num, gen);
    else if (type === "ObjStm") objectStreams.push(num);
    else if (type === "XRef" && dict?.has("Root")) trailer = dict;
  }
  for (let at = indexOf(bytes, "trailer"); at >= 0; at = indexOf(bytes, "trailer", at + 7)) {
    const dict = attempt(() => new ObjectParser(bytes, at + 7).object());
    if (isDict(dict) && dict.has("Root")) trailer = dict;
  }
  if (trailer === undefined && catalog !== undefined) trailer = new Map([["Root", catalog]]);
  if (trailer === undefined) throw damaged("index", "neither it nor the document's root can be found");
  return { kind: "table", places, trailer, start: 0, size, base, objectStreams };
};

/** The two numbers in front of ` obj`, read backwards. */
const numbersBefore = (bytes: Uint8Array, at: number): { num: number; gen: number; offset: number } | undefined => {
  const digitsBefore = (end: number): number => {
    let from = end;
    while (from > 0 && end - from < 10 && (bytes[from - 1] as number) >= 48 && (bytes[from - 1] as number) <= 57)
      from--;
    return from;
  };
  const genAt = digitsBefore(at);
  let gap = genAt;
  while (gap > 0 && [32, 10, 13, 9].includes(bytes[gap - 1] as number)) gap--;
  const numAt = digitsBefore(gap);
  if (genAt === at || gap === genAt || numAt === gap) return undefined;
  const parser = new ObjectParser(bytes, numAt);
  return { num: parser.integer() as number, gen: parser.integer() as number, offset: numAt };
};

/** A dictionary mostly tells its kind early. Looking no further keeps the scan in step with the size of the file. */
const PEEK = 4096;

interface Peeked {
  readonly dict: PdfDict | undefined;
  /** Where the object's value ends. */
  readonly end: number;
}

const peek = (bytes: Uint8Array, offset: number, budget: { wholeReads: number }): Peeked => {
  const read = (within: Uint8Array): Peeked => {
    const parser = new ObjectParser(within, offset);
    parser.integer();
    parser.integer();
    if (!parser.takes("obj")) return { dict: undefined, end: offset };
    const found = attempt(() => parser.object());
    return { dict: isDict(found) ? found : undefined, end: parser.pos };
  };
  const near = bytes.subarray(0, offset + PEEK);
  const found = read(near);
  if (found.dict !== undefined || indexOf(near, "/Catalog", offset) < 0 || budget.wholeReads-- <= 0) return found;
  return read(bytes);
};

/** Where the stream behind a dictionary ends, if it ends where its own /Length says. */
const endOfStream = (bytes: Uint8Array, dict: PdfDict | undefined, from: number): number | undefined => {
  const length = numberOf(dict?.get("Length"));
  if (length === undefined || !(length >= 0)) return undefined;
  const parser = new ObjectParser(bytes, from);
  if (!parser.takes("stream")) return undefined;
  if (bytes[parser.pos] === 0x0d) parser.pos++;
  if (bytes[parser.pos] === 0x0a) parser.pos++;
  parser.pos += length;
  return parser.takes("endstream") ? parser.pos : undefined;
};

const attempt = <T>(read: () => T): T | undefined => {
  try {
    return read();
  } catch (error) {
    if (error instanceof PdfFailure) return undefined;
    throw error;
  }
};
