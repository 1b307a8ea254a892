import { expect, test } from "vitest";
import { standingDesk } from "./standing-desk.ts";

/** A remedy that moves wiring sideways, carried out from the finding's card and taken back. */
const standing = standingDesk({ query: "?sample=riverside-workshop", viewport: { width: 1440, height: 900 } });

test("a run beside the edge of a lower roof is moved out of its reach, and back", async () => {
  const { page } = standing.opened;
  await standing.desk.stage("Check");
  const inList = page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-8/ });
  await inList.click();
  const remedy = standing.desk.card.locator(".remedy", { hasText: "Move R-8 sideways" });
  await remedy.getByRole("button", { name: "Apply" }).click();
  await expect.poll(() => inList.textContent()).toMatch(/Clear/);
  await standing.desk.sheet.focus();
  await page.keyboard.press("Control+z");
  await expect.poll(() => inList.textContent()).toMatch(/Too close/);
}, 60_000);
