import {
  PDFArray,
  PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  PDFNumber,
  type PDFRef,
  PDFString,
} from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import type { Picture } from "../../../src/geometry/picture.ts";
import { pdfMessages } from "../../../src/pdf/messages.ts";
import { appendUpdate } from "../../../src/pdf/write/append-update.ts";
import { inspectPdf } from "../../../src/pdf/write/inspect-pdf.ts";
import { readAttachment } from "../../../src/pdf/write/read-attachment.ts";
import { radians } from "../../../src/units/quantity.ts";
import { drawing, issue, job, layers, mark, qpdfComplaints, report, request, tools, tradeText } from "./fixtures.ts";

/** The annotation dictionaries of a page as pdf-lib reads them. */
const annotations = (doc: PDFDocument, page: number): PDFDict[] => {
  const list = doc.getPage(page).node.Annots();
  return list ? list.asArray().map((_, i) => list.lookup(i, PDFDict)) : [];
};
const text = (dict: PDFDict, key: string): string => {
  const value = dict.lookup(PDFName.of(key));
  return value instanceof PDFString || value instanceof PDFHexString ? value.decodeText() : "";
};
const names = (doc: PDFDocument, page: number): string[] => annotations(doc, page).map((a) => text(a, "NM"));

describe("an issued sheet", () => {
  it("begins with the drawing's own bytes", async () => {
    const original = await drawing();
    const before = original.slice();
    const issued = issue(original, { attachment: job, freshPages: await report() });
    expect(original).toEqual(before);
    expect(issued.subarray(0, original.length)).toEqual(before);
  });

  it("is the same bytes when issued twice from the same", async () => {
    const original = await drawing();
    const fresh = await report();
    const once = issue(original, { attachment: job, freshPages: fresh });
    expect(issue(original, { attachment: job, freshPages: fresh })).toEqual(once);
  });

  it("carries every entry of a mark", async () => {
    const doc = await PDFDocument.load(issue(await drawing()));
    const [made] = annotations(doc, 0) as [PDFDict];
    expect(made.lookup(PDFName.of("Subtype"))).toBe(PDFName.of("Square"));
    expect(text(made, "Contents")).toBe("Run R-14 is 7/8″ under the deck");
    expect(text(made, "T")).toBe("Reviewer");
    expect(text(made, "Subj")).toBe("too close");
    expect(text(made, "M")).toBe("D:20260304050607Z");
    expect(made.lookup(PDFName.of("F"), PDFNumber).asNumber()).toBe(4);
    expect(made.get(PDFName.of("P"))).toBe(doc.getPage(0).ref);
    const form = made.lookup(PDFName.of("AP"), PDFDict).lookup(PDFName.of("N")) as unknown as { dict: PDFDict };
    expect(String(form.dict.lookup(PDFName.of("BBox")))).toBe(String(made.lookup(PDFName.of("Rect"))));
    expect(text(made.lookup(PDFName.of("OC"), PDFDict), "Name")).toBe("Clearance findings");
  });

  it("gives lines and polygons their corners, and text its default look", async () => {
    const vertices = [
      [10, 20],
      [30.5, 40],
      [50, 60],
    ] as const;
    const subtypes = ["PolyLine", "Polygon", "Line", "FreeText", "Stamp"] as const;
    const marks = subtypes.map((subtype) => mark({ subtype, name: subtype, vertices }));
    const doc = await PDFDocument.load(issue(await drawing(), { pages: [{ page: 1, annotations: marks }] }));
    const [line, polygon, straight, free] = annotations(doc, 0) as [PDFDict, PDFDict, PDFDict, PDFDict];
    expect(String(line.lookup(PDFName.of("Vertices")))).toBe("[ 10 20 30.5 40 50 60 ]");
    expect(String(polygon.lookup(PDFName.of("Vertices")))).toBe("[ 10 20 30.5 40 50 60 ]");
    expect(String(straight.lookup(PDFName.of("L")))).toBe("[ 10 20 30.5 40 ]");
    expect(text(free, "DA")).toMatch(/rg \/\w+ \d+ Tf$/);
  });

  it("grows a mark's box to hold thick strokes and turned text", async () => {
    const picture = [
      {
        type: "path",
        steps: [
          ["M", 50, 50],
          ["L", 150, 50],
        ],
        stroke: { r: 0, g: 0, b: 0 },
        width: 8,
      },
      { ...tradeText(200, 100)[0], angle: radians(Math.PI / 2) },
    ] as unknown as Picture;
    const doc = await PDFDocument.load(
      issue(await drawing(), { pages: [{ page: 1, annotations: [mark({ rect: [100, 45, 101, 46], picture })] }] }),
    );
    const [x0, y0, x1, y1] = annotations(doc, 0)[0]!
      .lookup(PDFName.of("Rect"), PDFArray)
      .asArray()
      .map((n) => (n as PDFNumber).asNumber()) as [number, number, number, number];
    expect([x0, y0]).toEqual([46, 45]);
    expect(x1).toBeGreaterThan(200);
    expect(y1).toBeGreaterThan(200);
  });

  it("refuses a sign that the font lacks, and says which", async () => {
    const bad = mark({ picture: [{ ...tradeText(1, 1)[0]!, text: "deck 漢" } as never] });
    const result = appendUpdate(await drawing(), request({ pages: [{ page: 1, annotations: [bad] }] }));
    expect(result.ok).toBe(false);
    if (result.ok) return;
    expect(result.problems[0]?.code).toBe("pdf.missing-glyph");
    expect(pdfMessages["pdf.missing-glyph"]?.(result.problems[0]!.params)).toContain("漢");
  });

  it("leaves out fonts nobody uses", async () => {
    const original = await drawing();
    const without = issue(original).length - original.length;
    expect(without).toBeLessThan(3000);
  });
});

