import { type CrossReference, readCrossReference } from "./cross-reference.ts";
import { readIndirect } from "./indirect-object.ts";
import { ObjectParser } from "./object-parser.ts";
import { damaged, PdfFailure } from "./pdf-failure.ts";
import {
  dictOf,
  isDict,
  nameOf,
  numberOf,
  type PdfDict,
  PdfName,
  type PdfObject,
  PdfRef,
  PdfStream,
  PdfString,
} from "./pdf-object.ts";
import { rebuildReference } from "./rebuilt-reference.ts";
import { Security } from "./security.ts";
import { decodeStream, filtersOf } from "./stream-data.ts";

/** Longest chain of references to references that is followed. */
const MAX_CHAIN = 32;

/** How to open a file. */
export interface OpenOptions {
  readonly password?: string | undefined;
  /** Do not use the file's index but find its objects by scanning, for reading only. */
  readonly rebuild?: boolean;
}

/** A PDF file, its objects looked up one by one when asked for. */
export class PdfFile {
  private readonly loaded = new Map<number, PdfObject>();
  private readonly packs = new Map<number, { data: Uint8Array; offsets: readonly number[] }>();
  private readonly loading = new Set<number>();
  security: Security | undefined;
  private greatest = 0;

  private constructor(
    readonly bytes: Uint8Array,
    readonly reference: CrossReference,
    /** True when the index was rebuilt by a scan; such a file is only read. */
    readonly rebuilt: boolean,
  ) {}

  /** Opens a file. Throws a `PdfFailure`: not a PDF, damaged, or its password is needed. */
  static open(bytes: Uint8Array, options: OpenOptions = {}): PdfFile {
    if (!options.rebuild) {
      const file = new PdfFile(bytes, readCrossReference(bytes), false);
      file.unlock(options.password);
      file.catalog();
      return file;
    }
    const reference = rebuildReference(bytes);
    const file = new PdfFile(bytes, reference, true);
    file.unlock(options.password);
    for (const num of reference.objectStreams) file.unpackInto(num);
    file.catalog();
    return file;
  }

  /** The document catalog. */
  catalog(): PdfDict {
    const root = this.resolve(this.reference.trailer.get("Root"));
    if (!isDict(root)) throw damaged("root", "the document's root is missing");
    return root;
  }

  /** The object behind a reference (null when there is none); anything else is returned as it is. */
  resolve = (given: PdfObject | undefined): PdfObject => {
    let o = given ?? null;
    for (let i = 0; o instanceof PdfRef; i++) {
      if (i > MAX_CHAIN) throw damaged(`object ${o.num}`, "references lead in a circle");
      o = this.load(o.num);
    }
    return o;
  };

  /** The first object number that is free for certain. */
  get nextNumber(): number {
    return Math.max(this.reference.size, this.greatest + 1);
  }

  /** A reference to the object with the generation the index gives it. */
  refTo(num: number): PdfRef {
    const place = this.reference.places.get(num);
    return new PdfRef(num, place?.kind === "offset" ? place.gen : 0);
  }

  /** A stream's data, decrypted and unfiltered. */
  data(stream: PdfStream): Uint8Array {
    return decodeStream(stream.dict, this.plain(stream), this.resolve);
  }

  /** A stream's bytes, decrypted but still filtered. */
  plain(stream: PdfStream): Uint8Array {
    const { sealed, dict } = stream;
    if (sealed === undefined || this.security === undefined) return stream.raw;
    const type = nameOf(dict.get("Type"));
    if (type === "XRef" || (type === "Metadata" && !this.security.encryptsMetadata)) return stream.raw;
    // A stream may choose a crypt filter for itself; only "leave it plain" is in use.
    if (filtersOf(dict, this.resolve)[0] === "Crypt") {
      const parms = this.resolve(dict.get("DecodeParms"));
      const own = dictOf(this.resolve(Array.isArray(parms) ? parms[0] : parms));
      if ((nameOf(own?.get("Name")) ?? "Identity") === "Identity") return stream.raw;
    }
    return this.security.unseal(type === "EmbeddedFile" ? "embedded" : "stream", sealed, stream.raw);
  }

  private unlock(password: string | undefined): void {
    const { trailer } = this.reference;
    const encrypt = trailer.get("Encrypt");
    if (encrypt === undefined || encrypt === null) return;
    // Loaded while there is no handler yet: its own strings are never encrypted.
    const entries = this.resolve(encrypt);
    if (!isDict(entries)) throw damaged("trailer", "the encryption dictionary is missing");
    const id = this.resolve(trailer.get("ID"));
    const first = Array.isArray(id) ? this.resolve(id[0]) : null;
    const plain: PdfDict = new Map([...entries].map(([key, value]) => [key, this.resolve(value)]));
    this.security = Security.open(plain, first instanceof PdfString ? first.bytes : new Uint8Array(0), password);
    this.loaded.clear();
    if (encrypt instanceof PdfRef) this.loaded.set(encrypt.num, entries);
  }

