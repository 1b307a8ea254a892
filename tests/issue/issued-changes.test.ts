/** Issued PDFs that another program worked on. The other program is pdf-lib, which rewrites the whole file and knows nothing of ours. */
import { createHash } from "node:crypto";
import {
  PDFArray,
  PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  type PDFNumber,
  type PDFRef,
  PDFString,
} from "@cantoo/pdf-lib";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { issueFile, jobFromIssued } from "../../src/issue/issue-sheets.ts";
import { issueMessages } from "../../src/issue/messages.ts";
import type { Job } from "../../src/job/schema.ts";
import { fontBytes } from "./font-bytes.ts";
import { sampleJob } from "./sample-job.ts";

const NOW = new Date("2026-11-25T10:00:00Z");

const made = async () => {
  const document = await PDFDocument.create({ updateMetadata: false });
  for (let i = 0; i < 2; i++) document.addPage([1224, 792]);
  const bytes = await document.save();
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const sheets = Object.fromEntries(
    Object.entries(sampleJob().sheets).map(([id, sheet], i) => [
      id,
      { ...sheet, page: i + 1, file: { sha256, name: "tern.pdf", bytes: bytes.length } },
    ]),
  );
  const job: Job = { ...sampleJob(), sheets };
  const options = { fonts: fontBytes, now: NOW, author: "P. Ternhill", report: "with" } as const;
  const issued = await issueFile(job, checkJob(job), { sha256, bytes }, options);
  if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
  return issued.value.bytes;
};
const issued = await made();

interface Held {
  readonly page: number;
  readonly list: PDFArray;
  readonly at: number;
  readonly ref: PDFRef;
  readonly dict: PDFDict;
}

/** Changes the issued file by another program, which finds the annotation by its name. */
const changed = async (change: (document: PDFDocument, find: (name: string) => Held) => void): Promise<Uint8Array> => {
  const document = await PDFDocument.load(issued, { updateMetadata: false });
  change(document, (name) => {
    for (let page = 0; page < document.getPageCount(); page++) {
      const list = document.getPage(page).node.Annots();
      for (let at = 0; list && at < list.size(); at++) {
        const dict = list.lookup(at, PDFDict);
        const nm = dict.lookupMaybe(PDFName.of("NM"), PDFString, PDFHexString);
        if (nm?.decodeText() === name) return { page, list, at, ref: list.get(at) as PDFRef, dict };
      }
    }
    throw new Error(`no ${name}`);
  });
  return document.save();
};
const changesIn = (bytes: Uint8Array) => {
  const carried = jobFromIssued(bytes);
  if (!carried.ok || !carried.value) throw new Error("no job found");
  for (const { told } of carried.value.changes) {
    const words = issueMessages[told.code]!(told.params, told.where);
    expect(words).not.toContain("undefined");
    expect(words).not.toContain("underside:");
  }
  return carried.value.changes;
};
const shift = (dict: PDFDict, x: number, y: number): void => {
  const rect = dict
    .lookup(PDFName.of("Rect"), PDFArray)
    .asArray()
    .map((v) => (v as PDFNumber).asNumber());
  const moved = rect.map((v, i) => Math.round((v + (i % 2 === 0 ? x : y)) * 100) / 100);
  dict.set(PDFName.of("Rect"), dict.context.obj(moved));
};