describe("the annotations a page already has", () => {
  const withNote = async (share: "direct" | "indirect" | "shared"): Promise<Uint8Array> => {
    const doc = await PDFDocument.load(await drawing({ pages: 2 }));
    const { context } = doc;
    const note = context.register(
      context.obj({
        Type: "Annot",
        Subtype: "Text",
        Rect: [1, 1, 20, 20],
        NM: PDFString.of("theirs"),
        Contents: PDFString.of("keep"),
      }),
    );
    const list = context.obj([note]);
    const held = share === "direct" ? list : context.register(list);
    doc.getPage(0).node.set(PDFName.of("Annots"), held);
    if (share === "shared") doc.getPage(1).node.set(PDFName.of("Annots"), held);
    return doc.save({ useObjectStreams: false });
  };

  it.each(["direct", "indirect", "shared"] as const)(
    "stay when their list is %s, and other pages get no marks",
    async (share) => {
      const doc = await PDFDocument.load(issue(await withNote(share)));
      expect(names(doc, 0)).toEqual(["theirs", "underside-1"]);
      expect(names(doc, 1)).toEqual(share === "shared" ? ["theirs"] : []);
    },
  );
});

describe("report pages", () => {
  it("stand behind the last page with turning, boxes and resources of their own, and are counted", async () => {
    const doc = await PDFDocument.load(await drawing({ pages: 2 }));
    // Attributes that every page of the drawing inherits must not reach the report.
    const root = doc.catalog.Pages();
    root.set(PDFName.of("Rotate"), PDFNumber.of(90));
    root.set(PDFName.of("CropBox"), doc.context.obj([10, 10, 200, 200]));
    const original = await doc.save({ useObjectStreams: false });
    const issued = issue(original, { freshPages: await report() });
    const facts = inspectPdf(issued);
    if (!facts.ok) throw new Error("refused");
    expect(facts.value.pages.map((p) => p.rotate)).toEqual([90, 90, 0, 0]);
    expect(facts.value.pages[0]?.cropBox).toEqual([10, 10, 200, 200]);
    expect(facts.value.pages[3]?.cropBox).toEqual([0, 0, 612, 792]);
    const read = await PDFDocument.load(issued);
    expect(read.catalog.Pages().lookup(PDFName.of("Count"), PDFNumber).asNumber()).toBe(4);
    expect(read.getPage(3).node.lookup(PDFName.of("Rotate"), PDFNumber).asNumber()).toBe(0);
    expect(read.getPage(3).node.get(PDFName.of("CropBox"))).toBeInstanceOf(PDFArray);
  });
});

