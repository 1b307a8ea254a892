import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
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
import { issueFile } from "../../src/issue/issue-sheets.ts";
import { fontBytes } from "../issue/font-bytes.ts";
import { signedDrawing } from "../pdf/write/signed-drawing.ts";
import { SAMPLE_PDF } from "./desk.ts";
import { RUNS, SAMPLE } from "./sample-job.ts";
import { seriousFaults } from "./serious-faults.ts";
import { standingDesk } from "./standing-desk.ts";

const [MOVED, GONE, ANSWERED] = RUNS;
const idOf = (label: string): string =>
  Object.entries(SAMPLE.elements).find(([, element]) => element.label === label)![0];

/** The sample's issued drawing after another program (pdf-lib) moved a run, deleted one and answered a third. */
async function workedOn(): Promise<Buffer> {
  const bytes = new Uint8Array(readFileSync(SAMPLE_PDF));
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const options = { fonts: fontBytes, now: new Date("2026-11-25T10:00:00Z"), author: "", report: "none" } as const;
  const issued = await issueFile(SAMPLE, checkJob(SAMPLE), { sha256, bytes }, options);
  if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
  const document = await PDFDocument.load(issued.value.bytes, { updateMetadata: false });
  const find = (label: string) => {
    for (const page of document.getPages()) {
      const list = page.node.Annots();
      for (let at = 0; list && at < list.size(); at++) {
        const dict = list.lookup(at, PDFDict);
        const name = dict.lookupMaybe(PDFName.of("NM"), PDFString, PDFHexString)?.decodeText();
        if (name === `underside:element:${idOf(label)}`) return { list, at, dict, ref: list.get(at) as PDFRef };
      }
    }
    throw new Error(`no ${label}`);
  };
  const { dict } = find(MOVED!.label);
  const rect = dict.lookup(PDFName.of("Rect"), PDFArray).asArray();
  dict.set(
    PDFName.of("Rect"),
    document.context.obj(rect.map((v, i) => (v as PDFNumber).asNumber() + (i % 2 === 0 ? 12 : 0))),
  );
  const gone = find(GONE!.label);
  gone.list.remove(gone.at);
  const { list, ref } = find(ANSWERED!.label);
  const answer = document.context.obj({ Type: "Annot", Subtype: "Text", Rect: [0, 0, 20, 20], IRT: ref });
  answer.set(PDFName.of("T"), PDFHexString.fromText("K. Example"));
  answer.set(PDFName.of("Contents"), PDFHexString.fromText("<b>Lowered</b> on site"));
  list.push(document.context.register(answer));
  return Buffer.from(await document.save());
}

const standing = standingDesk();
const dialog = () => standing.opened.page.getByRole("alertdialog");
const undo = () => standing.opened.page.locator('button[aria-label^="Undo"]').first();

/** Colours of a button that was pressed change for a moment. */
const expectNoFaults = () => expect.poll(() => seriousFaults(standing.opened.page), { timeout: 20_000 }).toEqual([]);

describe("an issued PDF that another program worked on", () => {
  it("tells what was done, takes what is wanted, each as one step to be undone, and leaves the rest", async () => {
    const { opened, desk } = standing;
    await desk.pick(opened.page.getByRole("button", { name: "Open a job file" }), {
      name: "back.pdf",
      mimeType: "application/pdf",
      buffer: await workedOn(),
    });
    await dialog().getByRole("heading", { name: "back.pdf was changed since it was issued" }).waitFor();
    // An answer is words, whatever they look like.
    await dialog().getByText("K. Example answered the mark of", { exact: false }).getByText("<b>Lowered</b>").waitFor();
    await expectNoFaults();
    expect(await undo().isDisabled()).toBe(true);
    await desk.press(`Move it there: ${MOVED!.label}`, dialog());
    await dialog().getByText("Moved in the job.").waitFor();
    await desk.press(`Delete it: ${GONE!.label}`, dialog());
    await dialog().getByText("Deleted from the job.").waitFor();
    await desk.press("Close", dialog());
    await dialog().waitFor({ state: "detached" });
    for (const _ of [MOVED, GONE]) {
      await expect.poll(() => undo().isDisabled()).toBe(false);
      await undo().click();
    }
    await expect.poll(() => undo().isDisabled()).toBe(true);
    expect(opened.problems).toEqual([]);
  });
});

describe("a drawing that its author certified against changes", () => {
  it("is refused with the reason, and issued as an unsigned copy when one is chosen", async () => {
    const { opened, desk } = standing;
    await desk.press("Job menu");
    await opened.page.getByRole("menuitem", { name: "All jobs" }).click();
    const original = await signedDrawing({ level: 1 });
    await desk.pick(opened.page.getByRole("button", { name: "Open drawings" }), {
      name: "sealed.pdf",
      mimeType: "application/pdf",
      buffer: Buffer.from(original),
    });
    await desk.press(/^Add 2 pages/);
    await desk.shown();
    await desk.stage("Issue");
    await desk.press(/^Issue$/, desk.drawer);
    await desk.drawer.getByText(/certified by its author, who allows no changes/).waitFor();
    await expectNoFaults();
    await desk.take(desk.drawer, "Copies", "If signed, an unsigned copy");
    const { bytes } = await desk.download(() => desk.press(/^Issue$/, desk.drawer));
    await desk.drawer.getByText(/is a copy without the signatures of the drawing/).waitFor();
    expect(Buffer.from(bytes.subarray(0, original.length)).equals(Buffer.from(original))).toBe(true);
    const copy = await PDFDocument.load(bytes);
    expect(copy.catalog.has(PDFName.of("Perms"))).toBe(false);
    await expectNoFaults();
    expect(opened.problems).toEqual([]);
  });
});
