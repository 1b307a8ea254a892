import { ByteWriter } from "./byte-writer.ts";
import { MAX_OBJECT } from "./cross-reference.ts";
import { md5 } from "./crypto/md5.ts";
import { damaged } from "./pdf-failure.ts";
import type { PdfFile } from "./pdf-file.ts";
import {
  dict,
  isDict,
  name,
  nameOf,
  type PdfDict,
  type PdfObject,
  PdfRef,
  PdfStream,
  PdfString,
} from "./pdf-object.ts";
import type { Place } from "./places.ts";
import { writeObject } from "./serialize.ts";
import { deflate } from "./stream-data.ts";

/** Streams shorter than this are not worth packing: setting a packer up takes longer than writing them. */
const WORTH_PACKING = 500;

/**
 * The update being prepared: objects that are new or replace one of the file, and at the end their bytes with a
 * cross-reference section of the kind the file already uses (ISO 32000-2, 7.5.6).
 */
export class Increment {
  private readonly objects = new Map<number, { ref: PdfRef; value: PdfObject }>();
  private next: number;

  constructor(readonly file: PdfFile) {
    this.next = file.nextNumber;
  }

  /** A fresh object number. */
  allocate(): PdfRef {
    if (this.next > MAX_OBJECT) throw damaged("index", "no object numbers are left");
    return new PdfRef(this.next++, 0);
  }

  /** Sets the object of a number, new or old. */
  put(ref: PdfRef, value: PdfObject): PdfRef {
    this.objects.set(ref.num, { ref, value });
    return ref;
  }

  /** Adds a new object. */
  add(value: PdfObject): PdfRef {
    return this.put(this.allocate(), value);
  }

  /** Adds a new stream, packed when that is worth it. */
  addStream(entries: PdfDict, data: Uint8Array): PdfRef {
    if (data.length < WORTH_PACKING) return this.add(new PdfStream(entries, data));
    return this.addPacked(entries, deflate(data));
  }

  /** Adds a new stream whose data is packed already, by `deflate`. */
  addPacked(entries: PdfDict, packed: Uint8Array): PdfRef {
    return this.add(new PdfStream(new Map([...entries, ["Filter", name("FlateDecode")]]), packed));
  }

  /** The object behind a reference as it will be after this update. */
  resolve = (given: PdfObject | undefined): PdfObject => {
    let o = given ?? null;
    for (let i = 0; o instanceof PdfRef; i++) {
      if (i > 32) throw damaged(`object ${o.num}`, "references lead in a circle");
      const changed = this.objects.get(o.num);
      if (changed === undefined) return this.file.resolve(o);
      o = changed.value;
    }
    return o;
  };

  /** A dictionary of the file, ready to be changed: a copy that this update will write. */
  edit(ref: PdfRef, what: string): PdfDict {
    const changed = this.objects.get(ref.num)?.value;
    if (isDict(changed)) return changed;
    const found = this.resolve(ref);
    if (!isDict(found)) throw damaged(`object ${ref.num}`, `${what} is missing`);
    const copy: PdfDict = new Map(found);
    this.put(this.file.refTo(ref.num), copy);
    return copy;
  }

  /**
   * A dictionary held by another under `key`, ready to be changed: edited in its own object when it is referred to, else
   * copied in place. Made when absent.
   */
  editEntry(holder: PdfDict, key: string): PdfDict {
    const held = holder.get(key);
    if (held instanceof PdfRef && isDict(this.resolve(held))) return this.edit(held, key);
    const found = this.resolve(held);
    const copy: PdfDict = new Map(isDict(found) ? found : []);
    holder.set(key, copy);
    return copy;
  }

  /** The catalog, ready to be changed. */
  editCatalog(): PdfDict {
    const root = this.file.reference.trailer.get("Root");
    if (!(root instanceof PdfRef)) throw damaged("trailer", "the document's root is not an object of its own");
    return this.edit(root, "the document's root");
  }