describe("the job inside the sheet", () => {
  it("comes back byte for byte, also when empty or large", async () => {
    const original = await drawing();
    const large = Uint8Array.from({ length: 300_000 }, (_, i) => (i * i) & 255);
    for (const bytes of [job.bytes, new Uint8Array(0), large]) {
      const issued = issue(original, { attachment: { ...job, bytes } });
      const found = readAttachment(issued, "job.json");
      expect(found.ok && Buffer.compare(found.value!, bytes)).toBe(0);
      const read = (await PDFDocument.load(issued)).getAttachments();
      expect(read.map((a) => a.name)).toEqual(["job.json"]);
      expect(read[0]?.data.length).toBe(bytes.length);
    }
  });

  it("is not found where there is none", async () => {
    expect(readAttachment(await drawing(), "job.json")).toEqual({ ok: true, value: undefined });
    expect(readAttachment(issue(await drawing(), { attachment: job }), "other")).toEqual({
      ok: true,
      value: undefined,
    });
  });

  it("keeps the files that were there, and replaces only its own earlier one", async () => {
    const doc = await PDFDocument.load(await drawing());
    for (const name of ["zebra.txt", "alpha.txt"])
      await doc.attach(new TextEncoder().encode(name), name, { mimeType: "text/plain" });
    const first = issue(await doc.save({ useObjectStreams: false }), { attachment: job });
    const second = issue(first, {
      attachment: { ...job, bytes: new TextEncoder().encode("new") },
      removeNames: () => true,
    });
    const read = await PDFDocument.load(second);
    expect(
      read
        .getAttachments()
        .map((a) => a.name)
        .sort(),
    ).toEqual(["alpha.txt", "job.json", "zebra.txt"]);
    expect(readAttachment(second, "job.json")).toEqual({ ok: true, value: new TextEncoder().encode("new") });
    expect(readAttachment(second, "zebra.txt")).toEqual({ ok: true, value: new TextEncoder().encode("zebra.txt") });
    // Name trees are in the order of their keys' bytes (ISO 32000-2, 7.9.6), or viewers cannot find a name by halving.
    const tree = read.catalog.lookup(PDFName.of("Names"), PDFDict).lookup(PDFName.of("EmbeddedFiles"), PDFDict);
    const list = tree.lookup(PDFName.of("Names"), PDFArray);
    const keys = list.asArray().filter((_, i) => i % 2 === 0) as (PDFString | PDFHexString)[];
    const inHex = keys.map((key) => Buffer.from(key.asBytes()).toString("hex"));
    expect(inHex).toHaveLength(3);
    expect(inHex).toEqual([...inHex].sort());
    const associated = read.catalog.lookup(PDFName.of("AF"), PDFArray);
    expect(associated.size()).toBe(3);
  });

  it("finds its way through a name tree with branches", async () => {
    const doc = await PDFDocument.load(await drawing());
    const { context } = doc;
    const leaf = (from: string): PDFRef => {
      const data = context.register(context.stream(from, { Type: "EmbeddedFile", Params: {} }));
      const file = context.register(
        context.obj({ Type: "Filespec", F: PDFString.of(from), UF: PDFString.of(from), EF: { F: data } }),
      );
      return context.register(
        context.obj({ Names: [PDFString.of(from), file], Limits: [PDFString.of(from), PDFString.of(from)] }),
      );
    };
    const tree = context.obj({ Kids: [leaf("a.txt"), leaf("b.txt")] });
    doc.catalog.set(PDFName.of("Names"), context.obj({ EmbeddedFiles: tree }));
    const original = await doc.save({ useObjectStreams: false });
    expect(readAttachment(original, "b.txt")).toEqual({ ok: true, value: new TextEncoder().encode("b.txt") });
    const read = await PDFDocument.load(issue(original, { attachment: job }));
    expect(read.getAttachments().map((a) => a.name)).toEqual(["a.txt", "b.txt", "job.json"]);
  });
});

