/** Signed drawings: signatures are made and verified by a library that is not ours, and looked at by poppler's verifier where it is installed. */

import { PDFDict, PDFDocument, PDFName } from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import { type AppendRequest, appendUpdate, issuedBytes } from "../../../src/pdf/write/append-update.ts";
import { inspectPdf } from "../../../src/pdf/write/inspect-pdf.ts";
import { readAttachment } from "../../../src/pdf/write/read-attachment.ts";
import { issue, job, mark, mutoolPixels, qpdfComplaints, report, request, tools, vermillion } from "./fixtures.ts";
import { saidByPdfsig, signatureHolds, signedDrawing } from "./signed-drawing.ts";

const code = (original: Uint8Array, over: Partial<AppendRequest> = {}): string => {
  const result = appendUpdate(original, request(over));
  return result.ok ? "accepted" : result.problems.map((problem) => problem.code).join();
};

describe("the test's own signature", () => {
  it("holds, and no longer does when a covered byte is changed", async () => {
    const original = await signedDrawing();
    expect(await signatureHolds(original)).toBe(true);
    expect(saidByPdfsig(original) ?? "Signature is Valid").toContain("Signature is Valid");
    const touched = original.slice();
    touched[20] = (touched[20] as number) ^ 1;
    expect(await signatureHolds(touched)).toBe(false);
  });
});

describe("a signed drawing", () => {
  it.each([{}, { level: 3 }, { lock: 3 }] as const)(
    "that leaves annotations open (%j) takes marks and job, and its signature still holds",
    async (signing) => {
      const original = await signedDrawing(signing);
      const issued = issue(original, { attachment: job, attachmentName: "underside-job" });
      const again = issue(issued, {
        pages: [{ page: 2, annotations: [mark({ name: "underside-2" })] }],
        removeNames: (nm) => nm.startsWith("underside-"),
        attachment: { ...job, bytes: new TextEncoder().encode("again") },
        attachmentName: "underside-job",
      });
      for (const file of [issued, again]) {
        expect(await signatureHolds(file)).toBe(true);
        const said = saidByPdfsig(file);
        if (said !== undefined) expect(said).toContain("Signature is Valid");
        if (tools.qpdf) expect(qpdfComplaints(file)).toBe("");
        expect(inspectPdf(file)).toMatchObject({ ok: true, value: { signed: true, pageCount: 2 } });
      }
      expect(readAttachment(issued, job.name)).toEqual({ ok: true, value: job.bytes });
      expect(readAttachment(again, job.name)).toEqual({ ok: true, value: new TextEncoder().encode("again") });
      if (tools.mutool) {
        const colour = mutoolPixels(issued, 1, 72).at(110, 190);
        const want = [vermillion.r, vermillion.g, vermillion.b].map((c) => c * 255);
        for (const [i, part] of colour.entries()) expect(Math.abs(part - want[i]!)).toBeLessThan(2);
      }
    },
  );

  it("gets annotations and nothing else: its root, its form and its pages' other entries stay as they were", async () => {
    const original = await signedDrawing({ level: 3 });
    const [before, after] = await Promise.all(
      [original, issue(original, { attachment: job })].map((bytes) => PDFDocument.load(bytes)),
    );
    expect(String(after!.catalog)).toBe(String(before!.catalog));
    const rest = (document: PDFDocument, page: number): string => {
      const dict = PDFDict.fromMapWithContext(new Map(document.getPage(page).node.entries()), document.context);
      dict.delete(PDFName.of("Annots"));
      return String(dict);
    };
    for (const page of [0, 1]) expect(rest(after!, page)).toBe(rest(before!, page));
    expect(after!.getPage(0).node.Annots()!.size()).toBe(3); // the seal, the mark and the job
  });

  it.each([{ level: 1 }, { level: 2 }, { lock: 1 }, { lock: 2 }, { level: 3, lock: 1 }] as const)(
    "that leaves none open (%j) is refused, and issued as an unsigned copy when one is asked for",
    async (signing) => {
      const original = await signedDrawing(signing);
      expect(code(original)).toBe("pdf.certified");
      const freshPages = await report();
      const copy = appendUpdate(original, request({ copy: "unsigned", freshPages, attachment: job }));
      if (!copy.ok) throw new Error(copy.problems[0]!.code);
      const file = issuedBytes(original, copy.value.increment);
      expect(inspectPdf(file)).toMatchObject({
        ok: true,
        value: { signed: false, certified: undefined, pageCount: 4 },
      });
      expect(Buffer.from(file.subarray(0, original.length)).equals(Buffer.from(original))).toBe(true);
      if (tools.qpdf) expect(qpdfComplaints(file)).toBe("");
      const said = saidByPdfsig(file);
      if (said !== undefined) expect(said).not.toContain("Signature is Valid");
      expect(readAttachment(file, job.name)).toEqual({ ok: true, value: job.bytes });
    },
  );

  it("stays signed where a copy is asked for another reason, and takes no pages", async () => {
    const original = await signedDrawing();
    expect(code(original, { copy: "repaired", freshPages: await report() })).toBe("pdf.signed-pages");
    expect(code(original, { flatten: true })).toBe("pdf.signed-flatten");
    expect(code(original, { flatten: true, copy: "unsigned" })).toBe("accepted");
  });
});
