import { create, type Font, type Glyph, type Subset } from "@cantoo/fontkit";
import type { FontFace } from "../../geometry/picture.ts";
import type { Increment } from "./increment.ts";
import { failure } from "./pdf-failure.ts";
import { dict, name, type PdfRef, PdfString } from "./pdf-object.ts";
import { deflate } from "./stream-data.ts";
import { latin } from "./text-string.ts";

/** One line of text set in a font. */
export interface SetLine {
  /** Two bytes a glyph, as hexadecimal digits, ready to be shown by the embedded subset. */
  readonly hex: string;
  /** Length of the line for a font size of 1. */
  readonly width: number;
}

const opened = new WeakMap<Uint8Array, Font>();

/** The font in a file; the same file is read once, however many sheets are issued. */
const openedFont = (bytes: Uint8Array): Font => {
  let font = opened.get(bytes);
  if (font === undefined) {
    const made = create(bytes);
    if ("fonts" in made) throw new Error("a collection of fonts");
    font = made;
    opened.set(bytes, font);
  }
  return font;
};

/** A subset of a font, ready to be written. */
interface Program {
  readonly outlines: "cff" | "truetype";
  readonly length: number;
  readonly packed: Uint8Array;
}

/** Subsets of a font file that are kept: issues of one job, one after the other, mostly use the same signs. */
const KEPT = 8;
const programs = new WeakMap<Uint8Array, Map<string, Program>>();

/** The subset that holds these glyphs in this order, made and packed once for as long as it is among the last in use. */
const programOf = (bytes: Uint8Array, glyphs: string, encode: () => Uint8Array): Program => {
  let kept = programs.get(bytes);
  if (kept === undefined) {
    kept = new Map();
    programs.set(bytes, kept);
  }
  let made = kept.get(glyphs);
  if (made === undefined) {
    const program = encode();
    // A TrueType program starts with a table directory; the subset of a CFF font is the bare CFF table.
    const outlines = program[0] === 1 && program[1] === 0 && program[2] !== 0 ? "cff" : "truetype";
    made = { outlines, length: program.length, packed: deflate(program) };
  }
  kept.delete(glyphs);
  kept.set(glyphs, made);
  for (const oldest of kept.keys()) if (kept.size > KEPT) kept.delete(oldest);
  return made;
};

/** Signs that the trade writes with either of two characters, and the one that fonts have: the diameter sign is set as a stroked O. */
const SAME_SIGN: ReadonlyMap<number, number> = new Map([[0x2300, 0xd8]]);

interface Used {
  readonly glyph: Glyph;
  readonly text: string;
}

/** One font face, of which only the glyphs that were asked for are embedded (ISO 32000-2, 9.7, 9.9). */
export class EmbeddedFont {
  private readonly font: Font;
  private readonly subset: Subset;
  private readonly used = new Map<number, Used>();
  private readonly signs = new Map<string, SetLine>();
  /** Lines set so far: each is asked for twice, to be measured and to be written. */
  private readonly lines = new Map<string, SetLine>();
  private reserved: PdfRef | undefined;
  /** Highest and lowest that any glyph reaches, for a font size of 1. */
  readonly reach: { readonly top: number; readonly bottom: number };

  /** `bytes` is a TrueType, OpenType or WOFF file. `pdf.font-unreadable` when it is not. */
  constructor(
    private readonly face: FontFace,
    private readonly bytes: Uint8Array,
  ) {
    try {
      this.font = openedFont(bytes);
      this.subset = this.font.createSubset();
      const { bbox, unitsPerEm } = this.font;
      this.reach = { top: bbox.maxY / unitsPerEm, bottom: bbox.minY / unitsPerEm };
    } catch {
      throw failure("pdf.font-unreadable", "", { face });
    }
  }

  /** Sets a line. A character that the font lacks is the problem `pdf.missing-glyph`. */
  line(text: string): SetLine {
    let line = this.lines.get(text);
    if (line === undefined) {
      line = this.set(text);
      this.lines.set(text, line);
    }
    return line;
  }

  private set(text: string): SetLine {
    let hex = "";
    let width = 0;
    for (const character of text) {
      let sign = this.signs.get(character);
      if (sign === undefined) {
        sign = this.sign(character, text);
        this.signs.set(character, sign);
      }
      hex += sign.hex;
      width += sign.width;
    }
    return { hex, width };
  }

