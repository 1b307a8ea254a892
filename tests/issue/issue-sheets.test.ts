import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { PDFDict, PDFDocument, PDFHexString, PDFName, PDFNumber, PDFStream, PDFString } from "@cantoo/pdf-lib";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { type IssueOptions, issueFile, issueJob, jobFromIssued } from "../../src/issue/issue-sheets.ts";
import { marksOf } from "../../src/issue/marks-of.ts";
import { issueMessages } from "../../src/issue/messages.ts";
import { jobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { inspectPdf } from "../../src/pdf/write/inspect-pdf.ts";
import { signedDrawing } from "../pdf/write/signed-drawing.ts";
import { fontBytes } from "./font-bytes.ts";
import { sampleJob } from "./sample-job.ts";

const NOW = new Date("2026-11-25T10:00:00Z");
const OPTIONS: IssueOptions = { fonts: fontBytes, now: NOW, author: "P. Ternhill", report: "with" };
const hashOf = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

/** A drawing of so many pages, and different bytes for each seed. */
async function drawing(pages: number, seed: string): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.setTitle(seed);
  for (let i = 0; i < pages; i++) {
    const page = document.addPage([1224, 792]);
    page.drawLine({ start: { x: 150, y: 150 }, end: { x: 690, y: 510 }, thickness: 0.5 });
  }
  return document.save();
}

/** The sample job with its sheets on these drawings, in order. */
function jobOn(...files: readonly (readonly [name: string, bytes: Uint8Array, page: number])[]): Job {
  const job = sampleJob();
  const sheets = Object.entries(job.sheets).map(([id, sheet], i) => {
    const [name, bytes, page] = files[Math.min(i, files.length - 1)]!;
    return [id, { ...sheet, page, file: { sha256: hashOf(bytes), name, bytes: bytes.length } }] as const;
  });
  return { ...job, sheets: Object.fromEntries(sheets) };
}

const bytes = await drawing(2, "tern street");
const job = jobOn(["tern-street.pdf", bytes, 1], ["tern-street.pdf", bytes, 2]);
const result = checkJob(job);
const own = { sha256: hashOf(bytes), bytes };

