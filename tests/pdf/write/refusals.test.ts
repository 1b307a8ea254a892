import { PDFDocument, PDFHexString, PDFName, PDFString } from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import { pdfMessages } from "../../../src/pdf/messages.ts";
import { type AppendRequest, appendUpdate } from "../../../src/pdf/write/append-update.ts";
import { inspectPdf } from "../../../src/pdf/write/inspect-pdf.ts";
import { readAttachment } from "../../../src/pdf/write/read-attachment.ts";
import { drawing, issue, job, qpdf, report, request, tools } from "./fixtures.ts";

/** The code of the one problem, having seen that it has words without holes. */
const refusal = (original: Uint8Array, over: Partial<AppendRequest> = {}): string => {
  const result = appendUpdate(original, request(over));
  if (result.ok) return "accepted";
  expect(result.problems).toHaveLength(1);
  const [problem] = result.problems;
  const words = pdfMessages[problem!.code]?.(problem!.params);
  expect(words, problem!.code).toMatch(/\. .*\.$/);
  expect(words).not.toContain("undefined");
  return problem!.code;
};

const bytes = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "latin1"));
const text = (data: Uint8Array): string => Buffer.from(data).toString("latin1");

/** A drawing with a signature field, signed or not, and perhaps certified at a level. */
const signed = async (o: { value?: boolean; level?: number } = {}): Promise<Uint8Array> => {
  const doc = await PDFDocument.load(await drawing());
  const { context } = doc;
  const reference = context.obj({
    Type: "SigRef",
    TransformMethod: "DocMDP",
    TransformParams: o.level === undefined ? {} : { P: o.level },
  });
  const signature = context.register(
    context.obj({
      Type: "Sig",
      Filter: "Adobe.PPKLite",
      ByteRange: [0, 1, 2, 3],
      Contents: PDFHexString.of("00"),
      Reference: [reference],
    }),
  );
  const field = context.obj({ FT: "Sig", T: PDFString.of("Seal") });
  if (o.value !== false) field.set(PDFName.of("V"), signature);
  const group = context.register(context.obj({ T: PDFString.of("group"), Kids: [context.register(field)] }));
  doc.catalog.set(PDFName.of("AcroForm"), context.obj({ Fields: [group], SigFlags: 3 }));
  if ("level" in o) doc.catalog.set(PDFName.of("Perms"), context.obj({ DocMDP: signature }));
  return doc.save({ useObjectStreams: false });
};

describe("what is no sound PDF is refused", () => {
  it("nothing, or something else", () => {
    expect(refusal(new Uint8Array(0))).toBe("pdf.not-a-pdf");
    expect(refusal(bytes("PK\u0003\u0004 a drawing in another format"))).toBe("pdf.not-a-pdf");
  });

  it("a file cut short anywhere", async () => {
    const original = await drawing();
    for (const part of [0.2, 0.5, 0.9, 0.98])
      expect(refusal(original.slice(0, original.length * part))).toBe("pdf.damaged");
  });

  it("an index that leads astray", async () => {
    const original = text(await drawing());
    expect(refusal(bytes(original.replace(/startxref\n\d+/, "startxref\n99999999")))).toBe("pdf.damaged");
    expect(refusal(bytes(original.replace(/startxref\n\d+/, "startxref\n9")))).toBe("pdf.damaged");
    expect(refusal(bytes(original.replace(/\n(\d{10}) 00000 n/g, "\n0000000012 00000 n")))).toBe("pdf.damaged");
  });

  it("an index that leads to another object than it says", async () => {
    const original = text(await drawing({ pages: 2 }));
    const [, second, third] = [...original.matchAll(/\n(\d{10}) 00000 n/g)].map((m) => m[1]!);
    const swapped = original
      .replace(`\n${second} `, "\n@ ")
      .replace(`\n${third} `, `\n${second} `)
      .replace("\n@ ", `\n${third} `);
    expect(swapped).not.toBe(original);
    expect(refusal(bytes(swapped), { removeNames: () => true })).toBe("pdf.damaged");
  });

  it("no pages", async () => {
    const original = text(await drawing()).replace(/\/Kids \[[^\]]*\]/, (m) => "/Kids []".padEnd(m.length));
    expect(refusal(bytes(original))).toBe("pdf.no-pages");
  });

  it("a page that is not there", async () => {
    expect(
      refusal(await drawing({ pages: 2 }), { pages: [{ page: 3, annotations: request().pages[0]!.annotations }] }),
    ).toBe("pdf.no-such-page");
  });

  it("an unreadable font", async () => {
    const none = new Uint8Array(10);
    const annotations = request().pages[0]!.annotations.map((a) => ({
      ...a,
      picture: [
        {
          type: "text",
          text: "a",
          at: [1, 1],
          size: 9,
          angle: 0,
          align: "start",
          face: "bold",
          fill: { r: 0, g: 0, b: 0 },
        },
      ],
    })) as unknown as AppendRequest["pages"][number]["annotations"];
    const fonts = { regular: none, bold: none, condensed: none };
    expect(refusal(await drawing(), { fonts, pages: [{ page: 1, annotations }] })).toBe("pdf.font-unreadable");
  });
});

