import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pdfMessages } from "../../../src/pdf/messages.ts";
import { appendUpdate } from "../../../src/pdf/write/append-update.ts";
import { inspectPdf } from "../../../src/pdf/write/inspect-pdf.ts";
import { readAttachment } from "../../../src/pdf/write/read-attachment.ts";
import { drawing, issue, job, request } from "./fixtures.ts";

const bytes = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "latin1"));

/** A file from object bodies, numbered from 1, with a right index; object 1 is the root. */
const fileOf = (bodies: readonly string[], trailer = ""): Uint8Array => {
  let text = "%PDF-1.7\n";
  const offsets = bodies.map((body, i) => {
    const at = text.length;
    text += `${i + 1} 0 obj\n${body}\nendobj\n`;
    return at;
  });
  const start = text.length;
  text += `xref\n0 ${bodies.length + 1}\n0000000000 65535 f \n`;
  for (const offset of offsets) text += `${String(offset).padStart(10, "0")} 00000 n \n`;
  return bytes(`${text}trailer\n<</Root 1 0 R /Size ${bodies.length + 1} ${trailer}>>\nstartxref\n${start}\n%%EOF\n`);
};

const root = "<</Type /Catalog /Pages 2 0 R>>";
const tree = "<</Type /Pages /Kids [3 0 R] /Count 1>>";
const page = "<</Type /Page /Parent 2 0 R /MediaBox [0 0 400 300]>>";

/** Every way in, none of which may hang or throw: a result, or a problem that has words. */
const answers = (file: Uint8Array): string[] =>
  [
    appendUpdate(file, request({ attachment: job, removeNames: () => true })),
    appendUpdate(file, request({ flatten: true })),
    inspectPdf(file),
    readAttachment(file, "job.json"),
  ].map((result) => {
    if (result.ok) return "ok";
    for (const p of result.problems) expect(pdfMessages[p.code]?.(p.params), p.code).toMatch(/\w/);
    return result.problems[0]!.code;
  });

describe("files that lead in circles", () => {
  it("a plain small file is fine", () => {
    expect(answers(fileOf([root, tree, page]))).toEqual(["ok", "ok", "ok", "ok"]);
  });
  it("a page tree that holds itself", () => {
    expect(answers(fileOf([root, "<</Type /Pages /Kids [2 0 R] /Count 1>>"])).slice(0, 3)).toEqual(
      Array(3).fill("pdf.damaged"),
    );
  });
  it("a page tree that doubles at every level", () => {
    const levels = Array.from({ length: 60 }, (_, i) => `<</Type /Pages /Kids [${i + 3} 0 R ${i + 3} 0 R] /Count 2>>`);
    expect(answers(fileOf([root, ...levels, "null"])).slice(0, 3)).toEqual(Array(3).fill("pdf.damaged"));
  });
  it("references to each other, and to themselves", () => {
    expect(answers(fileOf(["<</Pages 2 0 R>>", "3 0 R", "2 0 R"]))[0]).toBe("pdf.damaged");
    expect(answers(fileOf(["1 0 R"]))[0]).toBe("pdf.damaged");
  });
  it("sections of the index that point at each other", () => {
    const file = Buffer.from(fileOf([root, tree, page])).toString("latin1");
    const start = /startxref\n(\d+)/.exec(file)![1]!;
    expect(answers(fileOf([root, tree, page], `/Prev ${start}`))[0]).toBe("ok");
  });
  it("a name tree that holds itself, or is endless", () => {
    const named = (names: string): Uint8Array =>
      fileOf([`<</Type /Catalog /Pages 2 0 R /Names <</EmbeddedFiles 4 0 R>>>>`, tree, page, names]);
    expect(answers(named("<</Kids [4 0 R 4 0 R]>>"))).toEqual(["pdf.damaged", "ok", "ok", "pdf.damaged"]);
  });
  it("an object stream inside itself, and a stream whose length is itself", () => {
    const own = "<</Length 3 0 R>> stream\nabc\nendstream";
    expect(answers(fileOf([root, tree, own])).every((a) => a === "pdf.damaged" || a === "ok")).toBe(true);
  });
  it("form fields that hold themselves", () => {
    const form = "<</Type /Catalog /Pages 2 0 R /AcroForm <</Fields [4 0 R]>>>>";
    expect(answers(fileOf([form, tree, page, "<</Kids [4 0 R 4 0 R]>>"]))[0]).toBe("ok");
  });
});

