import { expect, test } from "vitest";
import { CEILING } from "./desk.ts";
import { standingDesk } from "./standing-desk.ts";

/** Notes of the reviewer's own: written by pointer and by keys, changed in the card, found in the list. */
const standing = standingDesk({ query: "?sample=riverside-workshop", viewport: { width: 1440, height: 900 } });

test("a note is written by pointer, changed in its card, found in the list, and taken back", async () => {
  const { opened, desk } = standing;
  const { page } = opened;
  // A-131, the reflected ceiling plan, is what the sample opens with.
  await desk.stage("Check");
  await page.getByRole("button", { name: /Write notes/ }).click();
  await desk.click(CEILING, [1200, 1500]);
  await desk.click(CEILING, [1300, 1560]);
  const typed = page.getByLabel("Words of the note");
  await expect.poll(() => typed.evaluate((field) => field === document.activeElement)).toBe(true);
  await typed.fill("Which circuit is this?");
  await typed.press("Enter");
  await expect.poll(() => desk.card.locator("h2").textContent()).toBe("N-1");
  const notes = page.getByRole("listbox", { name: "Notes" });
  await expect.poll(() => notes.getByRole("option").count()).toBe(1);
  const words = desk.card.getByLabel("What it says");
  await words.fill("Which circuit is this?\n<b>See LP-2</b>");
  await words.press("Control+Enter");
  await expect.poll(() => notes.getByRole("option").textContent()).toContain("<b>See LP-2</b>");
  await desk.fill(desk.card, "About", "R-1");
  await expect.poll(() => notes.getByRole("option").textContent()).toContain("R-1");
  await desk.sheet.focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press("Control+z");
  await expect.poll(() => page.getByText("No note yet.").count()).toBe(1);
});

test("a note is written by keys alone, where room is found for it", async () => {
  const { opened, desk } = standing;
  const { page } = opened;
  await desk.stage("Check");
  await desk.sheet.focus();
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");
  await page.keyboard.press("Shift+N");
  const typed = page.locator(".typed input");
  await typed.fill("@900, 900");
  await typed.press("Enter");
  await expect.poll(() => page.getByRole("status").filter({ hasText: "N-1" }).count()).toBeGreaterThan(0);
  await typed.fill("By keys alone");
  await typed.press("Enter");
  const option = page.getByRole("listbox", { name: "Notes" }).getByRole("option", { name: /N-1/ });
  await expect.poll(() => option.allTextContents().then((all) => all.join())).toContain("By keys alone");
  await expect.poll(() => desk.card.locator("h2").textContent()).toBe("N-1");
});
