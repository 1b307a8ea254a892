import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PDFDocument, PDFHexString, PDFName } from "@cantoo/pdf-lib";
import { getDocument, type PDFDocumentProxy } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { briefPdf } from "../../src/issue/brief/brief-pdf.ts";
import { handedOn } from "../../src/issue/handed-on.ts";
import { type IssueOptions, issueFile, reportPdf } from "../../src/issue/issue-sheets.ts";
import type { Job } from "../../src/job/schema.ts";
import { fontBytes } from "./font-bytes.ts";
import { sampleJob } from "./sample-job.ts";

const NOW = new Date("2026-11-25T10:00:00Z");
const OPTIONS: IssueOptions = { fonts: fontBytes, now: NOW, author: "P. Ternhill", report: "with" };

async function opened<T>(bytes: Uint8Array, ask: (document: PDFDocumentProxy) => Promise<T>): Promise<T> {
  const document = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  try {
    return await ask(document);
  } finally {
    await document.destroy();
  }
}

type Node = { role?: string; alt?: string; children?: Node[] };

/** Roles in the order in which a screen reader meets them, page by page. */
const rolesOf = (document: PDFDocumentProxy): Promise<Node[]> =>
  Promise.all(
    Array.from({ length: document.numPages }, async (_, i) => {
      const tree = (await (await document.getPage(i + 1)).getStructTree()) as Node | null;
      const under = (node: Node): Node[] => [node, ...(node.children ?? []).flatMap(under)];
      return tree ? under(tree) : [];
    }),
  ).then((pages) => pages.flat());

const linksOn = async (document: PDFDocumentProxy, number: number) =>
  (await (await document.getPage(number)).getAnnotations()).filter(({ subtype }) => subtype === "Link");

/** The page a link leads to, counted from 1. */
async function leadsTo(document: PDFDocumentProxy, dest: unknown): Promise<number> {
  const place = typeof dest === "string" ? await document.getDestination(dest) : (dest as unknown[]);
  return 1 + (await document.getPageIndex((place as never[])[0]!));
}

/** A drawing of two pages that has bookmarks and, for its pages, labels of its own. */
async function drawing(): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  for (let i = 0; i < 2; i++) document.addPage([1224, 792]);
  const { context, catalog } = document;
  const root = context.obj({ Type: "Outlines", Count: 2 });
  const rootRef = context.register(root);
  const items = document
    .getPages()
    .map((page, i) =>
      context.obj({ Title: PDFHexString.fromText(`Sheet ${i + 1}`), Parent: rootRef, Dest: [page.ref, "Fit"] }),
    );
  const refs = items.map((item) => context.register(item));
  items[0]!.set(PDFName.of("Next"), refs[1]!);
  items[1]!.set(PDFName.of("Prev"), refs[0]!);
  root.set(PDFName.of("First"), refs[0]!);
  root.set(PDFName.of("Last"), refs[1]!);
  catalog.set(PDFName.of("Outlines"), rootRef);
  catalog.set(
    PDFName.of("PageLabels"),
    context.obj({ Nums: [0, { S: "D", St: 201, P: PDFHexString.fromText("S-") }] }),
  );
  return document.save();
}

function jobOn(bytes: Uint8Array): { job: Job; sha256: string } {
  const job = sampleJob();
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const sheets = Object.entries(job.sheets).map(([id, sheet]) => {
    return [id, { ...sheet, file: { sha256, name: "tern-street.pdf", bytes: bytes.length } }] as const;
  });
  return { job: { ...job, sheets: Object.fromEntries(sheets) }, sha256 };
}

const valueIn = <T>(made: { ok: true; value: T } | { ok: false; problems: readonly unknown[] }): T => {
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
};

