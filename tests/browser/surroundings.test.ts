import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { DeskHands, SAMPLE_PDF } from "./desk.ts";
import { openPage } from "./open-page.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk();

describe("what comes from outside and what goes wrong there", () => {
  it("takes a drawing that is dropped on the page", async () => {
    await standing.opened.page.getByRole("heading", { name: "Underside" }).waitFor();
    const bytes = readFileSync(SAMPLE_PDF).toString("base64");
    const data = await standing.opened.page.evaluateHandle((text) => {
      const transfer = new DataTransfer();
      const content = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
      transfer.items.add(new File([content], "dropped.pdf", { type: "application/pdf" }));
      return transfer;
    }, bytes);
    for (const type of ["dragover", "drop"])
      await standing.opened.page.dispatchEvent(".drop-area", type, { dataTransfer: data });
    await standing.desk.press(/^Add 2 pages/);
    await standing.desk.shown();
  });

  it("says that it is not saved when the browser keeps nothing, and why", async () => {
    await standing.opened.page.evaluate(() => {
      const plain = IDBObjectStore.prototype.put;
      (window as unknown as { mend: () => void }).mend = () => {
        IDBObjectStore.prototype.put = plain;
      };
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
      };
    });
    await standing.desk.fill(standing.desk.drawer, "Name", "Full house");
    await standing.opened.page
      .locator(".foot")
      .getByText(/Not saved: this browser has no room left/)
      .waitFor();
    await standing.opened.page.evaluate(() => (window as unknown as { mend: () => void }).mend());
    await standing.desk.fill(standing.desk.drawer, "Name", "Room again");
    await standing.opened.page.locator(".foot").getByText("Saved", { exact: true }).waitFor();
    expect(standing.opened.problems).toEqual([]);
  });

  it("shows an error of its own as one, with the work to be saved first", async () => {
    await standing.opened.page.evaluate(() =>
      setTimeout(() => {
        throw new Error("made for the test");
      }),
    );
    const panel = standing.opened.page.getByRole("alertdialog", { name: "An error in the program" });
    await panel.getByText(/made for the test/).waitFor();
    const { name, bytes } = await standing.desk.download(() =>
      panel.getByRole("button", { name: "Save the job as a file" }).click(),
    );
    expect(name).toBe("Room again.underside");
    expect(bytes.length).toBeGreaterThan(readFileSync(SAMPLE_PDF).length);
    await panel.getByRole("button", { name: "Go on" }).click();
    await standing.opened.page.getByRole("heading", { name: "Room again" }).waitFor();
    expect(standing.opened.problems.filter((problem) => !problem.includes("made for the test"))).toEqual([]);
  });

  it("opens an issued sheet again with the job inside it, and nothing lost", async () => {
    await standing.opened.page.goto(`${standing.opened.address}?sample=riverside-workshop`);
    await standing.desk.shown();
    await standing.desk.stage("Issue");
    const issued = await standing.desk.download(() => standing.desk.press(/^Issue$/, standing.desk.drawer));
    const json = await standing.desk.download(() => standing.desk.press("JSON", standing.desk.drawer));
    const other = await openPage();
    try {
      const hands = new DeskHands(other.page);
      await hands.pick(other.page.getByRole("button", { name: "Open drawings" }), {
        name: issued.name,
        mimeType: "application/pdf",
        buffer: Buffer.from(issued.bytes),
      });
      await other.page.getByRole("heading", { name: "Riverside Workshop" }).waitFor();
      await hands.shown();
      await hands.stage("Issue");
      const again = await hands.download(() => hands.press("JSON", hands.drawer));
      expect(Buffer.compare(again.bytes, json.bytes)).toBe(0);
      expect(other.problems).toEqual([]);
    } finally {
      await other.close();
    }
  });
});
