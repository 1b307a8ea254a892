import { expect, test } from "vitest";
import { CEILING } from "./desk.ts";
import { seriousFaults } from "./serious-faults.ts";
import { standingDesk } from "./standing-desk.ts";

/** Several things selected by query, clicks, windows, the list and keys, and changed in one step. */
const standing = standingDesk({ query: "?sample=riverside-workshop", viewport: { width: 1440, height: 900 } });
const wiring = () => standing.opened.page.getByRole("listbox", { name: "Wiring" });
const line = (label: RegExp) =>
  wiring()
    .getByRole("option")
    .filter({ has: standing.opened.page.locator(".item-name", { hasText: label }) });
const heading = () => standing.desk.card.getByRole("heading", { level: 2 });

/** Drags over the ceiling plan with Shift held. */
async function shiftDrag(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
  const { page } = standing.opened;
  await standing.desk.settled();
  await page.mouse.move(...(await standing.desk.pixel(CEILING, from)));
  await page.keyboard.down("Shift");
  await page.mouse.down();
  await page.mouse.move(...(await standing.desk.pixel(CEILING, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2])));
  await page.mouse.move(...(await standing.desk.pixel(CEILING, to)));
  await page.mouse.up();
  await page.keyboard.up("Shift");
}

async function shiftClick(at: readonly [number, number]): Promise<void> {
  const { page } = standing.opened;
  await page.keyboard.down("Shift");
  await standing.desk.click(CEILING, at);
  await page.keyboard.up("Shift");
}

test("all EMT 3/4 is found, selected, lowered by a foot in one step, and comes back in one", async () => {
  const { page } = standing.opened;
  const { desk } = standing;
  await desk.stage("Wiring");
  const several = page.locator(".several");
  await several.locator("summary").click();
  await desk.choose(several, "Type", /^EMT/);
  await desk.choose(several, "Trade size", "3/4");
  await expect.poll(() => several.getByRole("status").textContent()).toBe("6 found: R-1, R-3, R-4, R-8, R-10, R-12.");
  const before = await line(/^R-1$/).textContent();
  await several.getByRole("button", { name: "Select all 6" }).click();
  await expect.poll(() => heading().textContent()).toBe("6 selected");
  expect(await page.locator("[data-live=selected]").textContent()).toBe("6 selected");
  await desk.fill(desk.card, "By", "1'-0\"");
  await desk.card.getByRole("button", { name: "Lower all" }).click();
  await expect.poll(() => line(/^R-1$/).textContent()).not.toBe(before);
  await desk.sheet.focus();
  await page.keyboard.press("Control+z");
  await expect.poll(() => line(/^R-1$/).textContent()).toBe(before);
  await page.keyboard.press("Escape");
  await several.locator("summary").click();
});

test("a window, clicks with Shift, one tag for all, deleting and undoing", async () => {
  const { page } = standing.opened;
  const { desk } = standing;
  await page.getByRole("button", { name: "Fit", exact: true }).click();
  // It touches, and B-2 lies in it; the floor and roof areas under them are left alone.
  await shiftDrag([1605, 1000], [1860, 570]);
  await expect.poll(() => heading().textContent()).toBe("3 selected");
  await page.waitForTimeout(300);
  await page.getByRole("button", { name: "Fit", exact: true }).click();
  await shiftClick([1812, 720]);
  await expect.poll(() => heading().textContent()).toBe("2 selected");
  await shiftClick([700, 612]);
  await expect.poll(() => heading().textContent()).toBe("3 selected");
  expect(await desk.card.locator(".card-tag").textContent()).toBe("R-3, R-4, R-6.");
  await desk.fill(desk.card, "Elevation", "9'-0\"");
  await desk.card.getByRole("button", { name: "Give all this tag" }).click();
  await expect.poll(() => line(/^R-6$/).textContent()).toContain(`9'-0"`);
  expect(await line(/^R-3$/).textContent()).toContain(`9'-0"`);
  expect(await seriousFaults(page)).toEqual([]);
  await desk.sheet.focus();
  await page.keyboard.press("Delete");
  await expect.poll(() => line(/^R-[346]$/).count()).toBe(0);
  await page.keyboard.press("Control+z");
  await expect.poll(() => line(/^R-[346]$/).count()).toBe(3);
  await page.keyboard.press("Control+z");
  await expect.poll(() => line(/^R-6$/).textContent()).not.toContain(`9'-0"`);
});

test("the list selects several by keys, and their labels are renumbered as shown", async () => {
  const { page } = standing.opened;
  const { desk } = standing;
  await line(/^R-1$/).click();
  await expect.poll(() => heading().textContent()).toBe("R-1");
  await page.keyboard.press("Shift+ArrowDown");
  await page.keyboard.press("Shift+ArrowDown");
  await expect.poll(() => heading().textContent()).toBe("3 selected");
  expect(await wiring().getByRole("option", { selected: true }).count()).toBe(3);
  await line(/^R-12$/).click({ modifiers: ["Control"] });
  await expect.poll(() => heading().textContent()).toBe("4 selected");
  await desk.card.locator("summary").click();
  // R-12 lies highest on the sheet, R-1 and R-2 under it, R-3 below.
  await expect
    .poll(() => desk.card.locator(".relabelled").textContent())
    .toBe(["R-12 → R-1", "R-1 → R-2", "R-2 → R-3", "R-3 → R-12"].join(""));
  expect(await seriousFaults(page)).toEqual([]);
  await desk.card.getByRole("button", { name: "Renumber 4" }).click();
  await expect.poll(() => desk.card.locator(".card-tag").textContent()).toBe("R-2, R-3, R-12, R-1.");
  await desk.sheet.focus();
  await page.keyboard.press("Control+z");
  await expect.poll(() => desk.card.locator(".card-tag").textContent()).toBe("R-1, R-2, R-3, R-12.");
});

test("a label is found by its key and typing, and shown", async () => {
  const { page } = standing.opened;
  await page.keyboard.press("Alt+l");
  const dialog = page.getByRole("dialog", { name: "Labels" });
  await dialog.getByRole("searchbox").fill("r9");
  await dialog.getByRole("option", { name: "R-9" }).first().waitFor();
  expect(await seriousFaults(page)).toEqual([]);
  await page.keyboard.press("Enter");
  await expect.poll(() => heading().textContent()).toBe("R-9");
  await expect.poll(() => dialog.count()).toBe(0);
});