describe("the report as a file of its own", async () => {
  const job = sampleJob();
  const result = checkJob(job);
  const report = valueIn(await reportPdf(job, result, OPTIONS));
  const numbered = result.findings.filter(({ number }) => number !== null);

  it("says what it is, by whom, of when and in which language (ISO 32000-2, 14.3 and 14.9.2)", () =>
    opened(report, async (document) => {
      const { info, metadata } = await document.getMetadata();
      expect(info).toMatchObject({
        Title: "Tern Street Workshop: wiring under roof decks",
        Author: "P. Ternhill",
        Language: "en",
      });
      expect(info).toMatchObject({ CreationDate: "D:20261125100000Z" });
      expect(metadata?.get("dc:title")).toBe("Tern Street Workshop: wiring under roof decks");
      expect(await document.getViewerPreferences()).toMatchObject({ DisplayDocTitle: true });
      expect(await document.getMarkInfo()).toMatchObject({ Marked: true });
    }));

  it("is read in order by a screen reader: headings, tables with heads, lists, and figures in words", () =>
    opened(report, async (document) => {
      const nodes = await rolesOf(document);
      const roles = nodes.map(({ role }) => role);
      expect(roles.filter((role) => /^H\d$/.test(role ?? "")).slice(0, 4)).toEqual(["H1", "H2", "H2", "H3"]);
      // An entry is told on every page it is on; its heading is on the first.
      expect(roles.filter((role) => role === "H3")).toHaveLength(numbered.length);
      for (const role of ["Table", "TR", "TH", "TD", "L", "LI", "LBody", "P", "Link"]) expect(roles).toContain(role);
      const figures = nodes.filter(({ role }) => role === "Figure");
      expect(figures.length).toBeGreaterThan(numbered.length);
      for (const { alt } of figures) expect(alt).toMatch(/\w+ .*\.$/);
    }));

  it("has a bookmark for every part and every finding, with its verdict", () =>
    opened(report, async (document) => {
      const [whole, ...others] = await document.getOutline();
      expect(others).toEqual([]);
      expect(whole!.title).toBe("Report");
      const items: readonly { title: string; items: readonly { title: string }[] }[] = whole!.items;
      expect(items.map(({ title }) => title)).toEqual(
        expect.arrayContaining(["Summary", "Findings that need attention", "Assumptions and tolerances"]),
      );
      const findings = items.find(({ title }) => title === "Findings that need attention")!.items;
      expect(findings.map(({ title }) => title.split(":")[0])).toEqual(
        numbered.map(({ number, element }) => `${number}  ${element}`),
      );
    }));

  it("leads from every number to its entry, and nowhere else", () =>
    opened(report, async (document) => {
      const outline = (await document.getOutline())[0]!.items.flatMap(({ items }) => items);
      const seen = new Set<string>();
      for (let n = 1; n <= document.numPages; n++) {
        for (const { dest, contentsObj } of await linksOn(document, n)) {
          const number = String(dest).replace("finding-", "");
          expect(contentsObj.str).toContain(`Finding ${number}`);
          const entry = outline.find(({ title }: { title: string }) => title.startsWith(`${number}  `))!;
          expect(await leadsTo(document, dest)).toBe(await leadsTo(document, entry.dest));
          seen.add(number);
        }
      }
      expect([...seen].map(Number).sort((a, b) => a - b)).toEqual(numbered.map(({ number }) => number));
    }));
});

const checkers = [
  ["qpdf", "--check"],
  ["mutool", "info"],
] as const;

describe("other readers", () => {
  it.each(checkers)("%s finds nothing wrong with the report (skipped without it)", async (program, ask) => {
    if (spawnSync(program, ["--version"]).error) return;
    const job = sampleJob();
    const folder = mkdtempSync(join(tmpdir(), "report-"));
    const file = join(folder, "report.pdf");
    writeFileSync(file, valueIn(await reportPdf(job, checkJob(job), OPTIONS)));
    const { status, stdout, stderr } = spawnSync(program, [ask, file], { encoding: "utf8" });
    rmSync(folder, { recursive: true });
    expect([status, `${stdout}${stderr}`.match(/warning|error:/gi)]).toEqual([0, null]);
  });
});

