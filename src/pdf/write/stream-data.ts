import { Inflate, zlibSync } from "fflate";
import { damaged, failure } from "./pdf-failure.ts";
import { isDict, nameOf, numberOf, type PdfDict, type PdfObject } from "./pdf-object.ts";

/** Most bytes one stream may unpack to; beyond it the file is refused rather than the memory spent. */
const MAX_DECODED = 1 << 29;

type Lookup = (o: PdfObject | undefined) => PdfObject;

/** Names of the filters of a stream, in the order they are undone. */
export const filtersOf = (dict: PdfDict, lookup: Lookup): string[] => {
  const filter = lookup(dict.get("Filter"));
  const list = Array.isArray(filter) ? filter.map(lookup) : filter === null ? [] : [filter];
  return list.map((f) => nameOf(f) ?? "");
};

/**
 * Undoes a stream's filters: Flate with its predictors, ASCII-hex and none. Enough for cross-references, object streams,
 * most content and our own attachments; another filter is the problem `pdf.unknown-filter`.
 */
export const decodeStream = (dict: PdfDict, raw: Uint8Array, lookup: Lookup): Uint8Array => {
  const parms = lookup(dict.get("DecodeParms") ?? dict.get("DP"));
  return filtersOf(dict, lookup).reduce((data, filter, i) => {
    const given = lookup(Array.isArray(parms) ? parms[i] : parms);
    const parm = isDict(given) ? given : undefined;
    switch (filter) {
      case "FlateDecode":
      case "Fl":
        return unpredict(inflate(data), parm, lookup);
      case "ASCIIHexDecode":
      case "AHx":
        return fromHex(data);
      case "Crypt":
        return data; // its part was done when the stream was decrypted
      default:
        throw failure("pdf.unknown-filter", "", { filter });
    }
  }, raw);
};

/** Zlib-compresses bytes; the same bytes always give the same result. */
export const deflate = (data: Uint8Array): Uint8Array => zlibSync(data, { level: 6 });

/** Unpacks zlib data; a stream that ends early gives what came before the end. */
const inflate = (data: Uint8Array): Uint8Array => {
  const chunks: Uint8Array[] = [];
  let total = 0;
  const unpack = new Inflate((chunk) => {
    total += chunk.length;
    if (total > MAX_DECODED) throw failure("pdf.too-large", "", { limitMB: MAX_DECODED >> 20 });
    chunks.push(chunk);
  });
  // Past the two bytes of zlib's header; the checksum behind the data is not looked at.
  const body = data.subarray(2);
  const step = 1 << 16;
  try {
    for (let at = 0; at < body.length; at += step) unpack.push(body.subarray(at, at + step), at + step >= body.length);
  } catch (error) {
    if (error instanceof Error && "code" in error && typeof error.code === "number") {
      if (total === 0) throw damaged("", "a compressed stream cannot be unpacked");
    } else throw error;
  }
  return concat(chunks);
};

/** One array from several. */
export const concat = (chunks: readonly Uint8Array[]): Uint8Array => {
  if (chunks.length === 1) return chunks[0] as Uint8Array;
  const made = new Uint8Array(chunks.reduce((sum, c) => sum + c.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    made.set(chunk, at);
    at += chunk.length;
  }
  return made;
};

const fromHex = (data: Uint8Array): Uint8Array => {
  const text = new TextDecoder("latin1").decode(data).replace(/>[\s\S]*$/, "");
  const digits = text.replace(/[^0-9a-fA-F]/g, "");
  return Uint8Array.from({ length: (digits.length + 1) >> 1 }, (_, i) =>
    Number.parseInt(digits.slice(2 * i, 2 * i + 2).padEnd(2, "0"), 16),
  );
};

/** Undoes a PNG or TIFF predictor (ISO 32000-2, 7.4.4.4). */
const unpredict = (data: Uint8Array, parm: PdfDict | undefined, lookup: Lookup): Uint8Array => {
  const value = (key: string, other: number): number => numberOf(lookup(parm?.get(key))) ?? other;
  const predictor = value("Predictor", 1);
  if (predictor < 2) return data;
  const colours = value("Colors", 1);
  const bits = value("BitsPerComponent", 8);
  const pixel = Math.max(1, (colours * bits) >> 3);
  const row = (colours * bits * value("Columns", 1) + 7) >> 3;
  if (!(row > 0 && row < MAX_DECODED)) throw damaged("", "a stream's row length makes no sense");
  if (predictor === 2) {
    if (bits !== 8) throw failure("pdf.unknown-filter", "", { filter: "TIFF predictor" });
    const made = data.slice();
    for (let i = 0; i < made.length; i++)
      if (i % row >= pixel) made[i] = ((made[i] as number) + (made[i - pixel] as number)) & 255;
    return made;
  }
  const rows = Math.ceil(data.length / (row + 1));
  const made = new Uint8Array(rows * row);
  for (let r = 0; r < rows; r++) {
    const type = data[r * (row + 1)] as number;
    const from = r * (row + 1) + 1;
    const to = r * row;
    for (let i = 0; i < row; i++) {
      const left = i >= pixel ? (made[to + i - pixel] as number) : 0;
      const up = r > 0 ? (made[to + i - row] as number) : 0;
      const corner = r > 0 && i >= pixel ? (made[to + i - row - pixel] as number) : 0;
      made[to + i] = (data[from + i] ?? 0) + pngPrediction(type, left, up, corner);
    }
  }
  return made;
};

const pngPrediction = (type: number, left: number, up: number, corner: number): number => {
  if (type === 1) return left;
  if (type === 2) return up;
  if (type === 3) return (left + up) >> 1;
  if (type !== 4) return 0;
  const p = left + up - corner;
  const [a, b, c] = [Math.abs(p - left), Math.abs(p - up), Math.abs(p - corner)];
  return a <= b && a <= c ? left : b <= c ? up : corner;
};
