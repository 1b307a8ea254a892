import { beforeAll, describe, expect, it } from "vitest";
import {
  drawLargeSet,
  largeSetPages,
  placeOn,
  type SetPage,
  STROKES,
  strokeAt,
  viewOf,
} from "../pdf/read/large-set.ts";
import type { Place, TestSheet } from "./desk.ts";
import { around, darknessIn } from "./screen-pixels.ts";
import { seriousFaults } from "./serious-faults.ts";
import { standingDesk } from "./standing-desk.ts";

/** Drawing takes its time, above all beside other work. */
const SOON = { timeout: 20_000 };
const standing = standingDesk({ test: 120_000, act: 20_000 });

// Two sheets with three layers each: on a larger medium and turned by 90, and turned by 180.
const PAGES = largeSetPages(21);
const FIRST = PAGES[13]!;
const SECOND = PAGES[6]!;
const sheetOf = (page: SetPage): TestSheet => ({
  title: new RegExp(`^(Sheet )?${page.number}$`),
  view: viewOf(page),
  rotate: page.rotate,
});

/** The corner of a stroke on one layer, of eight strokes one is on each layer in turn: the corner that lies farthest from all other strokes. */
function cornerOn(page: SetPage, layer: number): Place {
  const strokes = Array.from({ length: STROKES }, (_, i) => strokeAt(i, page.size));
  const room = (i: number) => {
    const [x, y] = strokes[i]![1];
    return Math.min(
      ...strokes.flatMap((other, j) => (j === i ? [] : other.map((p) => Math.hypot(p[0] - x, p[1] - y)))),
    );
  };
  // Clear of the notes on the left and of the title block.
  const free = strokes.flatMap(([, [x]], i) => (i % 8 === layer && x > 500 && x < page.size[0] - 400 ? [i] : []));
  const best = free.reduce((a, b) => (room(b) > room(a) ? b : a));
  return placeOn(page, strokes[best]![1]);
}
const GRID = 0;
const LIGHTING = 1;

const tick = (name: string) => standing.desk.card.getByRole("checkbox", { name });
/** Whether ink is shown right at a corner. */
const inked = async (page: SetPage, layer: number): Promise<boolean> => {
  const at = await standing.desk.pixel(sheetOf(page), cornerOn(page, layer));
  const { dark } = await darknessIn(standing.opened.page, around(at, 6));
  return dark.some((one) => one > 120);
};
/** What attracts the pointer a little beside a corner, as the foot of the window says it. */
const attraction = async (page: SetPage, layer: number): Promise<string> => {
  const [x, y] = await standing.desk.pixel(sheetOf(page), cornerOn(page, layer));
  await standing.opened.page.mouse.move(x + 60, y + 60);
  await standing.opened.page.mouse.move(x + 2, y + 2);
  return (await standing.opened.page.locator(".place").textContent()) ?? "";
};
/** Takes the tool that traces a run: points are attracted while one is in hand. */
const tracing = async () => {
  await standing.desk.sheet.focus();
  await standing.opened.page.keyboard.press("t");
  await standing.opened.page.locator(".prompt").waitFor();
};
/** Brings a corner near, so that its stroke stands alone. */
const near = async (page: SetPage, layer: number) => {
  await standing.opened.page.getByRole("button", { name: "Fit", exact: true }).click();
  await standing.desk.settled();
  await standing.opened.page.mouse.move(...(await standing.desk.pixel(sheetOf(page), cornerOn(page, layer))));
  for (let turn = 0; turn < 4; turn++) await standing.opened.page.mouse.wheel(0, -300);
  await standing.desk.settled();
};

beforeAll(async () => {
  await standing.desk.pick(standing.opened.page.getByRole("button", { name: "Open drawings" }), {
    name: "woolgate-mill.pdf",
    mimeType: "application/pdf",
    buffer: Buffer.from(await drawLargeSet(PAGES)),
  });
  for (const { page } of [FIRST, SECOND]) await standing.opened.page.locator(`.sheet-row[data-page="${page}"]`).click();
  await standing.desk.press(/^Add 2 pages/);
  for (const page of [SECOND, FIRST]) {
    await standing.desk.openSheet(sheetOf(page));
    await standing.desk.fill(standing.desk.card, "As the sheet states it", `1/8" = 1'-0"`);
  }
  await standing.opened.page.locator('.sheet-host[data-lines="there"]').waitFor();
}, 180_000);

