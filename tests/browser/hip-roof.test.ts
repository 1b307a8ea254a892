import { afterAll, beforeAll, expect, test } from "vitest";
import { DeskHands, FRAMING, type Place } from "./desk.ts";
import { type OpenedPage, openPage } from "./open-page.ts";

/** The store roof of the sample made a hip roof: spots and a ridge with the pointer, hips by their numbers, and what the check then says below it. */
let opened: OpenedPage;
let hands: DeskHands;
beforeAll(async () => {
  opened = await openPage("?sample=riverside-workshop", { width: 1440, height: 900 });
  hands = new DeskHands(opened.page);
  opened.page.setDefaultTimeout(20_000);
  await hands.shown();
}, 90_000);
afterAll(() => opened?.close());

/** The sheet as the sample's own job calls it. */
const PLAN = { ...FRAMING, title: /Roof framing plan/ };
const CORNERS: readonly Place[] = [
  [756, 880],
  [756, 1096],
  [396, 1096],
  [396, 880],
];
const RIDGE: readonly Place[] = [
  [648, 988],
  [504, 988],
];
const lines = () => hands.card.getByRole("list", { name: "Lines between spots" }).getByRole("listitem");

test("spots are put with the pointer, each with its elevation", async () => {
  await hands.openSheet(PLAN);
  await hands.stage("Roof");
  await hands.press("Fit");
  await opened.page.getByRole("option", { name: /^Store roof/ }).click();
  await hands.take(hands.card, "It lies", "Through spots");
  for (const at of CORNERS) {
    await hands.click(PLAN, at);
    await hands.type(`12'-1 1/2"`);
  }
  for (const at of RIDGE) {
    await hands.click(PLAN, at);
    await hands.type(`16'-0"`);
  }
  await hands.sheet.focus();
  await opened.page.keyboard.press("Enter");
  expect(await hands.card.getByRole("list", { name: "Spots", exact: true }).getByRole("listitem").count()).toBe(6);
  await hands.card.getByText("Lowest surface folded between its spots").waitFor();
}, 60_000);

test("its ridge is drawn from spot to spot, its hips are typed and chosen by their numbers", async () => {
  const { page } = opened;
  await hands.press("Draw lines on the sheet", hands.card);
  for (const at of RIDGE) await hands.click(PLAN, at);
  await lines().filter({ hasText: "Spots 5 and 6" }).waitFor();
  await hands.type("1-5 hip");
  await hands.type("2-5");
  await hands.sheet.focus();
  await page.keyboard.press("Escape");
  await hands.choose(hands.card, "From", "Spot 3");
  await hands.choose(hands.card, "To", "Spot 6");
  await hands.choose(hands.card, "Kind", "Hip");
  await hands.press("Add this line", hands.card);
  await lines().filter({ hasText: "Spots 3 and 6" }).waitFor();
  // A line across the ridge is refused in words.
  await hands.choose(hands.card, "From", "Spot 1");
  await hands.choose(hands.card, "To", "Spot 3");
  await hands.press("Add this line", hands.card);
  await hands.card.getByText(/would cross the line between spots 5 and 6/).waitFor();
  expect(await lines().count()).toBe(4);
}, 60_000);

test("the check measures to the side above a run, and names its spots", async () => {
  await hands.stage("Check");
  const finding = opened.page.getByRole("option", { name: /R-3/ }).first();
  await finding.click();
  await hands.card
    .getByText(/Lowest surface of the deck of Store roof there, between spots \d, \d and \d/)
    .first()
    .waitFor();
  expect(opened.problems).toEqual([]);
}, 60_000);

test("a spot taken out takes its lines along", async () => {
  await hands.stage("Roof");
  await opened.page.getByRole("option", { name: /^Store roof/ }).click();
  await hands.press("Take out spot 6", hands.card);
  await lines().filter({ hasText: "Spots 3 and 6" }).waitFor({ state: "detached" });
  expect(await lines().count()).toBe(2);
}, 60_000);
