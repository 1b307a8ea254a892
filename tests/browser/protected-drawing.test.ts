import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type DeskHands, SAMPLE_PDF } from "./desk.ts";
import type { OpenedPage } from "./open-page.ts";
import { standingDesk } from "./standing-desk.ts";

const hasQpdf = !spawnSync("qpdf", ["--version"]).error;
let opened: OpenedPage;
let desk: DeskHands;
standingDesk((...given) => {
  [opened, desk] = given;
});

/** The sample's drawing, locked by an independent program with AES-256. */
function locked(password: string): Buffer {
  const folder = mkdtempSync(join(tmpdir(), "underside-locked-"));
  try {
    const path = join(folder, "locked.pdf");
    spawnSync("qpdf", ["--encrypt", password, "owner", "256", "--", SAMPLE_PDF, path]);
    return readFileSync(path);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

describe.skipIf(!hasQpdf)(
  "a drawing protected by a password (made with qpdf; skipped where it is not installed)",
  () => {
    it("asks, says when it is the wrong one, and opens with the right one", async () => {
      await desk.pick(opened.page.getByRole("button", { name: "Open drawings" }), {
        name: "locked.pdf",
        mimeType: "application/pdf",
        buffer: locked("ellowmere"),
      });
      const field = opened.page.getByLabel(/protected by a password/);
      await field.fill("wrong");
      await field.press("Enter");
      await opened.page.getByText(/not the password of this drawing/).waitFor();
      await field.fill("ellowmere");
      await field.press("Enter");
      await desk.press(/^Add 2 pages/);
      await desk.shown();
    });

    it("is issued with its password, its own bytes in front", async () => {
      await expect.poll(() => opened.page.locator("[data-live=check]").count(), { timeout: 20_000 }).toBeGreaterThan(0);
      await desk.stage("Issue");
      const { bytes } = await desk.download(() => desk.press(/^Issue$/, desk.drawer));
      const folder = mkdtempSync(join(tmpdir(), "underside-locked-"));
      try {
        const path = join(folder, "issued.pdf");
        const { writeFileSync } = await import("node:fs");
        writeFileSync(path, bytes);
        const checked = spawnSync("qpdf", ["--password=ellowmere", "--check", path], { encoding: "utf8" });
        expect(`${checked.stdout}${checked.stderr}`).toMatch(/No syntax or stream encoding errors found/);
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
      expect(opened.problems).toEqual([]);
    });
  },
);
