import { PDFDocument } from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import { inspectPdf } from "../../../src/pdf/write/inspect-pdf.ts";
import { readAttachment } from "../../../src/pdf/write/read-attachment.ts";
import { day, drawing, issue, mark, pdftotext, qpdfComplaints, report, tools, tradeText } from "./fixtures.ts";

const job = {
  name: "job.json",
  mime: "application/json",
  description: "The job",
  bytes: new TextEncoder().encode('{"a":1}'.repeat(99)),
  modified: day,
};

describe("a plain drawing", () => {
  it("is issued with marks, text, report pages and the job", async () => {
    const original = await drawing({ pages: 2 });
    const issued = issue(original, {
      pages: [{ page: 2, annotations: [mark({ picture: [...mark().picture, ...tradeText(130, 110)] })] }],
      freshPages: await report(),
      attachment: job,
    });
    expect(Buffer.from(issued.subarray(0, original.length)).equals(Buffer.from(original))).toBe(true);
    if (tools.qpdf) expect(qpdfComplaints(issued)).toBe("");
    if (tools.pdftotext) {
      const text = pdftotext(issued);
      expect(text).toContain("12′-6⅜″ ≥ 1½″ EMT ⅝ ⅞");
      expect(text).toContain("Clearance report 2");
    }
    expect((await PDFDocument.load(issued)).getPageCount()).toBe(4);
    expect(readAttachment(issued, "job.json")).toEqual({ ok: true, value: job.bytes });
    const facts = inspectPdf(issued);
    expect(facts.ok && facts.value.pageCount).toBe(4);
  });
});
