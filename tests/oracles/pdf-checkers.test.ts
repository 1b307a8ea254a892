/**
 * Issued sheets in the eyes of programs that are not ours: qpdf checks their structure, poppler and pdf.js read their
 * text and annotations. What a machine lacks is skipped, and says so.
 */
import { execFileSync } from "node:child_process";
import { PDFDocument } from "@cantoo/pdf-lib";
import { getDocument, VerbosityLevel } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { inspectPdf } from "../../src/pdf/write/inspect-pdf.ts";
import { readAttachment } from "../../src/pdf/write/read-attachment.ts";
import {
  drawing,
  issue,
  job,
  mark,
  pdftotext,
  qpdf,
  qpdfComplaints,
  report,
  tools,
  tradeText,
  withFile,
} from "../pdf/write/fixtures.ts";

/** What pdf.js says of every page: its annotations and its text. */
const inPdfJs = async (bytes: Uint8Array, password = "") => {
  const task = getDocument({ data: bytes.slice(), password, verbosity: VerbosityLevel.ERRORS });
  const doc = await task.promise;
  const pages = [];
  for (let n = 1; n <= doc.numPages; n++) {
    const page = await doc.getPage(n);
    const annotations = await page.getAnnotations();
    const text = (await page.getTextContent()).items.map((item) => ("str" in item ? item.str : "")).join(" ");
    pages.push({ annotations, text });
  }
  const layers = [...(await doc.getOptionalContentConfig())].map(([, group]) => (group as { name: string }).name);
  const attachments = (await doc.getAttachments()) as Record<string, { content: Uint8Array }> | null;
  await task.destroy();
  return { pages, layers, attachments };
};

/** A drawing as qpdf's options make it. */
const made: Record<string, { options: string[]; password?: string; kind: string }> = {
  "a classic table": { options: ["--object-streams=disable"], kind: "table" },
  "object streams": { options: ["--object-streams=generate"], kind: "stream" },
  "a linearized file": { options: ["--linearize", "--object-streams=disable"], kind: "table" },
  "a linearized file with object streams": { options: ["--linearize", "--object-streams=generate"], kind: "stream" },
  "RC4 with 40 bits": { options: ["--allow-weak-crypto", "--encrypt", "", "owner", "40", "--"], kind: "table" },
  "RC4 with 128 bits": {
    options: ["--allow-weak-crypto", "--encrypt", "", "owner", "128", "--use-aes=n", "--"],
    kind: "table",
  },
  "RC4 with 128 bits and a user password": {
    options: ["--allow-weak-crypto", "--encrypt", "user", "owner", "128", "--use-aes=n", "--"],
    password: "user",
    kind: "table",
  },
  "AES with 128 bits": {
    options: ["--allow-weak-crypto", "--encrypt", "", "owner", "128", "--use-aes=y", "--"],
    kind: "table",
  },
  "AES with 128 bits, metadata left plain": {
    options: ["--allow-weak-crypto", "--encrypt", "", "owner", "128", "--use-aes=y", "--cleartext-metadata", "--"],
    kind: "table",
  },
  "AES with 256 bits": { options: ["--encrypt", "", "owner", "256", "--"], kind: "stream" },
  "AES with 256 bits and the owner's password": {
    options: ["--encrypt", "user", "öwner", "256", "--"],
    password: "öwner",
    kind: "stream",
  },
  "AES with 256 bits, the older kind": {
    options: ["--encrypt", "user", "owner", "256", "--force-R5", "--"],
    password: "user",
    kind: "stream",
  },
  "AES with 256 bits and object streams, linearized": {
    options: ["--linearize", "--object-streams=generate", "--encrypt", "", "owner", "256", "--"],
    kind: "stream",
  },
};