  /** One character of a text, as it is shown by the subset. */
  private sign(character: string, text: string): SetLine {
    const code = SAME_SIGN.get(character.codePointAt(0) as number) ?? (character.codePointAt(0) as number);
    const glyph = this.font.hasGlyphForCodePoint(code) ? this.font.glyphForCodePoint(code) : null;
    if (glyph === null || glyph.id === 0) {
      const hexCode = code.toString(16).toUpperCase().padStart(4, "0");
      throw failure("pdf.missing-glyph", text, { text, character, code: `U+${hexCode}`, face: this.face });
    }
    const id = this.subset.includeGlyph(glyph);
    if (!this.used.has(id)) this.used.set(id, { glyph, text: String.fromCodePoint(code) });
    return { hex: id.toString(16).padStart(4, "0"), width: glyph.advanceWidth / this.font.unitsPerEm };
  }

  /** The font's object, to be written by `write` once all text is set. */
  ref(increment: Increment): PdfRef {
    this.reserved ??= increment.allocate();
    return this.reserved;
  }

  /** Writes the font with the glyphs used so far, if anything referred to it. */
  write(increment: Increment): void {
    if (this.reserved === undefined) return;
    const { font, subset, used } = this;
    const scale = 1000 / font.unitsPerEm;
    const round = (value: number): number => Math.round(value * scale);
    const glyphs = [...used.values()].map(({ glyph }) => glyph.id).join(" ");
    const { outlines, length, packed } = programOf(this.bytes, glyphs, () => subset.encode());
    const file = increment.addPacked(
      outlines === "cff" ? dict({ Subtype: name("CIDFontType0C") }) : dict({ Length1: length }),
      packed,
    );
    const base = `${tagOf([...used.values()].map((u) => u.text).join(""))}+${font.postscriptName ?? this.face}`;
    const descriptor = increment.add(
      dict({
        Type: name("FontDescriptor"),
        FontName: name(base),
        Flags: 32,
        FontBBox: [font.bbox.minX, font.bbox.minY, font.bbox.maxX, font.bbox.maxY].map(round),
        ItalicAngle: font.italicAngle,
        Ascent: round(font.ascent),
        Descent: round(font.descent),
        CapHeight: round(font.capHeight),
        StemV: this.face === "bold" ? 140 : 80,
        [outlines === "cff" ? "FontFile3" : "FontFile2"]: file,
      }),
    );
    const ids = [...used.keys()].sort((a, b) => a - b);
    const cid = increment.add(
      dict({
        Type: name("Font"),
        Subtype: name(outlines === "cff" ? "CIDFontType0" : "CIDFontType2"),
        BaseFont: name(base),
        CIDSystemInfo: dict({ Registry: ascii("Adobe"), Ordering: ascii("Identity"), Supplement: 0 }),
        FontDescriptor: descriptor,
        DW: 1000,
        W: ids.flatMap((id) => [id, [round((used.get(id) as Used).glyph.advanceWidth)]]),
        CIDToGIDMap: outlines === "cff" ? undefined : name("Identity"),
      }),
    );
    const toUnicode = increment.addStream(
      dict({}),
      latin(unicodeMap(ids.map((id) => [id, (used.get(id) as Used).text]))),
    );
    increment.put(
      this.reserved,
      dict({
        Type: name("Font"),
        Subtype: name("Type0"),
        BaseFont: name(base),
        Encoding: name("Identity-H"),
        DescendantFonts: [cid],
        ToUnicode: toUnicode,
      }),
    );
  }
}

const ascii = (text: string): PdfString => new PdfString(latin(text));

/** Six capital letters that tell subsets of one font apart (ISO 32000-2, 9.9.2); the same glyphs give the same tag. */
const tagOf = (text: string): string => {
  let hash = 2166136261;
  for (const character of text) hash = Math.imul(hash ^ (character.codePointAt(0) as number), 16777619) >>> 0;
  let tag = "";
  for (let i = 0; i < 6; i++, hash = Math.floor(hash / 26)) tag += String.fromCharCode(65 + (hash % 26));
  return tag;
};

/** A character map from glyph numbers to text, so that what is shown can be searched and copied (ISO 32000-2, 9.10.3). */
const unicodeMap = (pairs: readonly (readonly [id: number, text: string])[]): string => {
  const four = (n: number): string => n.toString(16).padStart(4, "0");
  const lines = pairs.map(
    ([id, text]) => `<${four(id)}> <${[...Array(text.length).keys()].map((i) => four(text.charCodeAt(i))).join("")}>`,
  );
  const blocks: string[] = [];
  // A block holds at most 100 entries.
  for (let at = 0; at < lines.length; at += 100) {
    const some = lines.slice(at, at + 100);
    blocks.push(`${some.length} beginbfchar\n${some.join("\n")}\nendbfchar`);
  }
  return [
    "/CIDInit /ProcSet findresource begin 12 dict begin begincmap",
    "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
    "/CMapName /Adobe-Identity-UCS def /CMapType 2 def",
    "1 begincodespacerange <0000> <ffff> endcodespacerange",
    ...blocks,
    "endcmap CMapName currentdict /CMap defineresource pop end end",
  ].join("\n");
};
