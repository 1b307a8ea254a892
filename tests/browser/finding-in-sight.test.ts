import { afterAll, beforeAll, expect, test } from "vitest";
import { DeskHands, FRAMING } from "./desk.ts";
import { type OpenedPage, openPage } from "./open-page.ts";

let opened: OpenedPage;

beforeAll(async () => {
  opened = await openPage("?sample=riverside-workshop");
}, 180_000);
afterAll(() => opened?.close());

test("a finding on another sheet is brought into reading distance, beside the card that comes with it", async () => {
  const { page } = opened;
  const sheet = page.locator(".sheet-host");
  const desk = new DeskHands(page);
  await desk.openSheet({ ...FRAMING, title: /Roof framing plan/ });
  await expect.poll(() => sheet.getAttribute("aria-label")).toMatch(/Roof framing plan/);
  await desk.stage("Check");
  await page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-2/ }).click();
  await expect.poll(() => sheet.getAttribute("aria-label")).toMatch(/Reflected ceiling plan/);
  // Scale, and where the page's upper left corner stands, CSS pixels; where R-2 comes nearest the deck, as the sample's job has it.
  const view = async () => ((await sheet.getAttribute("data-view")) ?? "").split(" ").map(Number);
  await expect.poll(async () => (await view())[0]).toBeGreaterThan(1.5);
  await page.waitForTimeout(500);
  const [scale = 0, left = 0] = await view();
  const card = await page.locator(".card").boundingBox();
  const host = await sheet.boundingBox();
  const x = (host?.x ?? 0) + left + 948 * scale;
  expect(scale).toBeGreaterThan(1.5);
  expect(x).toBeGreaterThan(host?.x ?? 0);
  expect(x).toBeLessThan(card?.x ?? 0);
  expect(opened.problems).toEqual([]);
});

test("the handles of what was selected before are gone from the sheet with it", async () => {
  const { page } = opened;
  const desk = new DeskHands(page);
  const fit = page.getByRole("button", { name: "Fit", exact: true });
  // The topmost canvas of the sheet: handles, crosshair and whatever is half done. How many of its pixels show anything.
  const drawn = () =>
    page
      .locator(".sheet-host canvas")
      .last()
      .evaluate((canvas: HTMLCanvasElement) => {
        const { data } = canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height);
        return data.filter((value, i) => i % 4 === 3 && value > 0).length;
      });
  await desk.openSheet({ ...FRAMING, title: /Roof framing plan/ });
  await desk.stage("Roof");
  await page
    .getByRole("listbox", { name: "Deck areas" })
    .getByRole("option", { name: /Canopy/ })
    .click();
  await fit.click();
  await expect.poll(drawn).toBeGreaterThan(0);
  await desk.stage("Check");
  await page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-2/ }).click();
  await expect.poll(drawn).toBe(0);
  await fit.click();
  await desk.settled();
  expect(await drawn()).toBe(0);
  expect(opened.problems).toEqual([]);
});