describe.skipIf(!tools.qpdf)("a drawing rewritten by qpdf (skipped where qpdf is not installed)", () => {
  it.each(Object.entries(made))(
    "with %s is issued, and issued again",
    { timeout: 60_000 },
    async (_, { options, password, kind }) => {
      const original = qpdf(await drawing({ pages: 2, objectStreams: kind === "stream" }), ...options);
      const secret = password === undefined ? {} : { password };
      const fresh = await report();
      const once = issue(original, {
        pages: [{ page: 2, annotations: [mark({ picture: [...mark().picture, ...tradeText(130, 110)] })] }],
        freshPages: fresh,
        attachment: job,
        ...secret,
      });
      const twice = issue(once, {
        pages: [{ page: 1, annotations: [mark({ name: "underside-2", picture: tradeText(50, 50) })] }],
        removeNames: (nm) => nm.startsWith("underside-"),
        freshPages: fresh,
        attachment: { ...job, bytes: new TextEncoder().encode("again") },
        ...secret,
      });
      for (const [issued, content, markedPage] of [
        [once, job.bytes, 1],
        [twice, new TextEncoder().encode("again"), 0],
      ] as const) {
        expect(qpdfComplaints(issued, password)).toBe("");
        expect(readAttachment(issued, "job.json", password)).toEqual({ ok: true, value: content });
        const { pages, layers, attachments } = await inPdfJs(issued, password);
        expect(pages).toHaveLength(4);
        expect(pages.map((p) => p.annotations.length)).toEqual(markedPage === 1 ? [0, 1, 0, 0] : [1, 0, 0, 0]);
        const [shown] = pages[markedPage]!.annotations;
        expect(shown.contentsObj.str).toBe("Run R-14 is 7/8″ under the deck");
        expect(shown.titleObj.str).toBe("Reviewer");
        expect(pages[3]!.text).toContain("Clearance report 2");
        expect(layers).toEqual(["Clearance findings"]);
        expect(new Uint8Array(attachments!["job.json"]!.content)).toEqual(content);
        if (tools.pdftotext) {
          const text = pdftotext(issued, ...(password ? ["-opw", password, "-upw", password] : []));
          expect(text).toContain("12′-6⅜″ ≥ 1½″ EMT ⅝ ⅞");
          expect(text).toContain("Sheet E-2");
        }
      }
      const unpacked = qpdf(
        once,
        ...(password ? [`--password=${password}`] : []),
        "--decrypt",
        "--object-streams=disable",
      );
      expect((await PDFDocument.load(unpacked)).getPageCount()).toBe(4);
    },
  );

  it.each(Object.entries(made))(
    "with %s keeps the kind of its cross-reference",
    async (_, { options, password, kind }) => {
      const original = qpdf(await drawing({ objectStreams: kind === "stream" }), ...options);
      const issued = issue(original, password === undefined ? {} : { password });
      const tail = Buffer.from(issued.subarray(original.length)).toString("latin1");
      expect(/\nxref\n/.test(tail) ? "table" : "stream").toBe(kind);
      expect(tail.includes("/Type /XRef")).toBe(kind === "stream");
    },
  );

  it("keeps the /ID of an encrypted file, and invents none", async () => {
    const id = (bytes: Uint8Array): string =>
      withFile(bytes, (path) => execFileSync("qpdf", ["--show-object=trailer", path], { encoding: "utf8" })).match(
        /\/ID \[[^\]]*\]/,
      )?.[0] ?? "";
    const sealed = qpdf(await drawing(), "--encrypt", "", "owner", "256", "--");
    expect(id(sealed)).not.toBe("");
    expect(id(issue(sealed))).toBe(id(sealed));
    const open = qpdf(await drawing(), "--static-id");
    expect(id(issue(open))).not.toBe(id(open));
    expect(id(issue(open)).split("> <")[0]).toBe(id(open).split("> <")[0]);
  });

  it("does not leave strings or streams readable in an encrypted file", async () => {
    const sealed = qpdf(await drawing(), "--encrypt", "", "owner", "256", "--");
    const issued = issue(sealed, {
      attachment: job,
      pages: [{ page: 1, annotations: [mark({ contents: "plain words" })] }],
    });
    const tail = Buffer.from(issued.subarray(sealed.length)).toString("latin1");
    expect(tail).not.toContain("plain words");
    expect(tail).not.toContain("R-14");
    expect(tail).not.toContain("EndOfText");
    expect(tail).not.toContain("1 J 1 j");
    expect(tail.toLowerCase()).not.toContain(Buffer.from("plain words").toString("hex"));
  });

  it("tells qpdf's restrictions apart", async () => {
    const facts = (bytes: Uint8Array, password?: string) => {
      const found = inspectPdf(bytes, password);
      return found.ok ? found.value.permissions : undefined;
    };
    const without = (what: string): string[] => ["--encrypt", "", "owner", "256", what, "--"];
    const plain = await drawing();
    expect(facts(qpdf(plain, ...without("--annotate=n")))).toEqual({ annotate: false, modify: true, assemble: true });
    expect(facts(qpdf(plain, ...without("--modify=none")))).toEqual({
      annotate: false,
      modify: false,
      assemble: false,
    });
    expect(facts(qpdf(plain, ...without("--modify=assembly")))).toEqual({
      annotate: false,
      modify: false,
      assemble: true,
    });
    expect(facts(qpdf(plain, ...without("--modify=annotate")))).toEqual({
      annotate: true,
      modify: false,
      assemble: true,
    });
    const all = { annotate: true, modify: true, assemble: true };
    expect(facts(qpdf(plain, ...without("--modify=none")), "owner")).toEqual(all);
  });
});

