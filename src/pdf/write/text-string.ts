import { type PdfObject, PdfString } from "./pdf-object.ts";

/** Characters of PDFDocEncoding at 0x80 to 0x9E that Latin-1 has elsewhere or not at all (ISO 32000-2, table D.2). */
const UPPER = "•†‡…—–ƒ⁄‹›−‰„“”‘’‚™ﬁﬂŁŒŠŸŽıłœšž";

/** A text string (ISO 32000-2, 7.9.2.2): PDFDocEncoding when every character is in ASCII or Latin-1, else UTF-16BE. */
export const textString = (text: string): PdfString => {
  // Text that begins like the mark of another encoding would be read in that one.
  const misleading = /^(þÿ|ÿþ|ï»¿)/.test(text);
  if (!misleading && /^[\t\n\r\x20-\x7e\xa1-\xac\xae-\xff]*$/.test(text)) return new PdfString(latin(text));
  const bytes = new Uint8Array(2 + 2 * text.length);
  bytes.set([0xfe, 0xff]);
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    bytes[2 + 2 * i] = unit >> 8;
    bytes[3 + 2 * i] = unit & 255;
  }
  return new PdfString(bytes);
};

/** The text of a text string, "" for anything else. */
export const textOf = (o: PdfObject | undefined): string => {
  if (!(o instanceof PdfString)) return "";
  const { bytes } = o;
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder("utf-16be").decode(bytes);
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) return new TextDecoder().decode(bytes);
  let text = "";
  for (const byte of bytes)
    text += byte >= 0x80 && byte < 0x9f ? UPPER[byte - 0x80] : byte === 0xa0 ? "€" : String.fromCharCode(byte);
  return text;
};

/** A date (ISO 32000-2, 7.9.4), in universal time. */
export const dateString = (date: Date): PdfString => {
  const time = date.getTime();
  if (lately?.time !== time) {
    const digits = date.toISOString().replace(/[-:T]/g, "").slice(0, 14);
    lately = { time, written: new PdfString(latin(`D:${digits}Z`)) };
  }
  return lately.written;
};

/** The last date that was written: all marks of an issue bear the same. */
let lately: { readonly time: number; readonly written: PdfString } | undefined;

/** The bytes of a string whose characters are all below 256. */
export const latin = (text: string): Uint8Array => {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
};
