import type { ByteWriter } from "./byte-writer.ts";
import { type PdfDict, PdfName, type PdfObject, PdfRef, PdfStream, PdfString } from "./pdf-object.ts";

/** Encrypts a string's bytes; the count tells strings of one object apart. */
export type SealString = (bytes: Uint8Array, count: number) => Uint8Array;

/** A number as PDF wants it: no exponent, no needless digits. `places` decimals at most. */
export const formatNumber = (value: number, places = 10): string => {
  if (Number.isInteger(value)) return Math.abs(value) < 1e15 ? String(value) : value.toFixed(0);
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
      write(new Map([...o.dict, ["Length", o.raw.length]]), false);
      out.text("\nstream\n");
      out.bytes(o.raw);
      out.text("\nendstream");
    } else if (Array.isArray(o)) {
      out.text("[");
      for (const [i, item] of o.entries()) {
        if (i > 0) out.text(" ");
        write(item, false);
      }
      out.text("]");
    } else writeDict(o);
  };
  const writeDict = (d: PdfDict): void => {
    out.text("<<");
    const signature = d.has("ByteRange");
    for (const [key, value] of d) {
      out.text(`${writtenName(key)} `);
      write(value, signature && key === "Contents");
    }
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
  out.text(`<${hexOf(bytes)}>`);
};

const HEX: readonly string[] = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, "0"));

/** Bytes as hexadecimal digits. */
export const hexOf = (bytes: Uint8Array): string => {
  let text = "";
  for (let i = 0; i < bytes.length; i++) text += HEX[bytes[i] as number];
  return text;
};

/** A short string of printable characters as it reads, any other as digits. */
const writeString = (out: ByteWriter, bytes: Uint8Array): void => {
  let text = "";
  let plain = bytes.length <= 4096;
  for (let i = 0; plain && i < bytes.length; i++) {
    const byte = bytes[i] as number;
    plain = byte >= 32 && byte <= 126;
    text += (byte === 92 || byte === 40 || byte === 41 ? "\\" : "") + String.fromCharCode(byte);
  }
  if (plain) out.text(`(${text})`);
  else writeHex(out, bytes);
};
