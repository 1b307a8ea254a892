import { afterAll, beforeAll, expect, test } from "vitest";
import { DeskHands } from "./desk.ts";
import { type OpenedPage, openPage } from "./open-page.ts";

/** A remedy that moves wiring sideways, carried out from the finding's card and taken back. */
let opened: OpenedPage;
let hands: DeskHands;
beforeAll(async () => {
  opened = await openPage("?sample=riverside-workshop", { width: 1440, height: 900 });
  hands = new DeskHands(opened.page);
  opened.page.setDefaultTimeout(20_000);
  await hands.shown();
}, 90_000);
afterAll(() => opened?.close());

test("a run beside the edge of a lower roof is moved out of its reach, and back", async () => {
  const { page } = opened;
  await hands.stage("Check");
  const inList = page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-8/ });
  await inList.click();
  const remedy = hands.card.locator(".remedy", { hasText: "Move R-8 sideways" });
  await remedy.getByRole("button", { name: "Apply" }).click();
  await expect.poll(() => inList.textContent()).toMatch(/Clear/);
  await hands.sheet.focus();
  await page.keyboard.press("Control+z");
  await expect.poll(() => inList.textContent()).toMatch(/Too close/);
}, 60_000);