describe("layers", () => {
  const configOf = (doc: PDFDocument): PDFDict =>
    doc.catalog.lookup(PDFName.of("OCProperties"), PDFDict).lookup(PDFName.of("D"), PDFDict);
  const groupNames = (list: PDFArray): string[] =>
    list.asArray().flatMap((_, i) => {
      const o = list.lookup(i);
      return o instanceof PDFDict ? [text(o, "Name")] : [];
    });

  it("are added behind those the drawing has, which keep their state", async () => {
    const doc = await PDFDocument.load(await drawing());
    const { context } = doc;
    const theirs = context.register(context.obj({ Type: "OCG", Name: PDFString.of("Ceiling grid") }));
    const config = context.register(context.obj({ OFF: [theirs], Order: [theirs], BaseState: "ON" }));
    doc.catalog.set(
      PDFName.of("OCProperties"),
      context.obj({ OCGs: context.register(context.obj([theirs])), D: config }),
    );
    const two = [...layers, { id: "screen", name: "Working notes", printed: false }];
    const read = await PDFDocument.load(issue(await doc.save({ useObjectStreams: false }), { layers: two }));
    const properties = read.catalog.lookup(PDFName.of("OCProperties"), PDFDict);
    const all = ["Ceiling grid", "Clearance findings", "Working notes"];
    expect(groupNames(properties.lookup(PDFName.of("OCGs"), PDFArray))).toEqual(all);
    expect(groupNames(configOf(read).lookup(PDFName.of("Order"), PDFArray))).toEqual(all);
    expect(groupNames(configOf(read).lookup(PDFName.of("ON"), PDFArray))).toEqual(all.slice(1));
    expect(groupNames(configOf(read).lookup(PDFName.of("OFF"), PDFArray))).toEqual(["Ceiling grid"]);
    const events = configOf(read).lookup(PDFName.of("AS"), PDFArray).lookup(0, PDFDict);
    expect(groupNames(events.lookup(PDFName.of("OCGs"), PDFArray))).toEqual(["Working notes"]);
  });

  it("are used again when the sheet is issued again", async () => {
    const read = await PDFDocument.load(issue(issue(await drawing()), { removeNames: () => true }));
    expect(groupNames(configOf(read).lookup(PDFName.of("Order"), PDFArray))).toEqual(["Clearance findings"]);
  });
});

describe("issuing again", () => {
  it("replaces its own marks, on every page, and its report, and keeps what others added", async () => {
    const first = issue(await drawing({ pages: 2 }), {
      pages: [1, 2].map((page) => ({
        page,
        annotations: [mark({ name: `underside-${page}` }), mark({ name: "theirs" })],
      })),
      freshPages: await report("First"),
      attachment: job,
    });
    const second = issue(first, {
      pages: [{ page: 1, annotations: [mark({ name: "underside-9" })] }],
      removeNames: (nm) => nm.startsWith("underside-"),
      freshPages: await report("Second"),
      attachment: job,
    });
    expect(second.subarray(0, first.length)).toEqual(first);
    const doc = await PDFDocument.load(second);
    expect(names(doc, 0)).toEqual(["theirs", "underside-9"]);
    expect(names(doc, 1)).toEqual(["theirs"]);
    expect(doc.getPageCount()).toBe(4);
    expect(doc.catalog.Pages().lookup(PDFName.of("Count"), PDFNumber).asNumber()).toBe(4);
  });

  it("without a report takes the earlier report out", async () => {
    const first = issue(await drawing({ pages: 2 }), { freshPages: await report(), attachment: job });
    expect(inspectPdf(first)).toMatchObject({ ok: true, value: { pageCount: 4 } });
    const second = issue(first, { removeNames: () => true });
    expect(inspectPdf(second)).toMatchObject({ ok: true, value: { pageCount: 2 } });
    expect((await PDFDocument.load(second)).getPageCount()).toBe(2);
    if (tools.qpdf) expect(qpdfComplaints(second)).toBe("");
  });
});

describe("an older file", () => {
  it("says that it now holds what came with PDF 1.5, a newer one keeps its version", async () => {
    const plain = await drawing();
    const older = new Uint8Array(
      Buffer.from(Buffer.from(plain).toString("latin1").replace("%PDF-1.7", "%PDF-1.4"), "latin1"),
    );
    const version = async (bytes: Uint8Array): Promise<string> =>
      String((await PDFDocument.load(issue(bytes))).catalog.get(PDFName.of("Version")));
    expect(await version(older)).toBe("/1.5");
    expect(await version(plain)).toBe("undefined");
  });
});

describe("encryption, signatures and permissions are told", () => {
  it("of a plain drawing", async () => {
    const facts = inspectPdf(await drawing({ pages: 3, rotate: 270, crop: [10, 20, 300, 200], userUnit: 2 }));
    expect(facts.ok && facts.value).toMatchObject({ pageCount: 3, encrypted: false, signed: false, damaged: false });
    expect(facts.ok && facts.value.pages[2]).toEqual({
      mediaBox: [0, 0, 400, 300],
      cropBox: [10, 20, 310, 220],
      rotate: 270,
      userUnit: 2,
    });
    expect(facts.ok && facts.value.certified).toBe(undefined);
  });
});
