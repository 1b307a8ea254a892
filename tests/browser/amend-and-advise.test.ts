import { expect, test } from "vitest";
import type { DeskHands } from "./desk.ts";
import type { OpenedPage } from "./open-page.ts";
import { standingDesk } from "./standing-desk.ts";

/** Local amendments and roof fasteners recorded on the screen, and what the check then says of them. */
let opened: OpenedPage;
let hands: DeskHands;
standingDesk(
  (...given) => {
    [opened, hands] = given;
  },
  { query: "?sample=riverside-workshop", viewport: { width: 1440, height: 900 } },
);

const type = async (name: string, text: string): Promise<void> => {
  await opened.page.getByRole("textbox", { name, exact: true }).last().fill(text);
  await opened.page.keyboard.press("Enter");
};

test("a larger clearance is asked for everywhere, with its authority", async () => {
  const { page } = opened;
  await hands.stage("Sheet");
  await page.getByRole("button", { name: "Larger clearance" }).click();
  await type("Larger clearance", '2"');
  await hands.stage("Check");
  await hands.drawer.getByText(/about the job itself/).click();
  await hands.drawer.getByText("needs an authority").waitFor();
  await hands.stage("Sheet");
  await type("It rests on", "Ordinance 7");
  const amendment = page.locator(".amendment");
  await amendment.getByRole("textbox", { name: "By whose decision" }).fill("Town of Inventedville");
  await page.keyboard.press("Enter");
  await hands.stage("Check");
  await hands.drawer
    .getByText(/Clearance 2", where the edition itself asks for 1 1\/2".*Town of Inventedville/)
    .waitFor();
  expect(await hands.drawer.getByText("needs an authority").count()).toBe(0);
  await hands.drawer
    .getByText(/; 2" required/)
    .first()
    .waitFor();
}, 60_000);

test("an exception is added by keyboard, and applies once its reason and authority are recorded", async () => {
  const { page } = opened;
  await hands.stage("Sheet");
  const press = async (name: string, key = "Enter") => {
    await page.getByRole("button", { name, exact: true }).last().focus();
    await page.keyboard.press(key);
  };
  await press("Add an exception");
  const amendment = page.locator(".amendment").last();
  await type("Added exception", "EMT under a slab");
  await type("Section or ordinance", "Ordinance 7, paragraph 2");
  await amendment.getByRole("radio", { name: "Both" }).focus();
  await page.keyboard.press("Space");
  await amendment.getByRole("checkbox", { name: "EMT", exact: true }).focus();
  await page.keyboard.press("Space");
  await amendment.getByRole("button", { name: /Another condition/ }).focus();
  await page.keyboard.press("Enter");
  await page.getByRole("option", { name: "Concrete on the deck" }).focus();
  await page.keyboard.press("Enter");
  await type("At least", '3"');
  await hands.stage("Check");
  await hands.drawer
    .getByText(/"EMT under a slab", needs an authority/)
    .first()
    .waitFor();
  await hands.stage("Sheet");
  await type("It rests on", "Ordinance 7");
  await type("By whose decision", "Town of Inventedville");
  await hands.stage("Check");
  await hands.drawer.getByText(/Exception added: EMT under a slab \(Ordinance 7, paragraph 2\)/).waitFor();
  await hands.stage("Sheet");
  await press("Remove this amendment");
  expect(await page.locator(".amendment").count()).toBe(1);
}, 60_000);

test("recorded fasteners give advice on the card and below the findings, and the page stays in its place", async () => {
  const { page } = opened;
  await hands.stage("Roof");
  await page
    .getByRole("listbox", { name: "Deck areas" })
    .getByRole("option", { name: /Store roof/ })
    .click();
  await page.getByRole("button", { name: "Record the roof fasteners" }).click();
  await hands.card.getByText(/cannot be told\. Missing: the length of the fastener/).waitFor();
  await type("Length of the fastener below its head", '6"');
  await type("Thickness of the deck's sheet", '0.036"');
  await hands.card.getByText("Bottom flange").click();
  // 6 - 0.036 = 5.964 in.
  await hands.card.getByText(/reach 5\.964" .* beyond the code distance of 2"/).waitFor();
  expect((await hands.card.boundingBox())?.y).toBe(0);
  await hands.stage("Check");
  await hands.drawer.getByRole("heading", { name: "Advice, beside the code" }).waitFor();
  await hands.drawer.getByText(/The fasteners of Store roof reach/).waitFor();
}, 60_000);
