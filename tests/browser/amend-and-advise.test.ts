import { expect, test } from "vitest";
import { standingDesk } from "./standing-desk.ts";

/** Local amendments and roof fasteners recorded on the screen, and what the check then says of them. */
const standing = standingDesk({ query: "?sample=riverside-workshop", viewport: { width: 1440, height: 900 } });

const type = async (name: string, text: string): Promise<void> => {
  await standing.opened.page.getByRole("textbox", { name, exact: true }).last().fill(text);
  await standing.opened.page.keyboard.press("Enter");
};

test("a larger clearance is asked for everywhere, with its authority", async () => {
  const { page } = standing.opened;
  await standing.desk.stage("Sheet");
  await page.getByRole("button", { name: "Larger clearance" }).click();
  await type("Larger clearance", '2"');
  await standing.desk.stage("Check");
  await standing.desk.drawer.getByText(/about the job itself/).click();
  await standing.desk.drawer.getByText("needs an authority").waitFor();
  await standing.desk.stage("Sheet");
  await type("It rests on", "Ordinance 7");
  const amendment = page.locator(".amendment");
  await amendment.getByRole("textbox", { name: "By whose decision" }).fill("Town of Inventedville");
  await page.keyboard.press("Enter");
  await standing.desk.stage("Check");
  await standing.desk.drawer
    .getByText(/Clearance 2", where the edition itself asks for 1 1\/2".*Town of Inventedville/)
    .waitFor();
  expect(await standing.desk.drawer.getByText("needs an authority").count()).toBe(0);
  await standing.desk.drawer
    .getByText(/; 2" required/)
    .first()
    .waitFor();
}, 60_000);

test("an exception is added by keyboard, and applies once its reason and authority are recorded", async () => {
  const { page } = standing.opened;
  await standing.desk.stage("Sheet");
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
  await standing.desk.stage("Check");
  await standing.desk.drawer
    .getByText(/"EMT under a slab", needs an authority/)
    .first()
    .waitFor();
  await standing.desk.stage("Sheet");
  await type("It rests on", "Ordinance 7");
  await type("By whose decision", "Town of Inventedville");
  await standing.desk.stage("Check");
  await standing.desk.drawer.getByText(/Exception added: EMT under a slab \(Ordinance 7, paragraph 2\)/).waitFor();
  await standing.desk.stage("Sheet");
  await press("Remove this amendment");
  expect(await page.locator(".amendment").count()).toBe(1);
}, 60_000);

test("recorded fasteners give advice on the card and below the findings, and the page stays in its place", async () => {
  const { page } = standing.opened;
  await standing.desk.stage("Roof");
  await page
    .getByRole("listbox", { name: "Deck areas" })
    .getByRole("option", { name: /Store roof/ })
    .click();
  await page.getByRole("button", { name: "Record the roof fasteners" }).click();
  await standing.desk.card.getByText(/cannot be told\. Missing: the length of the fastener/).waitFor();
  await type("Length of the fastener below its head", '6"');
  await type("Thickness of the deck's sheet", '0.036"');
  await standing.desk.card.getByText("Bottom flange").click();
  // 6 - 0.036 = 5.964 in.
  await standing.desk.card.getByText(/reach 5\.964" .* beyond the code distance of 2"/).waitFor();
  expect((await standing.desk.card.boundingBox())?.y).toBe(0);
  await standing.desk.stage("Check");
  await standing.desk.drawer.getByRole("heading", { name: "Advice, beside the code" }).waitFor();
  await standing.desk.drawer.getByText(/The fasteners of Store roof reach/).waitFor();
}, 60_000);