describe("a damaged index is worked around for reading only", () => {
  it("pages and attachment are found by looking through the file", async () => {
    for (const objectStreams of [false, true]) {
      const issued = issue(await drawing({ pages: 2, objectStreams }), { attachment: job, freshPages: await report() });
      const broken = bytes(text(issued).replace(/startxref\n\d+\n%%EOF\n$/, ""));
      expect(refusal(broken)).toBe("pdf.damaged");
      const facts = inspectPdf(broken);
      expect(facts.ok && facts.value).toMatchObject({ pageCount: 4, damaged: true });
      expect(readAttachment(broken, "job.json")).toEqual({ ok: true, value: job.bytes });
    }
  });

  it("a file beyond help stays refused", () => {
    expect(inspectPdf(bytes("%PDF-1.7\nnothing else")).ok).toBe(false);
    expect(readAttachment(bytes("%PDF-1.7\n1 0 obj null endobj"), "job.json").ok).toBe(false);
  });
});

describe("signatures", () => {
  it("an unsigned field does not count", async () => {
    const original = await signed({ value: false });
    expect(inspectPdf(original)).toMatchObject({ ok: true, value: { signed: false, certified: undefined } });
    expect(refusal(original, { freshPages: await report() })).toBe("accepted");
  });

  it("a signed drawing takes annotations, but no pages and no drawing into pages", async () => {
    const original = await signed();
    expect(inspectPdf(original)).toMatchObject({ ok: true, value: { signed: true, certified: undefined } });
    expect(refusal(original, { attachment: job })).toBe("accepted");
    expect(refusal(original, { freshPages: await report() })).toBe("pdf.signed-pages");
    expect(refusal(original, { flatten: true })).toBe("pdf.signed-flatten");
  });

  it("a certified drawing takes marks only when its author left them open (ISO 32000-2, table 257)", async () => {
    expect(refusal(await signed({ level: 1 }))).toBe("pdf.certified");
    expect(refusal(await signed({ level: 2 }))).toBe("pdf.certified");
    expect(refusal(await signed({ level: undefined as never }))).toBe("pdf.certified");
    expect(refusal(await signed({ level: 3 }))).toBe("accepted");
    expect(refusal(await signed({ level: 3 }), { freshPages: await report() })).toBe("pdf.signed-pages");
  });
});

describe.skipIf(!tools.qpdf)("protection (skipped where qpdf is not installed)", () => {
  const lock = async (...options: string[]): Promise<Uint8Array> =>
    qpdf(await drawing(), "--allow-weak-crypto", "--encrypt", ...options, "--");

  it.each(["40", "128", "256"])("of %s bits asks for a password, and knows a wrong one", async (bits) => {
    const original = await lock("user", "owner", bits);
    expect(refusal(original)).toBe("pdf.password-needed");
    expect(refusal(original, { password: "nonsense" })).toBe("pdf.password-wrong");
    expect(refusal(original, { password: "user" })).toBe("accepted");
    expect(refusal(original, { password: "owner" })).toBe("accepted");
    expect(inspectPdf(original).ok).toBe(false);
    expect(inspectPdf(original, "user")).toMatchObject({ ok: true, value: { encrypted: true } });
  });

  it("that forbids marks is honoured, unless the owner asks", async () => {
    const original = await lock("", "owner", "256", "--annotate=n");
    expect(refusal(original)).toBe("pdf.annotating-forbidden");
    expect(refusal(original, { password: "owner" })).toBe("accepted");
    expect(refusal(await lock("", "owner", "40", "--annotate=n"))).toBe("pdf.annotating-forbidden");
  });

  it("that forbids pages or changes is honoured, unless the owner asks", async () => {
    const freshPages = await report();
    // Annotating allowed, assembling and other changes not.
    const original = await lock("", "owner", "128", "--modify=annotate", "--assemble=n", "--use-aes=y");
    expect(refusal(original)).toBe("accepted");
    expect(refusal(original, { freshPages })).toBe("pdf.assembling-forbidden");
    expect(refusal(original, { flatten: true })).toBe("pdf.flattening-forbidden");
    expect(refusal(original, { freshPages, flatten: true, password: "owner" })).toBe("accepted");
  });

  it("of a kind that is not PDF's own is named", async () => {
    const original = text(await lock("", "owner", "128", "--use-aes=n")).replace(
      "/Filter /Standard",
      "/Filter /Sealants",
    );
    expect(refusal(bytes(original))).toBe("pdf.encryption-unknown");
  });
});