describe("layers of a drawing", () => {
  it("are listed for the sheet, each shown", async () => {
    await expect.poll(() => tick("Lighting").count(), SOON).toBe(1);
    expect(await standing.desk.card.getByRole("checkbox").count()).toBe(FIRST.layers.length);
    for (const name of FIRST.layers) expect(await tick(name).isChecked()).toBe(true);
  });

  it("are hidden and shown, near too, and what is hidden attracts no point", async () => {
    await standing.desk.sheet.focus();
    await standing.opened.page.keyboard.press("x");
    await tracing();
    // The part in view is recorded with the layer shown, before it is hidden.
    await near(FIRST, LIGHTING);
    await expect.poll(() => inked(FIRST, LIGHTING), SOON).toBe(true);
    await standing.opened.page.waitForTimeout(800);
    expect(await attraction(FIRST, LIGHTING)).toMatch(/ · /);
    await standing.desk.openSheet(sheetOf(FIRST));
    await standing.desk.card.locator("label.tick", { hasText: "Lighting" }).click();
    await expect.poll(() => inked(FIRST, LIGHTING), SOON).toBe(false);
    await tracing();
    await near(FIRST, LIGHTING);
    await expect.poll(() => attraction(FIRST, LIGHTING), SOON).not.toMatch(/ · /);
    await near(FIRST, GRID);
    await expect.poll(() => inked(FIRST, GRID), SOON).toBe(true);
    await expect.poll(() => attraction(FIRST, GRID), SOON).toMatch(/ · /);
    // Recorded while it was hidden, it comes back whole.
    await standing.opened.page.waitForTimeout(800);
    await standing.desk.openSheet(sheetOf(FIRST));
    await standing.desk.press("As the file has them", standing.desk.card);
    await tracing();
    await near(FIRST, LIGHTING);
    await expect.poll(() => inked(FIRST, LIGHTING), SOON).toBe(true);
    await expect.poll(() => attraction(FIRST, LIGHTING), SOON).toMatch(/ · /);
  });

  it("are chosen for each sheet by itself, and stay so on coming back", async () => {
    await standing.desk.openSheet(sheetOf(FIRST));
    await standing.desk.card.locator("label.tick", { hasText: "Lighting" }).click();
    await standing.desk.openSheet(sheetOf(SECOND));
    await expect.poll(() => tick("Lighting").isChecked(), SOON).toBe(true);
    await near(SECOND, LIGHTING);
    await expect.poll(() => inked(SECOND, LIGHTING), SOON).toBe(true);
    await standing.desk.openSheet(sheetOf(FIRST));
    await expect.poll(() => tick("Lighting").isChecked(), SOON).toBe(false);
    await near(FIRST, LIGHTING);
    await expect.poll(() => inked(FIRST, LIGHTING), SOON).toBe(false);
  });
});

it("greys the drawing and not the marks, by one switch or its key", async () => {
  await near(FIRST, GRID);
  await expect.poll(() => inked(FIRST, GRID), SOON).toBe(true);
  const grey = standing.opened.page.getByRole("button", { name: "Grey the drawing" });
  await grey.click();
  expect(await grey.getAttribute("aria-pressed")).toBe("true");
  // A third of the ink is left on paper that stays white.
  await expect.poll(() => inked(FIRST, GRID), SOON).toBe(false);
  const at = await standing.desk.pixel(sheetOf(FIRST), cornerOn(FIRST, GRID));
  const { dark } = await darknessIn(standing.opened.page, around(at, 6));
  expect(Math.max(...dark)).toBeGreaterThan(50);
  expect(Math.min(...dark)).toBe(0);
  await standing.desk.sheet.focus();
  await standing.opened.page.keyboard.press("Alt+k");
  expect(await grey.getAttribute("aria-pressed")).toBe("false");
  await expect.poll(() => inked(FIRST, GRID), SOON).toBe(true);
});

for (const colorScheme of ["light", "dark"] as const)
  it(`has nothing serious for assistive technology, ${colorScheme}`, async () => {
    await standing.opened.page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    await standing.opened.page.getByRole("button", { name: "Grey the drawing" }).click();
    expect(await seriousFaults(standing.opened.page)).toEqual([]);
    expect(standing.opened.problems).toEqual([]);
  });
