import { expect, test } from "vitest";
import { CEILING } from "./desk.ts";
import { RUNS } from "./sample-job.ts";
import { standingDesk } from "./standing-desk.ts";

/** The section through wiring where the pointer is on it, on the sheet. */
const standing = standingDesk({ query: "?sample=riverside-workshop", viewport: { width: 1440, height: 900 } });

/** A place of a run, so far from its first vertex to its second, sheet space. */
function placeOn(label: string, part: number): readonly [number, number] {
  const [a, b] = RUNS.find((run) => run.label === label)!.vertices.map(({ at }) => at);
  return [a![0] + (b![0] - a![0]) * part, a![1] + (b![1] - a![1]) * part];
}

test("follows the pointer along the selected run, with its profile", async () => {
  const { desk, opened } = standing;
  const { page } = opened;
  await desk.stage("Check");
  await page.getByRole("listbox", { name: "Findings" }).getByRole("option", { name: /R-2/ }).click();
  await page.locator(".tag-handle").first().waitFor();
  // All of the sheet in sight, beside card and profile.
  await page.getByRole("button", { name: "Fit", exact: true }).click();
  await desk.pointAt(CEILING, placeOn("R-2", 0.5));
  const said = page.locator(".section-here");
  await expect.poll(() => said.textContent()).toMatch(/R-2 at 15'-/);
  await expect.poll(() => page.locator(".profile-reading").textContent()).toMatch(/Station 15'-/);
  await desk.pointAt(CEILING, placeOn("R-2", 0.75));
  await expect.poll(() => said.textContent()).toMatch(/R-2 at 22'-/);
  await desk.pointAt(CEILING, [placeOn("R-2", 0.5)[0] + 60, placeOn("R-2", 0.5)[1]]);
  await expect.poll(() => said.count()).toBe(0);
});

test("is shown for wiring nobody selected when it is asked for", async () => {
  const { desk, opened } = standing;
  const { page } = opened;
  await desk.sheet.focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press("Escape");
  await expect.poll(() => page.locator(".profile").count()).toBe(0);
  await desk.pointAt(CEILING, placeOn("R-2", 0.5));
  expect(await page.locator(".section-here").count()).toBe(0);
  await page.keyboard.press("Alt+x");
  await desk.pointAt(CEILING, placeOn("R-2", 0.4));
  await expect.poll(() => page.locator(".section-pointed").textContent()).toMatch(/R-2 at 12'-0/);
  await page.keyboard.press("Alt+x");
  await expect.poll(() => page.locator(".section-pointed").count()).toBe(0);
  expect(opened.problems).toEqual([]);
});
