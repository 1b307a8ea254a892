import { expect, test } from "vitest";
import { type DeskHands, FRAMING, type Place } from "./desk.ts";
import type { OpenedPage } from "./open-page.ts";
import { standingDesk } from "./standing-desk.ts";

/** A storey above outlined with the pointer and with the keyboard, said to stand on a roof, and what the check then says below it. */
let opened: OpenedPage;
let hands: DeskHands;
standingDesk(
  (...given) => {
    [opened, hands] = given;
  },
  { query: "?sample=riverside-workshop", test: 60_000 },
);

/** The sheet as the sample's own job calls it. */
const PLAN = { ...FRAMING, title: /Roof framing plan/ };
const lines = (list: string) => opened.page.getByRole("listbox", { name: list }).getByRole("option");

/** The half of the store roof (756 to 396 by 880 to 1096 on the framing plan) that is nearest grid A. */
const HALF: readonly Place[] = [
  [756, 880],
  [756, 1096],
  [576, 1096],
  [576, 880],
];

test("with the pointer: outlined, an occupied storey, and the store roof follows from it", async () => {
  const { page } = opened;
  await hands.openSheet(PLAN);
  await hands.stage("Roof");
  await hands.press(/^Outline the storey above/, hands.drawer);
  await hands.press("Fit");
  for (const at of HALF) await hands.click(PLAN, at);
  await page.keyboard.press("Enter");
  await hands.card.getByRole("heading", { name: "S-1" }).waitFor();
  await lines("Storeys above").filter({ hasText: "On no deck yet" }).waitFor();
  await hands.choose(hands.card, "Within the outline, on the deck", /Occupied storey/);
  await hands.fill(hands.card, "Because", "Loft of the store, A-401");
  await hands.fill(hands.card, "Settled by", "plan reviewer");
  await hands.card.getByText("Store roof", { exact: true }).click();
  await lines("Storeys above").filter({ hasText: "On Store roof" }).waitFor();
  await lines("Deck areas").filter({ hasText: "By the storeys above" }).first().click();
  await hands.card.getByText("Roof 50 %, floor above 50 %.").waitFor();
  expect(await hands.card.getByRole("radio", { name: "By the storeys above" }).isChecked()).toBe(true);
});

test("the run along the edge is too close only beside the half that is still a roof, and a card says what is above from station to station", async () => {
  await hands.stage("Check");
  // R-8 runs for 20'-0" just beside the store roof: the first 15'-0" now lie beside a floor.
  const finding = (run: RegExp) => opened.page.getByRole("option", { name: run });
  await finding(/R-8/)
    .filter({ hasText: /Between 1[45]'-.* and 20'-0"/ })
    .waitFor();
  // R-3 lies under what is a floor now.
  await finding(/R-3/).filter({ hasText: "Not governed" }).waitFor();
  // R-9 goes from under the half that is still a roof to under the loft.
  await finding(/R-9/).click();
  await hands.card.getByText(/^Store roof: roof deck, 0" to 5'-0"$/).waitFor();
  await hands.card.getByText(/^Loft floor: floor above, 5'-0" to 20'-0"$/).waitFor();
});

test("with the keyboard: a canopy is not settled until it is recorded why; undone, nothing is left of it", async () => {
  const { page } = opened;
  await hands.openSheet(PLAN);
  await hands.stage("Roof");
  await hands.sheet.focus();
  await page.keyboard.press("u");
  for (const at of [`@600, 300`, `@700, 300`, `@700, 400`]) await hands.type(at);
  await hands.sheet.focus();
  await page.keyboard.press("Enter");
  await hands.card.getByRole("heading", { name: "S-2" }).waitFor();
  await hands.choose(hands.card, "Within the outline, on the deck", /Canopy/);
  await hands.take(hands.card, "It makes the deck below it", "A floor");
  await hands.card.getByText(/counts as not settled until it is recorded why/).waitFor();
  await hands.fill(hands.card, "Because", "AHJ letter");
  await hands.fill(hands.card, "Settled by", "plan reviewer");
  await hands.card.getByText("Canopy: a floor below").waitFor();
  await hands.sheet.focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press("Control+z");
  await lines("Storeys above").filter({ hasText: "S-2" }).waitFor({ state: "detached" });
  expect(await lines("Storeys above").count()).toBe(1);
});