  private load(num: number): PdfObject {
    const known = this.loaded.get(num);
    if (known !== undefined) return known;
    const place = this.reference.places.get(num);
    if (place === undefined || place.kind === "free") return null;
    if (this.loading.has(num)) throw damaged(`object ${num}`, "it cannot be read without reading itself");
    this.loading.add(num);
    try {
      const value = place.kind === "offset" ? this.atOffset(num, place.offset) : this.packed(place.stream, place.index);
      this.loaded.set(num, value);
      return value;
    } finally {
      this.loading.delete(num);
    }
  }

  private atOffset(num: number, offset: number): PdfObject {
    const { ref, value } = readIndirect(this.bytes, offset, (length) => numberOf(this.resolve(length)));
    if (ref.num !== num) throw damaged(`object ${num}`, `the index leads to object ${ref.num} instead`);
    return this.security === undefined ? value : this.unsealStrings(value, ref, this.security);
  }

  /** Decrypts the strings of an object, and marks its stream as encrypted. */
  private unsealStrings(value: PdfObject, owner: PdfRef, security: Security): PdfObject {
    const walk = (o: PdfObject): PdfObject => {
      if (o instanceof PdfString) return new PdfString(security.unseal("string", owner, o.bytes));
      if (Array.isArray(o)) return o.map(walk);
      if (isDict(o)) {
        // A signature's contents are never encrypted (ISO 32000-2, 7.6.2).
        const signature = o.has("ByteRange");
        return new Map([...o].map(([k, v]) => [k, signature && k === "Contents" ? v : walk(v)]));
      }
      return o;
    };
    if (value instanceof PdfStream) return new PdfStream(walk(value.dict) as PdfDict, value.raw, owner);
    return walk(value);
  }

  private packed(stream: number, index: number): PdfObject {
    const { data, offsets } = this.pack(stream);
    const at = offsets[2 * index + 1];
    if (at === undefined) return null;
    return new ObjectParser(data, at).object();
  }

  /** An object stream's data, with number and offset of each object in turn. */
  private pack(num: number): { data: Uint8Array; offsets: readonly number[] } {
    const known = this.packs.get(num);
    if (known) return known;
    if (this.reference.places.get(num)?.kind === "packed")
      throw damaged(`object ${num}`, "an object stream inside another");
    const stream = this.load(num);
    if (!(stream instanceof PdfStream)) throw damaged(`object ${num}`, "an object stream is missing");
    const data = this.data(stream);
    const first = numberOf(this.resolve(stream.dict.get("First"))) ?? 0;
    const count = numberOf(this.resolve(stream.dict.get("N"))) ?? 0;
    const parser = new ObjectParser(data);
    const offsets: number[] = [];
    for (let i = 0; i < count; i++) {
      const [number, offset] = [parser.integer(), parser.integer()];
      if (number === undefined || offset === undefined) break;
      offsets.push(number, first + offset);
    }
    const made = { data, offsets };
    this.packs.set(num, made);
    return made;
  }

  /** After a scan: makes the objects of an object stream known, unless they also stand in the open. */
  private unpackInto(num: number): void {
    try {
      const { offsets } = this.pack(num);
      for (let i = 0; 2 * i < offsets.length; i++) {
        const inside = offsets[2 * i] as number;
        if (this.reference.places.get(inside)?.kind !== "offset")
          this.reference.places.set(inside, { kind: "packed", stream: num, index: i });
        this.greatest = Math.max(this.greatest, inside);
      }
    } catch (error) {
      if (!(error instanceof PdfFailure)) throw error;
    }
  }
}

/** The file's version, from its header or its catalog, whichever is later, times ten: 17 for 1.7. */
export const versionOf = (file: PdfFile): number => {
  const header = new TextDecoder("latin1").decode(file.bytes.subarray(0, 1040));
  const tenths = (text: string | undefined): number => {
    const match = /^(\d)\.(\d)/.exec(text ?? "");
    return match ? Number(match[1]) * 10 + Number(match[2]) : 0;
  };
  const version = file.resolve(file.catalog().get("Version"));
  return Math.max(tenths(/%PDF-(\d\.\d)/.exec(header)?.[1]), tenths(version instanceof PdfName ? version.value : ""));
};

/** Reads something from a file; when its index turns out damaged, tries once more with the index rebuilt. */
export const readTolerantly = <T>(bytes: Uint8Array, password: string | undefined, read: (file: PdfFile) => T): T => {
  try {
    return read(PdfFile.open(bytes, { password }));
  } catch (error) {
    if (!(error instanceof PdfFailure) || error.problem.code !== "pdf.damaged") throw error;
    try {
      return read(PdfFile.open(bytes, { password, rebuild: true }));
    } catch (second) {
      // Where the first reading stopped is the better clue, unless the second one got further.
      throw second instanceof PdfFailure && second.problem.code !== "pdf.damaged" ? second : error;
    }
  }
};
