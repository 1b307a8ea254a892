/**
 * The objects a PDF file is made of (ISO 32000-2, 7.3). Numbers, booleans and null are JavaScript's own, arrays are
 * arrays, dictionaries are Maps in the order of the file; the rest are the small classes below.
 */
export type PdfObject = null | boolean | number | PdfName | PdfString | PdfRef | PdfStream | PdfArray | PdfDict;
export type PdfArray = PdfObject[];
export type PdfDict = Map<string, PdfObject>;

/** A name without its slash, `#xx` already decoded; one character a byte. */
export class PdfName {
  constructor(readonly value: string) {}
}

/** A string's bytes, after decryption. */
export class PdfString {
  constructor(readonly bytes: Uint8Array) {}
}

/** An indirect reference: object number and generation. */
export class PdfRef {
  constructor(
    readonly num: number,
    readonly gen: number,
  ) {}
}

/** A stream: its dictionary and its bytes, still filtered. Bytes are plain unless `sealed` says whose key they need. */
export class PdfStream {
  constructor(
    readonly dict: PdfDict,
    readonly raw: Uint8Array,
    /** The object whose key decrypts `raw`; undefined when `raw` is not encrypted. */
    readonly sealed?: PdfRef,
  ) {}
}

/** Narrows to a dictionary. A stream is not one; see `dictOf`. */
export const isDict = (o: PdfObject | undefined): o is PdfDict => o instanceof Map;
/** The dictionary of a dictionary or stream. */
export const dictOf = (o: PdfObject | undefined): PdfDict | undefined =>
  o instanceof Map ? o : o instanceof PdfStream ? o.dict : undefined;
/** The text of a name, else undefined. */
export const nameOf = (o: PdfObject | undefined): string | undefined => (o instanceof PdfName ? o.value : undefined);
/** A finite number, else undefined. */
export const numberOf = (o: PdfObject | undefined): number | undefined => (typeof o === "number" ? o : undefined);

/** A dictionary from a plain object; entries that are undefined are left out. */
export const dict = (entries: Readonly<Record<string, PdfObject | undefined>>): PdfDict => {
  const made: PdfDict = new Map();
  for (const key of Object.keys(entries)) {
    const value = entries[key];
    if (value !== undefined) made.set(key, value);
  }
  return made;
};
/** Shorthand for a name object. */
export const name = (value: string): PdfName => new PdfName(value);
