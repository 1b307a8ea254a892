import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { SAMPLE_PDF } from "./desk.ts";
import { standingDesk } from "./standing-desk.ts";

const hasQpdf = !spawnSync("qpdf", ["--version"]).error;
const standing = standingDesk();

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
      await standing.desk.pick(standing.opened.page.getByRole("button", { name: "Open drawings" }), {
        name: "locked.pdf",
        mimeType: "application/pdf",
        buffer: locked("ellowmere"),
      });
      const field = standing.opened.page.getByLabel(/protected by a password/);
      await field.fill("wrong");
      await field.press("Enter");
      await standing.opened.page.getByText(/not the password of this drawing/).waitFor();
      await field.fill("ellowmere");
      await field.press("Enter");
      await standing.desk.press(/^Add 2 pages/);
      await standing.desk.shown();
    });

    it("is issued with its password, its own bytes in front", async () => {
      await expect
        .poll(() => standing.opened.page.locator("[data-live=check]").count(), { timeout: 20_000 })
        .toBeGreaterThan(0);
      await standing.desk.stage("Issue");
      const { bytes } = await standing.desk.download(() => standing.desk.press(/^Issue$/, standing.desk.drawer));
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
      expect(standing.opened.problems).toEqual([]);
    });
  },
);