describe("pdf.js", () => {
  it("lists each kind of mark with its corners", async () => {
    const vertices = [
      [10, 20],
      [30, 40],
      [50, 20],
    ] as const;
    const kinds = ["PolyLine", "Polygon", "Square", "Stamp", "FreeText", "Line"] as const;
    const marks = kinds.map((subtype) => mark({ subtype, name: subtype, vertices }));
    const { pages } = await inPdfJs(issue(await drawing(), { pages: [{ page: 1, annotations: marks }] }));
    expect(pages[0]!.annotations.map((a) => a.subtype)).toEqual([...kinds]);
    expect([...pages[0]!.annotations[0].vertices]).toEqual([10, 20, 30, 40, 50, 20]);
    for (const a of pages[0]!.annotations) expect(a.hasAppearance).toBe(true);
  });

  it("reads the text of marks drawn into the page", async () => {
    const annotations = [mark({ picture: tradeText(50, 50) })];
    const { pages } = await inPdfJs(issue(await drawing(), { flatten: true, pages: [{ page: 1, annotations }] }));
    expect(pages[0]!.annotations).toEqual([]);
    expect(pages[0]!.text).toContain("12′-6⅜″ ≥ 1½″ EMT ⅝ ⅞");
    expect(pages[0]!.text).toContain("Sheet E-1");
  });

  it("finds lines of text where their alignment and direction put them", async () => {
    const line = tradeText(200, 150)[0]!;
    const [turn, size] = [Math.PI / 6, 12];
    for (const [align, share] of [
      ["start", 0],
      ["middle", 0.5],
      ["end", 1],
    ] as const) {
      const picture = [{ ...line, align, angle: turn } as typeof line];
      const issued = issue(await drawing(), { flatten: true, pages: [{ page: 1, annotations: [mark({ picture })] }] });
      const task = getDocument({ data: issued, verbosity: VerbosityLevel.ERRORS });
      const { items } = await (await (await task.promise).getPage(1)).getTextContent();
      const found = items.find((item) => "str" in item && item.str.includes("EMT")) as {
        transform: number[];
        width: number;
      };
      const [a, b, , , x, y] = found.transform as [number, number, number, number, number, number];
      expect([a / size, b / size]).toEqual([expect.closeTo(Math.cos(turn), 4), expect.closeTo(Math.sin(turn), 4)]);
      expect(x + share * found.width * Math.cos(turn)).toBeCloseTo(200, 1);
      expect(y + share * found.width * Math.sin(turn)).toBeCloseTo(150, 1);
      await task.destroy();
    }
  });
});