describe("files that are too deep or too large", () => {
  it("arrays and dictionaries in each other", () => {
    for (const open of ["[", "<</A ", "[<</A "]) {
      const deep = open.repeat(100_000);
      expect(answers(fileOf([root, tree, `<</Type /Page /Annots ${deep}`]))[0]).toBe("pdf.damaged");
    }
  });
  it("a page tree deeper than any real one", () => {
    const levels = Array.from({ length: 3000 }, (_, i) => `<</Type /Pages /Kids [${i + 3} 0 R] /Count 1>>`);
    expect(answers(fileOf([root, ...levels, page]))[0]).toBe("pdf.damaged");
  });
  it("object numbers and sizes beyond belief", () => {
    expect(answers(fileOf([root, tree, page], "/Size 99999999999"))[0]).toBe("ok");
    const text = Buffer.from(fileOf([root, tree, page])).toString("latin1");
    expect(answers(bytes(text.replace("xref\n0 4", "xref\n99999999 4")))[0]).toBe("pdf.damaged");
    expect(answers(bytes(text.replace("xref\n0 4", "xref\n0 99999999999")))[0]).toBe("pdf.damaged");
  });
  it("a scan for objects among thousands that never close", () => {
    const file = bytes(`%PDF-1.7\n${"1 0 obj (".repeat(20_000)}`);
    expect(answers(file)[2]).toBe("pdf.damaged");
  });
});

describe("oddities that real files have", () => {
  it("bytes before the header, which the offsets may or may not count", async () => {
    const plain = await drawing();
    const junk = bytes("junk from a mail program\r\n");
    const behind = new Uint8Array([...junk, ...plain]);
    const issued = issue(behind, { attachment: job });
    expect(readAttachment(issued, "job.json")).toEqual({ ok: true, value: job.bytes });
    expect(answers(issued)[0]).toBe("ok");
  });
  it("an index numbered from 1 although it begins with the free list", () => {
    const text = Buffer.from(fileOf([root, tree, page])).toString("latin1");
    expect(answers(bytes(text.replace("xref\n0 4", "xref\n1 4")))[0]).toBe("ok");
  });
  it("a hybrid: what the table calls free stands in the stream", async () => {
    // Object 3, the page, is only known to the stream that /XRefStm names (ISO 32000-2, 7.5.8.4).
    const head = "%PDF-1.5\n";
    const objects = [root, tree, page].map((body, i) => `${i + 1} 0 obj\n${body}\nendobj\n`);
    const at = objects.map((_, i) => head.length + objects.slice(0, i).join("").length);
    const body = head + objects.join("");
    const row = `01${at[2]!.toString(16).padStart(4, "0")}00`;
    const stream = `4 0 obj\n<</Type /XRef /Size 5 /W [1 2 1] /Index [3 1] /Filter /ASCIIHexDecode /Length ${row.length + 1}>>\nstream\n${row}>\nendstream\nendobj\n`;
    const table = [
      "0000000000 65535 f ",
      `${String(at[0]).padStart(10, "0")} 00000 n `,
      `${String(at[1]).padStart(10, "0")} 00000 n `,
      "0000000000 00000 f ",
    ];
    const text = `${body}${stream}xref\n0 4\n${table.join("\n")}\ntrailer\n<</Root 1 0 R /Size 5 /XRefStm ${body.length}>>\nstartxref\n${body.length + stream.length}\n%%EOF\n`;
    const issued = issue(bytes(text), { attachment: job });
    expect(Buffer.from(issued).toString("latin1").slice(text.length)).toContain("\nxref\n");
    expect(inspectPdf(issued)).toMatchObject({ ok: true, value: { pageCount: 1 } });
    expect(readAttachment(issued, "job.json")).toEqual({ ok: true, value: job.bytes });
  });
  it("dictionaries that are direct, missing, or of the wrong kind", () => {
    const odd = (extra: string, pageExtra = ""): string[] =>
      answers(
        fileOf([
          `<</Type /Catalog /Pages 2 0 R ${extra}>>`,
          tree,
          `<</Type /Page /MediaBox [0 0 400 300] ${pageExtra}>>`,
        ]),
      );
    for (const value of ["null", "7", "(text)", "[]", "<<>>", "[null]", "/Name", "99 0 R"]) {
      for (const key of ["OCProperties", "Names", "AF", "AcroForm", "Perms", "Version"])
        expect(odd(`/${key} ${value}`)[2], key).toBe("ok");
      for (const key of ["Annots", "Contents", "Resources", "Rotate", "CropBox", "UserUnit"])
        expect(odd("", `/${key} ${value}`)[0], key).toBe("ok");
    }
  });
});

describe("files changed at random", () => {
  it("never hang, and never throw", { timeout: 120_000 }, async () => {
    const files = [
      await drawing({ pages: 2 }),
      await drawing({ pages: 2, objectStreams: true }),
      issue(await drawing({ objectStreams: true }), { attachment: job }),
    ];
    // Without bias, or nearly every change would hit the first bytes.
    const place = fc.noBias(fc.integer({ min: 8, max: 1_000_000 }));
    const change = fc.tuple(place, fc.constantFrom(..." \n/<>[]()0159xR%\0\xff"));
    fc.assert(
      fc.property(fc.constantFrom(...files), fc.array(change, { minLength: 1, maxLength: 12 }), (file, changes) => {
        const copy = file.slice();
        for (const [where, what] of changes) copy[where % copy.length] = what.charCodeAt(0);
        answers(copy);
      }),
      { numRuns: 150 },
    );
  });
});
