import { PDFDocument } from "@cantoo/pdf-lib";
import { beforeAll, expect, it } from "vitest";
import { drawPng } from "../pdf/read/draw-png.ts";
import type { Place, TestSheet } from "./desk.ts";
import { darknessIn } from "./screen-pixels.ts";
import { seriousFaults } from "./serious-faults.ts";
import { standingDesk } from "./standing-desk.ts";

/** Drawing takes its time, above all beside other work. */
const SOON = { timeout: 20_000 };
const standing = standingDesk({ test: 120_000, act: 20_000 });

/** Pixels of the scan: 17 by 11 in. at 150 to the inch. */
const [WIDE, HIGH] = [2550, 1650];
/** Sheet units to a pixel of the scan. */
const PIXEL = 72 / 150;
/** Where the finest pattern lies, pixels of the scan from its upper left: stripes of one pixel. */
const FINE = { x: 1200, y: 700, side: 160 } as const;
const SCAN: TestSheet = { title: /scan/, view: [0, 0, WIDE * PIXEL, HIGH * PIXEL], rotate: 0 };
/** A place of the scan, by its pixels from the upper left. */
const at = (x: number, y: number): Place => [x * PIXEL, (HIGH - y) * PIXEL];

const isInk = (x: number, y: number): boolean => {
  if (x >= FINE.x && x < FINE.x + FINE.side && y >= FINE.y && y < FINE.y + FINE.side) return x % 2 === 0;
  // A plan as a scanner sees it: walls three pixels thick.
  const onWall = (n: number, walls: readonly number[]) => walls.some((wall) => n >= wall && n < wall + 3);
  const inPlan = x >= 300 && x < 2103 && y >= 300 && y < 1203;
  return inPlan && (onWall(x, [300, 1100, 2100]) || onWall(y, [300, 1200]));
};

beforeAll(async () => {
  const doc = await PDFDocument.create();
  const scan = await doc.embedPng(drawPng(WIDE, HIGH, isInk));
  const page = doc.addPage([WIDE * PIXEL, HIGH * PIXEL]);
  page.drawImage(scan, { x: 0, y: 0, width: WIDE * PIXEL, height: HIGH * PIXEL });
  await standing.desk.pick(standing.opened.page.getByRole("button", { name: "Open drawings" }), {
    name: "scan.pdf",
    mimeType: "application/pdf",
    buffer: Buffer.from(await doc.save()),
  });
  await standing.desk.card.getByRole("heading", { name: "scan" }).waitFor();
}, 180_000);

it("says that there is no linework to follow, and why", async () => {
  await standing.opened.page.locator('.sheet-host[data-lines="none"]').waitFor();
  await standing.desk.card.getByText("There is no linework to follow: this page is a picture of a drawing").waitFor();
  await standing.desk.stage("Wiring");
  await standing.desk.press(/^Follow a drawn line/, standing.desk.drawer);
  await standing.desk.click(SCAN, at(700, 301));
  await standing.opened.page
    .locator(".prompt")
    .getByText(/it is a picture/)
    .waitFor();
  await standing.desk.press("Leave");
});

it("takes its scale, a deck area and a run by hand", async () => {
  await standing.desk.openSheet(SCAN);
  await standing.desk.press("Measure between two points", standing.desk.card);
  // 1,800 pixels are 12 in. of paper; the building's side is 48 ft: 1/4" = 1'-0".
  await standing.desk.click(SCAN, at(301, 301));
  await standing.desk.click(SCAN, at(2101, 301));
  await standing.desk.type(`48'-0"`);
  await expect.poll(() => standing.desk.card.locator(".card-tag").textContent(), SOON).toMatch(/^1:(?:47\.[89]|48)/);
  await standing.desk.stage("Roof");
  await standing.desk.press(/^Outline a deck area/, standing.desk.drawer);
  for (const [x, y] of [
    [301, 301],
    [1101, 301],
    [1101, 1201],
    [301, 1201],
  ] as const)
    await standing.desk.click(SCAN, at(x, y));
  await standing.opened.page.keyboard.press("Enter");
  await standing.desk.card.getByRole("heading", { name: "A-1" }).waitFor();
  await standing.desk.stage("Wiring");
  await standing.desk.press(/^Trace a run/, standing.desk.drawer);
  await standing.desk.click(SCAN, at(400, 600));
  await standing.desk.click(SCAN, at(1000, 600));
  await standing.opened.page.keyboard.press("Enter");
  await standing.desk.card.getByRole("heading", { name: "R-1" }).waitFor();
  await standing.desk.press("Leave");
});

it("keeps the resolution of its picture when it is zoomed", async () => {
  await standing.opened.page.getByRole("button", { name: "Fit", exact: true }).click();
  await standing.desk.settled();
  const middle = at(FINE.x + FINE.side / 2, FINE.y + FINE.side / 2);
  await standing.opened.page.mouse.move(...(await standing.desk.pixel(SCAN, middle)));
  for (let turn = 0; turn < 6; turn++) await standing.opened.page.mouse.wheel(0, -300);
  await standing.desk.settled();
  const [x, y] = await standing.desk.pixel(SCAN, middle);
  const [left] = await standing.desk.pixel(SCAN, at(FINE.x + FINE.side / 2 - 10, FINE.y));
  const [right] = await standing.desk.pixel(SCAN, at(FINE.x + FINE.side / 2 + 10, FINE.y));
  const perPixel = (right - left) / 20;
  expect(perPixel).toBeGreaterThan(4);
  /** Changes between ink and paper along a row of the window over `pixels` of the scan. */
  const changes = async (pixels: number): Promise<number> => {
    const width = Math.round(pixels * perPixel);
    const { dark } = await darknessIn(standing.opened.page, {
      x: Math.round(x - width / 2),
      y: Math.round(y),
      width,
      height: 1,
    });
    // Full ink and full paper only: what is blurred between them is neither.
    const sure = dark.filter((one) => one < 40 || one > 215).map((one) => one > 128);
    return sure.filter((ink, i) => i > 0 && ink !== sure[i - 1]).length;
  };
  // Each pixel of the picture can be told from the next: as many changes as pixels, but for those cut at the ends.
  await expect.poll(() => changes(16), SOON).toBeGreaterThanOrEqual(15);
  expect(await changes(16)).toBeLessThanOrEqual(17);
});

for (const colorScheme of ["light", "dark"] as const)
  it(`has nothing serious for assistive technology, ${colorScheme}`, async () => {
    await standing.opened.page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    await standing.desk.openSheet(SCAN);
    expect(await seriousFaults(standing.opened.page)).toEqual([]);
    expect(standing.opened.problems).toEqual([]);
  });
