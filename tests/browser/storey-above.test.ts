import { expect, test } from "vitest";
import { FRAMING, type Place } from "./desk.ts";
import { standingDesk } from "./standing-desk.ts";

/** A storey above outlined with the pointer and with the keyboard, said to stand on a roof, and what the check then says below it. */
const standing = standingDesk({ query: "?sample=riverside-workshop", test: 60_000 });

/** The sheet as the sample's own job calls it. */
const PLAN = { ...FRAMING, title: /Roof framing plan/ };
const lines = (list: string) => standing.opened.page.getByRole("listbox", { name: list }).getByRole("option");

/** The half of the store roof (756 to 396 by 880 to 1096 on the framing plan) that is nearest grid A. */
const HALF: readonly Place[] = [
  [756, 880],
  [756, 1096],
  [576, 1096],
  [576, 880],
];

test("with the pointer: outlined, an occupied storey, and the store roof follows from it", async () => {
  const { page } = standing.opened;
  await standing.desk.openSheet(PLAN);
  await standing.desk.stage("Roof");
  await standing.desk.press(/^Outline the storey above/, standing.desk.drawer);
  await standing.desk.press("Fit");
  for (const at of HALF) await standing.desk.click(PLAN, at);
  await page.keyboard.press("Enter");
  await standing.desk.card.getByRole("heading", { name: "S-1" }).waitFor();
  await lines("Storeys above").filter({ hasText: "On no deck yet" }).waitFor();
  await standing.desk.choose(standing.desk.card, "Within the outline, on the deck", /Occupied storey/);
  await standing.desk.fill(standing.desk.card, "Because", "Loft of the store, A-401");
  await standing.desk.fill(standing.desk.card, "Settled by", "plan reviewer");
  await standing.desk.card.getByText("Store roof", { exact: true }).click();
  await lines("Storeys above").filter({ hasText: "On Store roof" }).waitFor();
  await lines("Deck areas").filter({ hasText: "By the storeys above" }).first().click();
  await standing.desk.card.getByText("Roof 50 %, floor above 50 %.").waitFor();
  expect(await standing.desk.card.getByRole("radio", { name: "By the storeys above" }).isChecked()).toBe(true);
});

test("the run along the edge is too close only beside the half that is still a roof, and a card says what is above from station to station", async () => {
  await standing.desk.stage("Check");
  // R-8 runs for 20'-0" just beside the store roof: the first 15'-0" now lie beside a floor.
  const finding = (run: RegExp) => standing.opened.page.getByRole("option", { name: run });
  await finding(/R-8/)
    .filter({ hasText: /Between 1[45]'-.* and 20'-0"/ })
    .waitFor();
  // R-3 lies under what is a floor now.
  await finding(/R-3/).filter({ hasText: "Not governed" }).waitFor();
  // R-9 goes from under the half that is still a roof to under the loft.
  await finding(/R-9/).click();
  await standing.desk.card.getByText(/^Store roof: roof deck, 0" to 5'-0"$/).waitFor();
  await standing.desk.card.getByText(/^Loft floor: floor above, 5'-0" to 20'-0"$/).waitFor();
});

test("with the keyboard: a canopy is not settled until it is recorded why; undone, nothing is left of it", async () => {
  const { page } = standing.opened;
  await standing.desk.openSheet(PLAN);
  await standing.desk.stage("Roof");
  await standing.desk.sheet.focus();
  await page.keyboard.press("u");
  for (const at of [`@600, 300`, `@700, 300`, `@700, 400`]) await standing.desk.type(at);
  await standing.desk.sheet.focus();
  await page.keyboard.press("Enter");
  await standing.desk.card.getByRole("heading", { name: "S-2" }).waitFor();
  await standing.desk.choose(standing.desk.card, "Within the outline, on the deck", /Canopy/);
  await standing.desk.take(standing.desk.card, "It makes the deck below it", "A floor");
  await standing.desk.card.getByText(/counts as not settled until it is recorded why/).waitFor();
  await standing.desk.fill(standing.desk.card, "Because", "AHJ letter");
  await standing.desk.fill(standing.desk.card, "Settled by", "plan reviewer");
  await standing.desk.card.getByText("Canopy: a floor below").waitFor();
  await standing.desk.sheet.focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press("Control+z");
  await lines("Storeys above").filter({ hasText: "S-2" }).waitFor({ state: "detached" });
  expect(await lines("Storeys above").count()).toBe(1);
});