describe("the letter and the brief", () => {
  const job = sampleJob();
  it.each(["en", "es"] as const)(
    "the brief is tagged, in its language %s, with a bookmark for each area",
    async (language) => {
      const brief = valueIn(await briefPdf(job, fontBytes, { now: NOW, author: "" }, language));
      await opened(brief, async (document) => {
        const { info } = await document.getMetadata();
        expect(info).toMatchObject({ Language: language });
        expect((await rolesOf(document)).map(({ role }) => role)).toEqual(
          expect.arrayContaining(["H1", "H2", "Table"]),
        );
        const titles = (await document.getOutline())[0]!.items.map(({ title }) => title);
        expect(titles).toEqual(expect.arrayContaining(["Roof A", "Roof B", "Floor C", "Canopy D"]));
      });
    },
  );

  it("the letter has a bookmark for each comment", async () => {
    const result = checkJob(job);
    const letter = valueIn(
      await handedOn(job, result, { is: "comments", form: "pdf" }, { now: NOW, author: "" }, () => fontBytes),
    );
    await opened(letter as Uint8Array, async (document) => {
      const comments = (await document.getOutline())[0]!.items.find(({ title }) => title === "Comments");
      expect(comments!.items.length).toBeGreaterThan(2);
      expect(comments!.items[0]!.title).toMatch(/^1 /);
    });
  });
});

describe("the report behind a drawing", async () => {
  const bytes = await drawing();
  const { job, sha256 } = jobOn(bytes);
  const result = checkJob(job);
  const once = valueIn(await issueFile(job, result, { sha256, bytes }, OPTIONS)).bytes;
  const again = jobOn(once);
  const twice = valueIn(await issueFile(again.job, result, { sha256: again.sha256, bytes: once }, OPTIONS)).bytes;

  it.each([
    ["issued", once],
    ["issued again", twice],
  ])("keeps the drawing's labels and bookmarks, and puts its own behind them once: %s", (_, issued) =>
    opened(issued, async (document) => {
      const labels = await document.getPageLabels();
      expect(labels!.slice(0, 4)).toEqual(["S-201", "S-202", "R-1", "R-2"]);
      expect(labels).toHaveLength(document.numPages);
      const outline = await document.getOutline();
      expect(outline.map(({ title }) => title)).toEqual(["Sheet 1", "Sheet 2", "Report"]);
      expect(await leadsTo(document, outline[2]!.dest)).toBe(3);
      // Tags are for all pages of a document or none, and the drawing has none.
      expect(await (await document.getPage(3)).getStructTree()).toBeNull();
    }),
  );

  it.each([
    ["as annotations", once],
    ["issued again", twice],
    [
      "drawn into the pages",
      valueIn(await issueFile(job, result, { sha256, bytes }, { ...OPTIONS, flatten: true })).bytes,
    ],
  ])("leads from each number on the sheets to its entry and back, marks %s", (_, issued) =>
    opened(issued, async (document) => {
      const entries = new Map<string, number>();
      for (const page of [1, 2])
        for (const { dest, contentsObj, rect } of await linksOn(document, page)) {
          const number = /^Finding (\d+) in the report$/.exec(contentsObj.str)![1]!;
          expect(entries.has(number)).toBe(false);
          entries.set(number, await leadsTo(document, dest));
          expect(rect[2] - rect[0]).toBeGreaterThan(3);
        }
      const numbered = result.findings.filter(({ number }) => number !== null);
      expect(entries.size).toBe(numbered.length);
      const sheetOf = new Map(Object.keys(job.sheets).map((id) => [id, job.sheets[id]!.page]));
      for (const { number, sheet, at } of numbered) {
        const links = await linksOn(document, entries.get(String(number))!);
        const back = links.find(({ contentsObj }) => contentsObj.str === `Finding ${number} on its sheet`)!;
        expect(await leadsTo(document, back.dest)).toBe(sheetOf.get(sheet));
        const [x0, y0, x1, y1] = back.dest.slice(2) as [number, number, number, number];
        expect(at[0] > x0 && at[0] < x1 && at[1] > y0 && at[1] < y1).toBe(true);
      }
    }),
  );

  it("takes its links, labels and bookmarks along when it is issued without a report", async () => {
    const without = valueIn(
      await issueFile(again.job, result, { sha256: again.sha256, bytes: once }, { ...OPTIONS, report: "none" }),
    ).bytes;
    await opened(without, async (document) => {
      expect(await document.getPageLabels()).toEqual(["S-201", "S-202"]);
      expect((await document.getOutline()).map(({ title }) => title)).toEqual(["Sheet 1", "Sheet 2"]);
      for (const page of [1, 2]) expect(await linksOn(document, page)).toEqual([]);
    });
  });
});