  /** The bytes to append. */
  finish(): Uint8Array<ArrayBuffer> {
    const { file } = this;
    const { base, start } = file.reference;
    // A file without a usable index gets a whole one: rows for all its objects, and none before it to go on to.
    const kind = file.rebuilt ? "stream" : file.reference.kind;
    const out = new ByteWriter();
    const offsets = new Map<number, { offset: number; gen: number }>();
    const here = (): number => file.bytes.length + out.length - base;
    out.text("\n");
    for (const { ref, value } of this.objects.values()) {
      offsets.set(ref.num, { offset: here(), gen: ref.gen });
      out.text(`${ref.num} ${ref.gen} obj\n`);
      this.write(out, ref, value);
      out.text("\nendobj\n");
    }
    const trailer = this.trailer(out);
    const rows = new Map<number, Row>();
    if (file.rebuilt) for (const [num, place] of file.reference.places.entries()) rows.set(num, rowOf(place, base));
    else trailer.set("Prev", start);
    for (const [num, { offset, gen }] of offsets) rows.set(num, [1, offset, gen]);
    const at = here();
    if (kind === "stream") {
      const ref = this.allocate();
      rows.set(ref.num, [1, at, 0]);
      if (file.rebuilt) rows.set(0, [0, 0, 65535]);
      trailer.set("Size", this.next);
      out.text(`${ref.num} 0 obj\n`);
      writeObject(out, sectionStream(trailer, rows));
      out.text("\nendobj\n");
    } else {
      trailer.set("Size", this.next);
      writeSectionTable(out, offsets);
      out.text("trailer\n");
      writeObject(out, trailer);
      out.text("\n");
    }
    out.text(`startxref\n${at}\n%%EOF\n`);
    return out.finish();
  }

  private write(out: ByteWriter, ref: PdfRef, value: PdfObject): void {
    const { security } = this.file;
    if (security === undefined) {
      writeObject(out, value);
      return;
    }
    const isMetadata = value instanceof PdfStream && nameOf(value.dict.get("Type")) === "Metadata";
    if (isMetadata && !security.encryptsMetadata) {
      writeObject(out, value);
      return;
    }
    // Strings are told apart by their count; a stream's data gets a count no string has.
    const seal = (bytes: Uint8Array, count: number): Uint8Array => security.seal("string", ref, bytes, count % 0xffff);
    if (value instanceof PdfStream) {
      const kind = nameOf(value.dict.get("Type")) === "EmbeddedFile" ? "embedded" : "stream";
      writeObject(out, new PdfStream(value.dict, security.seal(kind, ref, value.raw, 0xffff)), seal);
    } else writeObject(out, value, seal);
  }

  /** Root, Info, Encrypt and ID of the file. Only an unencrypted file's second /ID part changes, as it should. */
  private trailer(body: ByteWriter): PdfDict {
    const old = this.file.reference.trailer;
    const kept = dict({
      Root: old.get("Root"),
      Info: old.get("Info"),
      Encrypt: old.get("Encrypt"),
      ID: old.get("ID"),
    });
    const id = this.resolve(old.get("ID"));
    if (this.file.security === undefined && Array.isArray(id) && id.length === 2)
      kept.set("ID", [this.resolve(id[0]), new PdfString(md5(body.finish()))]);
    return kept;
  }
}

/** Runs of consecutive object numbers. */
const runsOf = (numbers: Iterable<number>): number[][] => {
  const runs: number[][] = [];
  for (const num of [...numbers].sort((a, b) => a - b)) {
    const run = runs.at(-1);
    if (run && run.at(-1) === num - 1) run.push(num);
    else runs.push([num]);
  }
  return runs;
};

type Offsets = ReadonlyMap<number, { offset: number; gen: number }>;

const writeSectionTable = (out: ByteWriter, offsets: Offsets): void => {
  out.text("xref\n");
  for (const run of runsOf(offsets.keys())) {
    out.text(`${run[0]} ${run.length}\n`);
    for (const num of run) {
      const { offset, gen } = offsets.get(num) as { offset: number; gen: number };
      out.text(`${String(offset).padStart(10, "0")} ${String(gen).padStart(5, "0")} n \n`);
    }
  }
};

/** A row of a cross-reference stream: its type, and the two fields that go with it (ISO 32000-2, table 18). */
type Row = readonly [type: 0 | 1 | 2, second: number, third: number];

const rowOf = (place: Place, base: number): Row => {
  if (place.kind === "offset") return [1, place.offset - base, place.gen];
  return place.kind === "packed" ? [2, place.stream, place.index] : [0, 0, 0];
};

const sectionStream = (trailer: PdfDict, found: ReadonlyMap<number, Row>): PdfStream => {
  const runs = runsOf(found.keys());
  const rows = new Uint8Array(8 * found.size);
  const view = new DataView(rows.buffer);
  let row = 0;
  for (const num of runs.flat()) {
    const [type, second, third] = found.get(num) as Row;
    rows[row] = type;
    view.setUint8(row + 1, Math.floor(second / 2 ** 32));
    view.setUint32(row + 2, second >>> 0);
    view.setUint16(row + 6, third);
    row += 8;
  }
  const entries: PdfDict = new Map(trailer);
  entries.set("Type", name("XRef"));
  entries.set("W", [1, 5, 2]);
  entries.set(
    "Index",
    runs.flatMap((run) => [run[0] as number, run.length]),
  );
  entries.set("Filter", name("FlateDecode"));
  return new PdfStream(entries, deflate(rows));
};
