/**
 * Issues every PDF of the folder that PDF_CORPUS names, and looks at what came of it with programs that are not ours. Each file is
 * written, refused with a reason in words, or wrong; none may be wrong. Skipped where PDF_CORPUS is not set.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { getDocument, VerbosityLevel } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { pdfMessages } from "../../src/pdf/messages.ts";
import { appendUpdate, issuedBytes } from "../../src/pdf/write/append-update.ts";
import { inspectPdf } from "../../src/pdf/write/inspect-pdf.ts";
import { readAttachment } from "../../src/pdf/write/read-attachment.ts";
import {
  job,
  mark,
  mutoolPixels,
  qpdfComplaints,
  request,
  squareAt,
  tools,
  vermillion,
} from "../pdf/write/fixtures.ts";

const folder = process.env.PDF_CORPUS;
/** Milliseconds a file may take with all that looks at it. */
const PATIENCE = 60_000;

const filesIn = (root: string): string[] =>
  readdirSync(root, { recursive: true, encoding: "utf8" })
    .filter((name) => name.toLowerCase().endsWith(".pdf"))
    .map((name) => join(root, name))
    .sort();

type Verdict = { readonly is: "written" } | { readonly is: "refused" | "wrong"; readonly why: string };
const wrong = (why: string): Verdict => ({ is: "wrong", why });

/** Pages and, on the first, names of annotations as pdf.js reads them; undefined where it cannot open the file. */
const inPdfJs = async (bytes: Uint8Array) => {
  const task = getDocument({ data: bytes.slice(), verbosity: VerbosityLevel.ERRORS });
  try {
    const document = await task.promise;
    const annotations = await (await document.getPage(1)).getAnnotations();
    return { pages: document.numPages, ours: annotations.filter((a) => a.contentsObj?.str === mark().contents).length };
  } catch {
    return undefined;
  } finally {
    await task.destroy();
  }
};

async function judge(original: Uint8Array): Promise<Verdict> {
  const facts = inspectPdf(original);
  const [x0, y0, x1, y1] = facts.ok ? facts.value.pages[0]!.cropBox : [0, 0, 1, 1];
  const [x, y] = [(x0 + x1) / 2, (y0 + y1) / 2];
  const half = Math.min(x1 - x0, y1 - y0) / 10;
  const annotations = [mark({ rect: [x, y, x, y], picture: squareAt(x, y, half) })];
  const made = appendUpdate(original, request({ pages: [{ page: 1, annotations }], attachment: job }));
  if (!made.ok) {
    const [problem] = made.problems;
    const words = pdfMessages[problem!.code]?.(problem!.params);
    return words ? { is: "refused", why: problem!.code } : wrong(`refused without words: ${problem!.code}`);
  }
  const issued = issuedBytes(original, made.value.increment);
  if (Buffer.compare(issued.subarray(0, original.length), original) !== 0) return wrong("the original's bytes changed");
  const held = readAttachment(issued, job.name);
  if (!held.ok || !held.value || Buffer.compare(held.value, job.bytes) !== 0)
    return wrong("the job cannot be read back");
  const [before, after] = [await inPdfJs(original), await inPdfJs(issued)];
  if (before && after?.pages !== before.pages)
    return wrong(`pdf.js: ${before.pages} pages before, ${after?.pages} after`);
  if (before && after?.ours !== before.ours + 1) return wrong("pdf.js does not find the mark");
  if (tools.qpdf && qpdfComplaints(original) === "") {
    const complaints = qpdfComplaints(issued);
    if (complaints !== "") return wrong(`qpdf: ${complaints.trim().split("\n").at(-1)}`);
  }
  if (tools.mutool && facts.ok) {
    // So few pixels to a unit that no page is too large for it; the middle stays the middle however the page turns.
    const image = mutoolPixels(
      issued,
      1,
      Math.min(72, (72 * 400) / Math.max(x1 - x0, y1 - y0) / facts.value.pages[0]!.userUnit),
    );
    const colour = image.at(image.width / 2, image.height / 2);
    const want = [vermillion.r, vermillion.g, vermillion.b].map((part) => part * 255);
    if (!colour.every((part, i) => Math.abs(part - want[i]!) < 10)) return wrong(`MuPDF draws ${colour} at the mark`);
  }
  return { is: "written" };
}

const files = folder ? filesIn(folder) : [];

describe.skipIf(!folder)("the PDFs of the folder PDF_CORPUS (skipped where it is not set)", () => {
  it("are written or refused with a reason, and none is wrong", {
    timeout: PATIENCE * Math.max(1, files.length),
  }, async () => {
    const refused = new Map<string, number>();
    const faults: string[] = [];
    let written = 0;
    for (const path of files) {
      const verdict = await judge(new Uint8Array(readFileSync(path))).catch((error: Error) =>
        wrong(`threw ${error.message}`),
      );
      if (verdict.is === "written") written++;
      else if (verdict.is === "refused") refused.set(verdict.why, (refused.get(verdict.why) ?? 0) + 1);
      else faults.push(`${relative(folder!, path)}: ${verdict.why}`);
    }
    const reasons = [...refused].map(([code, count]) => `${count} ${code}`).join(", ");
    const count = [...refused.values()].reduce((sum, some) => sum + some, 0);
    process.stdout.write(
      `PDF_CORPUS: ${files.length} files: ${written} written, ${count} refused (${reasons}), ${faults.length} wrong\n`,
    );
    expect(faults).toEqual([]);
  });
});