describe("an issued PDF that comes back", () => {
  it("tells nothing when nobody changed a mark, also when it was written anew by another program", async () => {
    expect(changesIn(issued)).toEqual([]);
    expect(changesIn(await changed(() => {}))).toEqual([]);
  });

  it("offers to move what was moved, and only tells of a moved label or symbol", async () => {
    const bytes = await changed((_, find) => {
      shift(find("underside:element:r-1").dict, 12, -6);
      shift(find("underside:element:r-1#1").dict, 5, 5);
    });
    const changes = changesIn(bytes);
    expect(changes.map(({ told }) => told.code)).toEqual(["issue.mark-moved", "issue.mark-moved"]);
    const [whole, label] = changes;
    expect(whole!.offer).toMatchObject({ to: "move", table: "elements", id: "r-1" });
    expect(whole!.offer?.to === "move" && whole!.offer.by.map((v) => Math.round(v * 10) / 10)).toEqual([12, -6]);
    expect(label!.offer).toBe(undefined);
    expect(whole!.told.params.what).toBe("R-1");
  });

  it("offers to delete what was deleted", async () => {
    const bytes = await changed((_, find) => {
      const { list, at } = find("underside:element:b-1");
      list.remove(at);
    });
    expect(changesIn(bytes)).toEqual([
      {
        told: expect.objectContaining({ code: "issue.mark-deleted" }),
        offer: { to: "delete", table: "elements", id: "b-1" },
      },
    ]);
  });

  it("tells of words that were written over, and not of other line ends", async () => {
    const bytes = await changed((_, find) => {
      const { dict } = find("underside:element:r-1");
      const words = dict.lookup(PDFName.of("Contents"), PDFString, PDFHexString).decodeText();
      dict.set(PDFName.of("Contents"), PDFHexString.fromText(words.replaceAll("\n", "\r\n").replaceAll(" ", "  ")));
      find("underside:element:b-1").dict.set(PDFName.of("Contents"), PDFHexString.fromText("Moved – see sketch\t4"));
    });
    expect(changesIn(bytes)).toEqual([
      {
        told: expect.objectContaining({
          code: "issue.mark-edited",
          params: expect.objectContaining({ text: "Moved – see sketch\t4" }),
        }),
        offer: undefined,
      },
    ]);
  });

  it("offers an answer with its author, an answer to the answer, and a state", async () => {
    const bytes = await changed((document, find) => {
      const { list, ref } = find("underside:element:r-1");
      const answer = (to: PDFRef, entries: Record<string, string>): PDFRef => {
        const dict = document.context.obj({ Type: "Annot", Subtype: "Text", Rect: [0, 0, 20, 20], IRT: to });
        for (const [key, words] of Object.entries(entries)) dict.set(PDFName.of(key), PDFHexString.fromText(words));
        const made = document.context.register(dict);
        list.push(made);
        return made;
      };
      const first = answer(ref, { T: "K. Example", Contents: "Lowered on site – 12′", NM: "a1" });
      answer(first, { T: "P. Ternhill", Contents: "Thank you", NM: "a2" });
      answer(ref, { T: "K. Example", Contents: "", State: "Accepted", StateModel: "Review", NM: "a3" });
    });
    const changes = changesIn(bytes);
    expect(changes.map(({ offer }) => offer)).toEqual([
      { to: "answer", table: "elements", id: "r-1", author: "K. Example", text: "Lowered on site – 12′" },
      { to: "answer", table: "elements", id: "r-1", author: "P. Ternhill", text: "Thank you" },
      { to: "answer", table: "elements", id: "r-1", author: "K. Example", text: "Accepted" },
    ]);
  });

  it("keeps answers and marks of others when it is issued again", async () => {
    const bytes = await changed((document, find) => {
      const { list } = find("underside:element:r-1");
      list.push(
        document.context.register(
          document.context.obj({ Type: "Annot", Subtype: "Text", Rect: [0, 0, 20, 20], NM: PDFString.of("theirs") }),
        ),
      );
    });
    const carried = jobFromIssued(bytes);
    if (!carried.ok || !carried.value) throw new Error("no job found");
    const sha256 = createHash("sha256").update(bytes).digest("hex");
    const { job } = carried.value;
    const sheets = Object.fromEntries(
      Object.entries(job.sheets).map(([id, sheet]) => [
        id,
        { ...sheet, file: { ...sheet.file, sha256, bytes: bytes.length } },
      ]),
    );
    const onto: Job = { ...job, sheets };
    const again = await issueFile(
      onto,
      checkJob(onto),
      { sha256, bytes },
      { fonts: fontBytes, now: NOW, author: "", report: "none" },
    );
    if (!again.ok) throw new Error(JSON.stringify(again.problems));
    const document = await PDFDocument.load(again.value.bytes);
    const names = document.getPages().flatMap((page) => {
      const list = page.node.Annots();
      return list
        ? list
            .asArray()
            .map((_, i) => list.lookup(i, PDFDict).lookup(PDFName.of("NM"), PDFString, PDFHexString).decodeText())
        : [];
    });
    expect(names.filter((name) => name === "theirs")).toHaveLength(1);
    expect(new Set(names).size).toBe(names.length);
    expect(changesIn(again.value.bytes)).toEqual([]);
  });
});
