import { createHash } from "node:crypto";
import { PDFDocument, PDFName } from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { issueFile } from "../../src/issue/issue-sheets.ts";
import { issueMessages } from "../../src/issue/messages.ts";
import { inspectPdf } from "../../src/pdf/write/inspect-pdf.ts";
import { fontBytes } from "./font-bytes.ts";
import { sampleJob } from "./sample-job.ts";

/** A drawing whose metadata says that it keeps an archival standard, in either of the two ways XMP is written. */
const claiming = async (claim: string): Promise<Uint8Array> => {
  const document = await PDFDocument.create({ updateMetadata: false });
  for (let i = 0; i < 2; i++) document.addPage([1224, 792]);
  const xmp = `<?xpacket begin=""?><rdf:RDF xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/"><rdf:Description ${claim}</rdf:RDF>`;
  const metadata = document.context.stream(xmp, { Type: "Metadata", Subtype: "XML" });
  document.catalog.set(PDFName.of("Metadata"), document.context.register(metadata));
  return document.save();
};
const asElements = (part: number, level: string) =>
  `><pdfaid:part>${part}</pdfaid:part><pdfaid:conformance>${level}</pdfaid:conformance></rdf:Description>`;
const asAttributes = (part: number, level: string) => `pdfaid:part="${part}" pdfaid:conformance='${level}'/>`;

const told = async (bytes: Uint8Array): Promise<string[]> => {
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const sheets = Object.entries(sampleJob().sheets).map(
    ([id, sheet], i) => [id, { ...sheet, page: i + 1, file: { sha256, name: "a.pdf", bytes: bytes.length } }] as const,
  );
  const job = { ...sampleJob(), sheets: Object.fromEntries(sheets) };
  const options = { fonts: fontBytes, now: new Date("2026-11-25T10:00:00Z"), author: "", report: "none" } as const;
  const issued = await issueFile(job, checkJob(job), { sha256, bytes }, options);
  if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
  return issued.value.notes.map(({ code, params }) => issueMessages[code]!(params, "a.pdf"));
};

describe("a drawing that says it is made for the archive", () => {
  it.each([asElements, asAttributes])("is known by its metadata", async (written) => {
    const facts = inspectPdf(await claiming(written(2, "B")));
    expect(facts.ok && facts.value.archival).toEqual({ part: 2, level: "B" });
  });

  it("is issued, and what its standard does not have is said", async () => {
    const [one] = await told(await claiming(asElements(1, "B")));
    expect(one).toMatch(/no longer PDF\/A-1b.*on layers.*show through.*as a file/);
    const [two] = await told(await claiming(asElements(2, "U")));
    expect(two).toMatch(/no longer PDF\/A-2u/);
    expect(two).not.toMatch(/layers|show through/);
  });

  it("stays what it is where its standard has all that is added, and nothing is said of other drawings", async () => {
    expect(await told(await claiming(asElements(3, "B")))).toEqual([]);
    expect(await told(await claiming("/>"))).toEqual([]);
  });
});
