import { expect, it } from "vitest";
import { CEILING } from "./desk.ts";
import { jobInFile } from "./sample-job.ts";
import { standingDesk } from "./standing-desk.ts";

const standing = standingDesk({ query: "?sample=riverside-workshop" });

it("traces a rack by pointer, takes its raceways on its card, and says of each how far it is from the deck", async () => {
  const { page } = standing.opened;
  await standing.desk.stage("Wiring");
  await standing.desk.press(/^Trace a rack/, standing.desk.drawer);
  // Between the runs of the hall, under its roof: a support higher than R-2 hangs.
  await standing.desk.type(`14'-10" AFF bottom`);
  await standing.desk.click(CEILING, [1000, 800]);
  await standing.desk.click(CEILING, [1000, 600]);
  await standing.desk.sheet.focus();
  await page.keyboard.press("Enter");
  await standing.desk.card.getByRole("heading", { name: "K-1", exact: true }).waitFor();
  await page.keyboard.press("Escape");

  const raceways = standing.desk.card.locator(".raceways > li");
  await standing.desk.card.getByRole("button", { name: "Add a raceway" }).click();
  for (const [i, size] of ["2", "1"].entries()) {
    await raceways.nth(i).locator("summary").click();
    await standing.desk.choose(raceways.nth(i), "Type", /EMT/);
    await standing.desk.choose(raceways.nth(i), "Trade size", new RegExp(`^${size}$`));
    await raceways
      .nth(i)
      .getByText(`K-1/${i + 1} · ${size} EMT`)
      .waitFor();
  }
  await expect.poll(() => standing.desk.card.getByText(/K-1\/[12]: /).count()).toBe(2);

  await standing.desk.stage("Issue");
  const { bytes } = await standing.desk.download(() => standing.desk.press("Save the job file", standing.desk.drawer));
  const rack = Object.values((await jobInFile(bytes)).elements).find(({ kind }) => kind === "rack");
  expect(rack).toMatchObject({
    label: "K-1",
    raceways: [{ wiring: { type: "emt", tradeSize: "2" } }, { wiring: { type: "emt", tradeSize: "1" } }],
    vertices: [{ tag: { length: { value: 178, unit: "in" }, basis: "bottom" } }, { tag: null }],
  });
  expect(standing.opened.problems).toEqual([]);
});
