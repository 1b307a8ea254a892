import { describe, expect, it } from "vitest";
import { DeskHands, SAMPLE_PDF } from "./desk.ts";
import { openPage } from "./open-page.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk();

const saved = () => standing.opened.page.locator(".foot").getByText("Saved", { exact: true });

describe("what is kept in the browser", () => {
  it("survives loading the page again: job, drawing, and what was typed a moment ago", async () => {
    await standing.desk.pick(standing.opened.page.getByRole("button", { name: "Open drawings" }), SAMPLE_PDF);
    await standing.desk.press(/^Add 2 pages/);
    await standing.desk.fill(standing.desk.drawer, "Name", "Kept job");
    await standing.desk.fill(standing.desk.card, "As the sheet states it", `1/8" = 1'-0"`);
    await saved().waitFor();
    await standing.opened.page.reload();
    await standing.opened.page.getByRole("heading", { name: "Kept job" }).waitFor();
    await standing.desk.shown();
    await standing.opened.page.getByRole("listbox", { name: "Sheets" }).getByText(`1/8" = 1'-0"`).waitFor();
  });

  it("says Saved only once the transaction has completed", async () => {
    // The first put hangs until it is let go: meanwhile nothing may claim to be saved.
    await standing.opened.page.evaluate(() => {
      const plain = IDBObjectStore.prototype.put;
      const held = window as unknown as { letGo: () => void };
      IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...args: Parameters<IDBObjectStore["put"]>) {
        IDBObjectStore.prototype.put = plain;
        const request = plain.apply(this, args);
        // A transaction stays open while requests are made on it: keep it busy.
        let open = true;
        held.letGo = () => {
          open = false;
        };
        const spin = () => {
          if (open) this.get("nothing").onsuccess = spin;
        };
        spin();
        return request;
      };
    });
    await standing.desk.fill(standing.desk.drawer, "By whose decision", "somebody");
    await standing.opened.page.locator(".foot").getByText("Saving…").waitFor();
    await standing.opened.page.waitForTimeout(1_500);
    expect(await saved().count()).toBe(0);
    await standing.opened.page.evaluate(() => (window as unknown as { letGo: () => void }).letGo());
    await saved().waitFor();
  });

  it("lists every job on the start page, and opens the one chosen", async () => {
    await standing.desk.press("Job menu");
    await standing.opened.page.getByRole("menuitem", { name: "New job" }).click();
    await standing.desk.fill(standing.desk.drawer, "Name", "Second job");
    await saved().waitFor();
    await standing.desk.press("Job menu");
    await standing.opened.page.getByRole("menuitem", { name: "All jobs" }).click();
    await standing.opened.page
      .getByRole("button", { name: /Second job/ })
      .first()
      .waitFor();
    await standing.opened.page.getByRole("button", { name: /^Kept job/ }).click();
    await standing.opened.page.getByRole("heading", { name: "Kept job" }).waitFor();
  });

  it("asks for a drawing that is not here, and knows it by its content under another name", async () => {
    const file = await standing.desk.download(() => standing.desk.stage("Issue").then(() => saveWithoutDrawings()));
    expect(file.name).toBe("Kept job.underside");
    // Another browser, which has never seen the drawing.
    const other = await openPage();
    try {
      const hands = new DeskHands(other.page);
      await hands.pick(other.page.getByRole("button", { name: "Open a job file" }), {
        name: file.name,
        mimeType: "application/octet-stream",
        buffer: Buffer.from(file.bytes),
      });
      await other.page
        .getByText(/riverside-workshop\.pdf is not at hand/)
        .first()
        .waitFor();
      const { readFileSync } = await import("node:fs");
      await hands.pick(other.page.getByRole("button", { name: "Choose the file" }).first(), {
        name: "renamed since.pdf",
        mimeType: "application/pdf",
        buffer: readFileSync(SAMPLE_PDF),
      });
      await hands.shown();
      expect(await other.page.getByRole("listbox", { name: "Sheets" }).getByRole("option").count()).toBe(2);
      expect(other.problems).toEqual([]);
    } finally {
      await other.close();
    }
  });

  async function saveWithoutDrawings(): Promise<void> {
    await standing.desk.drawer.getByText("With the drawings inside").click();
    await standing.desk.press("Save the job file", standing.desk.drawer);
  }

  it("went wrong nowhere", () => {
    expect(standing.opened.problems).toEqual([]);
  });
});
