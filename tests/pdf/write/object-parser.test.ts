import { PDFString as LibString } from "@cantoo/pdf-lib";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ByteWriter } from "../../../src/pdf/write/byte-writer.ts";
import { ObjectParser } from "../../../src/pdf/write/object-parser.ts";
import { PdfName, type PdfObject, PdfRef, PdfStream, PdfString } from "../../../src/pdf/write/pdf-object.ts";
import { formatNumber, writeObject } from "../../../src/pdf/write/serialize.ts";
import { textOf, textString } from "../../../src/pdf/write/text-string.ts";
import { evenly } from "../../geometry/evenly.ts";

const bytes = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "latin1"));
const read = (text: string): PdfObject => new ObjectParser(bytes(text)).object();
const string = (o: PdfObject): string => Buffer.from((o as PdfString).bytes).toString("latin1");
const written = (o: PdfObject): string => {
  const out = new ByteWriter();
  writeObject(out, o);
  return Buffer.from(out.finish()).toString("latin1");
};

describe("objects are read as ISO 32000-2, 7.3 gives its examples", () => {
  it("numbers (7.3.3)", () => {
    const given = "123 43445 +17 -98 0 34.5 -3.62 +123.6 4. -.002 0.0 009.87";
    expect(read(`[${given}]`)).toEqual([123, 43445, 17, -98, 0, 34.5, -3.62, 123.6, 4, -0.002, 0, 9.87]);
  });
  it("literal strings (7.3.4.2)", () => {
    expect(
      string(read("(Strings can contain balanced parentheses ()\nand special characters (*!&}^%and so on).)")),
    ).toBe("Strings can contain balanced parentheses ()\nand special characters (*!&}^%and so on).");
    expect(string(read("(These \\\r\ntwo strings \\\nare the same.)"))).toBe("These two strings are the same.");
    expect(string(read("(line\r\nend)"))).toBe("line\nend");
    expect(string(read("(\\245\\307 \\0053 \\053 \\53 \\n\\(\\q)"))).toBe("\xa5\xc7 \x053 + + \n(q");
  });
  it("hexadecimal strings (7.3.4.3)", () => {
    expect(string(read("<4E6F7620 73686D6F7A206B6120706F702E>"))).toBe("Nov shmoz ka pop.");
    expect([...(read("<901FA>") as PdfString).bytes]).toEqual([0x90, 0x1f, 0xa0]);
  });
  it("names (7.3.5)", () => {
    const names = read(
      "[/Name1 /A;Name_With-Various***Characters? /1.2 /$$ /@pattern /.notdef /Lime#20Green /paired#28#29parentheses /A#42 /]",
    );
    expect((names as PdfName[]).map((n) => n.value)).toEqual([
      "Name1",
      "A;Name_With-Various***Characters?",
      "1.2",
      "$$",
      "@pattern",
      ".notdef",
      "Lime Green",
      "paired()parentheses",
      "AB",
      "",
    ]);
  });
  it("arrays with references beside plain numbers, and comments between", () => {
    expect(read("[1 2 3 0 R 4 % 5 0 R\n 6 0 R/X 7]")).toEqual([
      1,
      2,
      new PdfRef(3, 0),
      4,
      new PdfRef(6, 0),
      new PdfName("X"),
      7,
    ]);
  });
});

describe("what is written is read again as the same", () => {
  const plain = fc.oneof(
    fc.constantFrom(null, true, false),
    fc.integer(),
    fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((n) => Number(n.toFixed(6)) + 0),
    fc.string({ unit: "binary-ascii" }).map((s) => new PdfName(s.replace(/\0/g, ""))),
    fc.uint8Array({ maxLength: 40 }).map((b) => new PdfString(b)),
    fc.tuple(fc.nat(), fc.nat(65535)).map(([num, gen]) => new PdfRef(num, gen)),
  );
  const { any } = fc.letrec<{ any: PdfObject }>((tie) => ({
    any: fc.oneof(
      { depthSize: "small" },
      plain,
      fc.array(tie("any"), { maxLength: 5 }),
      fc
        .array(fc.tuple(fc.string({ minLength: 1, maxLength: 8 }), tie("any")), { maxLength: 5 })
        .map((e) => new Map(e)),
    ),
  }));
  it("for any object", () => {
    fc.assert(
      fc.property(any, (object) => {
        expect(read(written(object))).toEqual(object);
      }),
    );
  });
  it("for numbers small and large, never with an exponent", () => {
    for (const [value, text] of [
      [1e-12, "0"],
      [-1e-12, "0"],
      [1e20, "100000000000000000000"],
      [0.1 + 0.2, "0.3"],
      [-2.5, "-2.5"],
    ] as const)
      expect(formatNumber(value)).toBe(text);
  });
  it("for numbers rounded to so many decimals, without needless noughts", () => {
    const about = fc.integer({ min: -7, max: 7 }).chain((power) => evenly(-(10 ** power), 10 ** power));
    const few = fc.integer({ min: -(10 ** 9), max: 10 ** 9 }).map((n) => n / 1e4);
    fc.assert(
      fc.property(fc.oneof(about, few), fc.constantFrom(2, 4, 6, 10), (value, places) => {
        const digits = value.toFixed(places).replace(/\.?0+$/, "");
        expect(formatNumber(value, places)).toBe(digits === "-0" ? "0" : digits);
      }),
      { numRuns: 2000 },
    );
  });
  it("for a stream, whose length is that of its data", () => {
    const data = bytes("BT ET");
    expect(written(new PdfStream(new Map([["Type", new PdfName("XObject")]]), data))).toBe(
      "<</Type /XObject/Length 5>>\nstream\nBT ET\nendstream",
    );
    const mistaken = new Map<string, PdfObject>([
      ["Length", new PdfRef(7, 0)],
      ["N", 1],
    ]);
    expect(written(new PdfStream(mistaken, data))).toBe("<</Length 5/N 1>>\nstream\nBT ET\nendstream");
  });
});

describe("text strings", () => {
  it("come back as they went", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        expect(textOf(textString(text))).toBe(text);
      }),
    );
    for (const text of ["þÿab", "ÿþab", "ï»¿ab", "\ufeffab", "12′-6⅜″", "Größe"])
      expect(textOf(textString(text))).toBe(text);
  });
  it("in PDFDocEncoding are read as pdf-lib reads them", () => {
    const all = Array.from({ length: 256 }, (_, i) => i).filter(
      (i) => i > 31 && ![0x7f, 0x9f, 0xad].includes(i) && !"()\\".includes(String.fromCharCode(i)),
    );
    for (const code of all) {
      const theirs = LibString.of(String.fromCharCode(code)).decodeText();
      expect(textOf(new PdfString(Uint8Array.of(code))), `0x${code.toString(16)}`).toBe(theirs);
    }
  });
});
