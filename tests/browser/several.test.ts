import { expect, test } from "vitest";
import { standingDesk } from "./standing-desk.ts";

/** Wiring found by what it is and how high it is tagged, and changed in one step. */
const standing = standingDesk({ query: "?sample=riverside-workshop", viewport: { width: 1440, height: 900 } });

test("all MC cables tagged above 10 ft are lowered by a foot in one step, and come back in one", async () => {
  const { page } = standing.opened;
  await standing.desk.stage("Wiring");
  const several = page.locator(".several");
  await several.locator("summary").click();
  await standing.desk.choose(several, "Type", /^MC/);
  await standing.desk.fill(several, "Tagged above", "10'-0\"");
  const found = several.getByRole("status");
  await expect.poll(() => found.textContent()).toBe("1 found: R-11.");
  await standing.desk.fill(several, "By", "1'-0\"");
  await several.getByRole("button", { name: "Lower all" }).click();
  // Its tag was 10'-5": it is not above 10 ft any more.
  await expect.poll(() => found.textContent()).toBe("Nothing found.");
  const line = page.getByRole("listbox", { name: "Wiring" }).getByRole("option", { name: /R-11/ });
  await expect.poll(() => line.textContent()).toContain(`9'-5"`);
  await standing.desk.sheet.focus();
  await page.keyboard.press("Control+z");
  await expect.poll(() => found.textContent()).toBe("1 found: R-11.");
}, 60_000);
