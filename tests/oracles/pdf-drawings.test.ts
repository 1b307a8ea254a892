/** Real drawings, issued and looked at by qpdf and poppler. They are not part of the project; where they are absent, this is skipped. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { inspectPdf } from "../../src/pdf/write/inspect-pdf.ts";
import { readAttachment } from "../../src/pdf/write/read-attachment.ts";
import {
  issue,
  job,
  mark,
  pdftotext,
  pixels,
  qpdfComplaints,
  report,
  squareAt,
  tools,
  vermillion,
} from "../pdf/write/fixtures.ts";

const folder = new URL("../../../shared/drawings/", import.meta.url);
const files = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith(".pdf")) : [];

describe.skipIf(files.length === 0)("real drawings (skipped where the folder of drawings is absent)", () => {
  it.each(files)("%s is issued with marks, report and job", { timeout: 120_000 }, async (name) => {
    const original = new Uint8Array(readFileSync(new URL(name, folder)));
    const facts = inspectPdf(original);
    if (!facts.ok) throw new Error(facts.problems[0]?.code);
    const { pageCount, pages } = facts.value;
    const freshPages = await report();
    const before = tools.qpdf ? qpdfComplaints(original) : "";
    for (const flatten of [false, true]) {
      const shape = pages[pageCount - 1]!;
      const [x0, y0, x1, y1] = shape.cropBox;
      const [x, y] = [Math.round(x0 + 0.3 * (x1 - x0)), Math.round(y0 + 0.4 * (y1 - y0))];
      const annotations = [mark({ rect: [x, y, x, y], picture: squareAt(x, y, 20) })];
      const request = { pages: [{ page: pageCount, annotations }], freshPages, attachment: job, flatten };
      const issued = issue(original, request);
      expect(Buffer.compare(issued.subarray(0, original.length), original)).toBe(0);
      expect(issued.length - original.length).toBeLessThan(20_000);
      expect(readAttachment(issued, job.name)).toEqual({ ok: true, value: job.bytes });
      const after = inspectPdf(issued);
      expect(after.ok && after.value.pageCount).toBe(pageCount + 2);
      if (tools.qpdf && before === "") expect(qpdfComplaints(issued)).toBe("");
      if (tools.pdftotext) expect(pdftotext(issued, "-f", `${pageCount + 1}`)).toContain("Clearance report 2");
      if (tools.pdftoppm) {
        const image = pixels(issued, pageCount, 18, "-cropbox");
        const [u, v] = [(x - x0) / (x1 - x0), (y - y0) / (y1 - y0)];
        const [across, down] = { 0: [u, 1 - v], 90: [v, u], 180: [1 - u, v], 270: [1 - v, 1 - u] }[shape.rotate]!;
        const colour = image.at(across! * image.width, down! * image.height);
        const want = [vermillion.r, vermillion.g, vermillion.b].map((c) => c * 255);
        for (const [i, c] of colour.entries()) expect(Math.abs(c - want[i]!)).toBeLessThan(8);
      }
    }
  });
});