describe("issueFile", () => {
  it("leaves the drawing an untouched prefix and puts the report behind its pages", async () => {
    const issued = await issueFile(job, result, own, OPTIONS);
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    expect(Buffer.from(issued.value.bytes.subarray(0, bytes.length)).equals(Buffer.from(bytes))).toBe(true);
    const facts = inspectPdf(issued.value.bytes);
    expect(facts.ok && facts.value.pageCount).toBeGreaterThan(4);
    expect(issued.value.report).toBeUndefined();
  });

  it("writes the annotations an independent reader finds: name, words, layer, on the right page", async () => {
    const issued = await issueFile(job, result, own, { ...OPTIONS, report: "none" });
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    const document = await getDocument({ data: issued.value.bytes.slice(), verbosity: 0 }).promise;
    const marks = marksOf(job, result);
    for (const [i, sheet] of ["roof-sheet", "wiring-sheet"].entries()) {
      const page = await document.getPage(i + 1);
      const annotations = await page.getAnnotations();
      const expected = marks.filter((mark) => mark.sheet === sheet);
      // A label is grouped with its element: such a reader lists the element's words for both.
      const words = expected.flatMap((m) => [m, ...(m.labels ?? [])].map(() => m.annotation.contents));
      expect(annotations.map(({ contentsObj }) => contentsObj.str)).toEqual(words);
      const kinds = expected.flatMap((m) => [m.annotation.subtype, ...(m.labels ?? []).map(() => "FreeText")]);
      expect(annotations.map(({ subtype }) => subtype)).toEqual(kinds);
    }
    const layers = await document.getOptionalContentConfig();
    const names = [...layers].map(([, group]) => (group as { name: string | null }).name);
    expect(names.sort()).toEqual(["Underside: deck areas", "Underside: findings", "Underside: wiring"]);
    await document.destroy();
  });

  it("makes every symbol, line, area, name and tag an annotation of its kind with all that readers list (ISO 32000-2, tables 166 and 172)", async () => {
    const issued = await issueFile(job, result, own, { ...OPTIONS, report: "none" });
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    const document = await PDFDocument.load(issued.value.bytes);
    const all = document.getPages().flatMap((page) => {
      const list = page.node.Annots()!;
      return list.asArray().map((_, i) => list.lookup(i, PDFDict));
    });
    const text = (held: PDFDict, key: string) => held.lookup(PDFName.of(key), PDFString, PDFHexString).decodeText();
    const kinds = new Map<string, string>();
    for (const held of all) {
      const kind = String(held.lookup(PDFName.of("Subtype")));
      expect(text(held, "T")).toBe("P. Ternhill");
      expect(text(held, "Subj"), kind).not.toBe("");
      for (const key of ["M", "CreationDate"]) expect(text(held, key)).toBe("D:20261125100000Z");
      expect(held.lookup(PDFName.of("F"), PDFNumber).asNumber() & 0b111).toBe(0b100); // printed, neither hidden nor invisible
      const group = held.lookup(PDFName.of("OC"), PDFDict);
      const layer = text(group, "Name");
      expect(layer).toMatch(/^Underside: (findings|wiring|deck areas)$/);
      kinds.set(kind, layer);
      const form = held.lookup(PDFName.of("AP"), PDFDict).lookup(PDFName.of("N"), PDFStream);
      expect(String(form.dict.lookup(PDFName.of("Subtype")))).toBe("/Form");
      expect(text(held, "Contents")).not.toBe("");
    }
    expect([...kinds.keys()].sort()).toEqual(["/FreeText", "/PolyLine", "/Polygon", "/Square", "/Stamp"]);
    const names = all.map((held) => text(held, "NM"));
    expect(new Set(names).size).toBe(names.length);
    const tags = all.filter((held) => String(held.lookup(PDFName.of("Subtype"))) === "/FreeText");
    expect(tags.map((held) => text(held, "Contents")).filter((words) => /\d+'-/.test(words)).length).toBeGreaterThan(3);
    for (const held of tags) {
      const whole = held.lookup(PDFName.of("IRT"), PDFDict);
      expect(String(held.lookup(PDFName.of("RT")))).toBe("/Group");
      expect(text(held, "NM").startsWith(`${text(whole, "NM")}#`)).toBe(true);
    }
  });

  it("marks only the sheets that were chosen", async () => {
    const only = new Set(["wiring-sheet"]);
    const issued = await issueFile(job, result, own, { ...OPTIONS, report: "none", only });
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    const document = await PDFDocument.load(issued.value.bytes);
    expect(document.getPage(0).node.Annots()?.size() ?? 0).toBe(0);
    expect(document.getPage(1).node.Annots()!.size()).toBeGreaterThan(5);
  });

  it("gives the same bytes each time", async () => {
    const [a, b] = [await issueFile(job, result, own, OPTIONS), await issueFile(job, result, own, OPTIONS)];
    expect(a.ok && b.ok && Buffer.from(a.value.increment).equals(Buffer.from(b.value.increment))).toBe(true);
  });

  it("keeps the report apart when asked, and leaves it out when asked", async () => {
    const apart = await issueFile(job, result, own, { ...OPTIONS, report: "separate" });
    const none = await issueFile(job, result, own, { ...OPTIONS, report: "none" });
    if (!apart.ok || !none.ok) throw new Error("not issued");
    for (const { bytes: out } of [apart.value, none.value]) {
      const facts = inspectPdf(out);
      expect(facts.ok && facts.value.pageCount).toBe(2);
    }
    const alone = inspectPdf(apart.value.report!);
    expect(alone.ok && alone.value.pageCount).toBeGreaterThan(2);
    expect(none.value.report).toBeUndefined();
  });

  it("flattens without annotations", async () => {
    const issued = await issueFile(job, result, own, { ...OPTIONS, report: "none", flatten: true });
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    const document = await getDocument({ data: issued.value.bytes.slice(), verbosity: 0 }).promise;
    expect(await (await document.getPage(2)).getAnnotations()).toHaveLength(0);
    const text = await (await document.getPage(2)).getTextContent();
    expect(text.items.map((item) => ("str" in item ? item.str : "")).join(" ")).toContain("R-1");
    await document.destroy();
  });

  it("adds a legend where it is asked for", async () => {
    const issued = await issueFile(job, result, own, {
      ...OPTIONS,
      report: "none",
      legends: { "roof-sheet": [800, 100] },
    });
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    const document = await getDocument({ data: issued.value.bytes.slice(), verbosity: 0 }).promise;
    const annotations = await (await document.getPage(1)).getAnnotations();
    const legend = annotations.find(
      ({ titleObj, contentsObj }) => titleObj.str && contentsObj.str.startsWith("Concealed"),
    );
    expect(legend?.rect[0]).toBeCloseTo(799.6, 0);
    await document.destroy();
  });

  it("refuses a drawing that no sheet lies on, a label that cannot be shown, and what is no PDF", async () => {
    const other = await drawing(1, "another");
    const codes = async (made: ReturnType<typeof issueFile>) => {
      const done = await made;
      return done.ok ? [] : done.problems.map(({ code }) => code);
    };
    expect(await codes(issueFile(job, result, { sha256: hashOf(other), bytes: other }, OPTIONS))).toEqual([
      "issue.no-sheet",
    ]);
    const odd = { ...job, elements: { ...job.elements, "r-1": { ...job.elements["r-1"]!, label: "屋-1" } } };
    expect(await codes(issueFile(odd, checkJob(odd), own, { ...OPTIONS, report: "none" }))).toEqual([
      "pdf.missing-glyph",
    ]);
    const broken = { sha256: own.sha256, bytes: new Uint8Array([1, 2, 3]) };
    expect((await codes(issueFile(job, result, broken, OPTIONS)))[0]).toMatch(/^pdf\./);
  });
});

describe("a signed drawing", () => {
  it("gets annotations, and its report as a file of its own: pages behind a seal would break it", async () => {
    const document = await PDFDocument.load(await drawing(2, "signed"), { updateMetadata: false });
    const { context } = document;
    const signature = context.register(context.obj({ Type: "Sig", ByteRange: [0, 1, 2, 3], Contents: "" }));
    const field = context.register(context.obj({ FT: "Sig", T: context.obj("seal"), V: signature }));
    document.catalog.set(PDFName.of("AcroForm"), context.obj({ Fields: [field], SigFlags: 3 }));
    const sealed = await document.save({ updateFieldAppearances: false });
    const placed = jobOn(["sealed.pdf", sealed, 1], ["sealed.pdf", sealed, 2]);
    const issued = await issueFile(placed, checkJob(placed), { sha256: hashOf(sealed), bytes: sealed }, OPTIONS);
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    const facts = inspectPdf(issued.value.bytes);
    expect(facts.ok && [facts.value.signed, facts.value.pageCount]).toEqual([true, 2]);
    expect(issued.value.report?.length).toBeGreaterThan(1000);
    const carried = jobFromIssued(issued.value.bytes);
    expect(carried.ok && carried.value?.drawings.size).toBe(1);
  });
});

describe("a copy that is not the drawing as its author gave it", () => {
  const wordsOn = async (issued: Uint8Array) => {
    const document = await getDocument({ data: issued.slice(), verbosity: 0 }).promise;
    const annotations = await (await document.getPage(1)).getAnnotations();
    await document.destroy();
    return annotations.map(({ contentsObj }) => contentsObj.str).join("\n");
  };

  it("is made of a drawing certified against changes, says so on its sheets, and carries the job with the drawing", async () => {
    const sealed = await signedDrawing({ level: 1 });
    const placed = jobOn(["sealed.pdf", sealed, 1], ["sealed.pdf", sealed, 2]);
    const given = { sha256: hashOf(sealed), bytes: sealed };
    const refused = await issueFile(placed, checkJob(placed), given, OPTIONS);
    expect(refused.ok ? [] : refused.problems.map(({ code }) => code)).toEqual(["pdf.certified"]);
    const made = await issueFile(placed, checkJob(placed), given, { ...OPTIONS, copy: "unsigned" });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    expect(made.value.copy).toBe("unsigned");
    expect(await wordsOn(made.value.bytes)).toContain("Copy without the signatures of the drawing.");
    expect(inspectPdf(made.value.bytes)).toMatchObject({ ok: true, value: { signed: false } });
    const carried = jobFromIssued(made.value.bytes);
    expect(carried.ok && carried.value?.drawings.has(given.sha256)).toBe(true);
  });

  it("is made of a damaged drawing, says so on its sheets, and carries the job with the drawing", async () => {
    const damaged = new Uint8Array(
      Buffer.from(
        Buffer.from(bytes)
          .toString("latin1")
          .replace(/startxref\n\d+/, "startxref\n7"),
        "latin1",
      ),
    );
    const placed = jobOn(["torn.pdf", damaged, 1], ["torn.pdf", damaged, 2]);
    const given = { sha256: hashOf(damaged), bytes: damaged };
    const refused = await issueFile(placed, checkJob(placed), given, OPTIONS);
    expect(refused.ok ? [] : refused.problems.map(({ code }) => code)).toEqual(["pdf.damaged"]);
    const made = await issueFile(placed, checkJob(placed), given, { ...OPTIONS, copy: "repaired" });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    expect([made.value.copy, made.value.lost]).toEqual(["repaired", 0]);
    expect(await wordsOn(made.value.bytes)).toContain("Repaired copy:");
    const carried = jobFromIssued(made.value.bytes);
    expect(carried.ok && carried.value?.drawings.has(given.sha256)).toBe(true);
  });

  it("is not made of a drawing that gives no cause for it", async () => {
    for (const copy of ["unsigned", "repaired"] as const) {
      const made = await issueFile(job, result, own, { ...OPTIONS, report: "none", copy });
      const plain = await issueFile(job, result, own, { ...OPTIONS, report: "none" });
      expect(made.ok && made.value.copy).toBe(undefined);
      expect(made.ok && plain.ok && Buffer.from(made.value.bytes).equals(Buffer.from(plain.value.bytes))).toBe(true);
    }
  });
});

describe("jobFromIssued", () => {
  it("finds the job with nothing lost, and the drawing as it was", async () => {
    const issued = await issueFile(job, result, own, OPTIONS);
    if (!issued.ok) throw new Error("not issued");
    const carried = jobFromIssued(issued.value.bytes);
    if (!carried.ok || !carried.value) throw new Error("no job found");
    expect(jobText(carried.value.job)).toBe(jobText(job));
    expect([...carried.value.drawings.keys()]).toEqual([own.sha256]);
    expect(hashOf(carried.value.drawings.get(own.sha256)!)).toBe(own.sha256);
    const again = await issueFile(carried.value.job, checkJob(carried.value.job), own, OPTIONS);
    expect(again.ok && Buffer.from(again.value.bytes).equals(Buffer.from(issued.value.bytes))).toBe(true);
  });

  it("finds none in a drawing, and says so of what is no PDF", () => {
    expect(jobFromIssued(bytes)).toEqual({ ok: true, value: undefined });
    expect(jobFromIssued(new Uint8Array([1, 2, 3])).ok).toBe(false);
  });

  it("keeps the job but offers no drawing when the start of the file was changed", async () => {
    const issued = await issueFile(job, result, own, { ...OPTIONS, report: "none" });
    if (!issued.ok) throw new Error("not issued");
    const touched = issued.value.bytes.slice();
    // The binary marker after the header is a comment: the file still reads, but it is another file.
    touched[12] = (touched[12] as number) ^ 1;
    const carried = jobFromIssued(touched);
    expect(carried.ok && carried.value?.drawings.size).toBe(0);
  });
});

describe("issueJob", () => {
  it("issues every drawing, the report with the first by name", async () => {
    const roof = await drawing(1, "roof");
    const ceiling = await drawing(1, "ceiling");
    const two = jobOn(["s-201.pdf", roof, 1], ["e-301.pdf", ceiling, 1]);
    const at = new Map([
      [hashOf(roof), roof],
      [hashOf(ceiling), ceiling],
    ]);
    const issued = await issueJob(two, checkJob(two), at, OPTIONS);
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    expect(issued.value.files.map(({ name }) => name)).toEqual(["e-301.pdf", "s-201.pdf"]);
    const pages = issued.value.files.map((file) => {
      const facts = inspectPdf(file.bytes);
      return facts.ok ? facts.value.pageCount : 0;
    });
    expect(pages[0]).toBeGreaterThan(2);
    expect(pages[1]).toBe(1);
    const carried = jobFromIssued(issued.value.files[1]!.bytes);
    expect(carried.ok && [...(carried.value?.drawings.keys() ?? [])]).toEqual([hashOf(roof)]);
  });

  it("leaves out drawings on which no chosen sheet lies", async () => {
    const roof = await drawing(1, "roof");
    const ceiling = await drawing(1, "ceiling");
    const two = jobOn(["s-201.pdf", roof, 1], ["e-301.pdf", ceiling, 1]);
    const only = new Set([Object.keys(two.sheets)[1]!]);
    const issued = await issueJob(two, checkJob(two), new Map([[hashOf(ceiling), ceiling]]), { ...OPTIONS, only });
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    expect(issued.value.files.map(({ name }) => name)).toEqual(["e-301.pdf"]);
  });

  it("issues nothing while a drawing is missing, and words the problem", async () => {
    const issued = await issueJob(job, result, new Map(), OPTIONS);
    if (issued.ok) throw new Error("issued without its drawing");
    expect(issued.problems.map(({ code }) => code)).toEqual(["issue.drawing-missing"]);
    const { code, params, where } = issued.problems[0]!;
    expect(issueMessages[code]!(params, where)).toContain("tern-street.pdf is not at hand");
  });
});

describe("on a real sheet", () => {
  const path = "../shared/drawings/cad-a3-rot270-vp.pdf";
  it.skipIf(!existsSync(path))(`turned by 270 degrees (skipped without ${path})`, async () => {
    const real = new Uint8Array(readFileSync(path));
    const placed = jobOn(["cad.pdf", real, 1]);
    const sheets = { ...placed.sheets, "wiring-sheet": { ...placed.sheets["wiring-sheet"]!, rotate: 270 as const } };
    const turned: Job = { ...placed, sheets };
    const issued = await issueFile(turned, checkJob(turned), { sha256: hashOf(real), bytes: real }, OPTIONS);
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    const carried = jobFromIssued(issued.value.bytes);
    expect(carried.ok && carried.value?.drawings.has(hashOf(real))).toBe(true);
  });
});
