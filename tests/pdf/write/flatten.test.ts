import { PDFDocument, PDFName } from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import { countSaves } from "../../../src/pdf/write/content-balance.ts";
import { drawing, issue, mark, pixels, qpdfComplaints, squareAt, tools, vermillion } from "./fixtures.ts";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe("saves and restores in page content", () => {
  it.each([
    ["", 0, 0],
    ["q Q", 0, 0],
    ["q q 1 0 0 1 5 5 cm Q", 0, 1],
    ["Q Q q", 2, 1],
    ["Q q", 1, 1],
    ["q (q Q \\) Q) Tj % q q\nQ", 0, 0],
    ["/q gs /Q Do <71> q1 Qq", 0, 0],
    ["q BI /W 4 /H 1 ID q Q Q EI Q\n", 0, 0],
    ["[(q)-20(Q)]TJ q", 0, 1],
  ])("%s", (content, missing, open) => {
    expect(countSaves(bytes(content))).toEqual({ missing, open });
  });
});

describe("marks drawn into the page", () => {
  const drawn = async (contents: readonly string[]): Promise<Uint8Array> => {
    const doc = await PDFDocument.load(await drawing());
    const { context } = doc;
    const parts = contents.map((part) => context.register(context.flateStream(part)));
    doc.getPage(0).node.set(PDFName.of("Contents"), context.obj(parts));
    return issue(await doc.save({ useObjectStreams: false }), {
      flatten: true,
      pages: [{ page: 1, annotations: [mark({ picture: squareAt(110, 110) })] }],
    });
  };

  it.skipIf(!tools.pdftoppm)(
    "land right whatever the page leaves set (skipped where pdftoppm is not installed)",
    async () => {
      const contents = [
        ["0.5 0 0 0.5 90 90 cm 0 1 0 rg"],
        ["q 2 0 0 2 30 30 cm", "q 0 0 10 10 re W n"],
        ["Q Q 1 0 0 1 40 40 cm"],
        ["q Q Q 3 0 0 3 0 0 cm q q"],
        [],
      ];
      for (const content of contents) {
        const issued = await drawn(content);
        const colour = pixels(issued, 1, 72).at(110, 190);
        expect(colour, content.join(" | ")).toEqual(
          [vermillion.r, vermillion.g, vermillion.b].map((c) => Math.round(c * 255)),
        );
        if (tools.qpdf) expect(qpdfComplaints(issued)).toBe("");
      }
    },
  );

  it("leave resources that pages share as they were", async () => {
    const doc = await PDFDocument.load(await drawing({ pages: 2 }));
    const { context } = doc;
    const shared = context.register(context.obj({ ProcSet: ["PDF"] }));
    for (const page of doc.getPages()) page.node.set(PDFName.of("Resources"), shared);
    const read = await PDFDocument.load(issue(await doc.save({ useObjectStreams: false }), { flatten: true }));
    expect(String(read.getPage(0).node.Resources())).toContain("/XObject");
    expect(String(read.getPage(1).node.Resources())).not.toContain("/XObject");
    expect(read.getPage(0).node.Annots()?.size() ?? 0).toBe(0);
  });

  it("are taken out again when the sheet is issued again, in either way", async () => {
    const original = await drawing({ pages: 2 });
    const contents = (doc: PDFDocument): string => String(doc.getPage(0).node.get(PDFName.of("Contents")));
    const bare = (doc: PDFDocument): string =>
      contents(doc)
        .replace(/[[\] ]+/g, " ")
        .trim();
    const before = bare(await PDFDocument.load(original));
    const drawn = issue(original, { flatten: true });
    expect(bare(await PDFDocument.load(drawn))).not.toBe(before);
    const annotated = issue(drawn, { removeNames: () => true });
    expect(bare(await PDFDocument.load(annotated))).toBe(before);
    const twice = await PDFDocument.load(issue(drawn, { flatten: true, removeNames: () => true }));
    expect(contents(twice).match(/ R/g)).toHaveLength(3);
  });
});
