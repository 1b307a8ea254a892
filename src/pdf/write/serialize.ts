import type { ByteWriter } from "./byte-writer.ts";
import { type PdfDict, PdfName, type PdfObject, PdfRef, PdfStream, PdfString } from "./pdf-object.ts";

/** Encrypts a string's bytes; the count tells strings of one object apart. */
export type SealString = (bytes: Uint8Array, count: number) => Uint8Array;

const SPACE = 0x20;
const OPEN = 0x28;
const CLOSE = 0x29;
const LESS = 0x3c;
const GREATER = 0x3e;
const BACKSLASH = 0x5c;

/** A number as PDF wants it: no exponent, no needless digits. `places` decimals at most. */
export const formatNumber = (value: number, places = 10): string => {
  if (Number.isInteger(value)) return Math.abs(value) < 1e15 ? String(value) : value.toFixed(0);
  // Below 100,000 doubles lie closer together than steps of the tenth decimal: where their shortest digits are few enough, rounding finds the same.
  if (Math.abs(value) < 1e5) {
    const shortest = String(value);
    if (shortest.length - shortest.indexOf(".") - 1 <= places && !shortest.includes("e")) return shortest;
  }
  const text = value.toFixed(places).replace(/0+$/, "").replace(/\.$/, "");
  return text === "-0" ? "0" : text;
};

/**
 * Writes an object. Strings go through `seal` when given. A stream's bytes must be ready (filtered and encrypted); its
 * /Length is set here.
 */
export const writeObject = (out: ByteWriter, object: PdfObject, seal?: SealString): void => {
  let count = 0;
  const write = (o: PdfObject, inSignature: boolean): void => {
    if (o === null) out.text("null");
    else if (typeof o === "number") out.text(formatNumber(o));
    else if (typeof o === "boolean") out.text(String(o));
    else if (o instanceof PdfName) out.text(writtenName(o.value));
    else if (o instanceof PdfRef) out.text(`${o.num} ${o.gen} R`);
    else if (o instanceof PdfString) {
      if (seal && !inSignature) writeHex(out, seal(o.bytes, count++));
      else writeString(out, o.bytes);
    } else if (o instanceof PdfStream) {
      writeDict(o.dict, o.raw.length);
      out.text("\nstream\n");
      out.bytes(o.raw);
      out.text("\nendstream");
    } else if (Array.isArray(o)) {
      out.text("[");
      for (let i = 0; i < o.length; i++) {
        if (i > 0) out.byte(SPACE);
        write(o[i] as PdfObject, false);
      }
      out.text("]");
    } else writeDict(o);
  };
  /** `length`: of a stream, whose own word for it does not count. */
  const writeDict = (d: PdfDict, length?: number): void => {
    out.text("<<");
    const signature = d.has("ByteRange");
    for (const [key, value] of d) {
      out.text(writtenName(key));
      out.byte(SPACE);
      if (length !== undefined && key === "Length") write(length, false);
      else write(value, signature && key === "Contents");
    }
    if (length !== undefined && !d.has("Length")) out.text(`/Length ${length}`);
    out.text(">>");
  };
  write(object, false);
};

const PLAIN_NAME = /^[!"$&'*-.0-;=?-Z\\^-z|~]*$/;

/** A name with its slash; what cannot stand in a name as `#xx`. */
export const writtenName = (value: string): string =>
  PLAIN_NAME.test(value)
    ? `/${value}`
    : `/${value.replace(/[^!"$&'*-.0-;=?-Z\\^-z|~]/g, (c) => `#${c.charCodeAt(0).toString(16).padStart(2, "0")}`)}`;

const writeHex = (out: ByteWriter, bytes: Uint8Array): void => {
  out.byte(LESS);
  out.hex(bytes);
  out.byte(GREATER);
};

/** A short string of printable characters as it reads, any other as digits. */
const writeString = (out: ByteWriter, bytes: Uint8Array): void => {
  if (bytes.length > 4096 || !isPrintable(bytes)) {
    writeHex(out, bytes);
    return;
  }
  out.byte(OPEN);
  for (let i = 0; i < bytes.length; i++) {
    const byte = bytes[i] as number;
    if (byte === BACKSLASH || byte === OPEN || byte === CLOSE) out.byte(BACKSLASH);
    out.byte(byte);
  }
  out.byte(CLOSE);
};

const isPrintable = (bytes: Uint8Array): boolean => {
  for (let i = 0; i < bytes.length; i++) if ((bytes[i] as number) < 32 || (bytes[i] as number) > 126) return false;
  return true;
};
