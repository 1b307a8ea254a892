import type { Locator } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { standingDesk } from "./standing-desk.ts";

/** Tags moved up and down on the profile of a run, by pointer and by keys. */
const standing = standingDesk({ query: "?sample=riverside-workshop", viewport: { width: 1440, height: 900 } });

let inList: Locator;
beforeAll(async () => {
  await standing.desk.stage("Check");
  inList = standing.opened.page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-2/ });
  await inList.click();
  await standing.opened.page.locator(".tag-handle").first().waitFor();
});

/** Takes the tag at the end of the run, where it is too close, and pulls it down. */
async function pullDown(): Promise<void> {
  const { page } = standing.opened;
  const box = (await page.locator(".tag-handle").last().boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y + 20, { steps: 4 });
  await page.mouse.move(x, y + 60, { steps: 4 });
}

test("a tag that is dragged down is one step, and Escape puts it back", async () => {
  const { page } = standing.opened;
  const place = () => page.locator(".tag-handle").last().getAttribute("style");
  const before = await place();
  await pullDown();
  // The profile follows before the hand lets go; the job is as it was.
  await expect.poll(place).not.toBe(before);
  expect(await inList.textContent()).toMatch(/Too close/);
  await page.keyboard.press("Escape");
  await page.mouse.up();
  await expect.poll(place).toBe(before);
  expect(await inList.textContent()).toMatch(/Too close/);

  await pullDown();
  await page.mouse.up();
  await expect.poll(() => inList.textContent()).toMatch(/Clear/);
  await standing.desk.sheet.focus();
  await page.keyboard.press("Control+z");
  await expect.poll(() => inList.textContent()).toMatch(/Too close/);
}, 60_000);

test("an arrow key lowers the tag the marker stands at", async () => {
  const { page } = standing.opened;
  await inList.click();
  await page.getByRole("slider", { name: /Place along R-2/ }).focus();
  await page.keyboard.press("End");
  for (let i = 0; i < 8; i++) await page.keyboard.press("ArrowDown");
  await expect.poll(() => inList.textContent()).toMatch(/Clear/);
  for (let i = 0; i < 8; i++) await page.keyboard.press("ArrowUp");
  await expect.poll(() => inList.textContent()).toMatch(/Too close/);
}, 60_000);
