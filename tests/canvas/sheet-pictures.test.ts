import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { MOST_SHOWN_BYTES } from "../../src/canvas/drawing-layer.ts";
import { contentPagePdf } from "../pdf/read/tiny-pdf.ts";
import type { CanvasDesk } from "./canvas-page.ts";
import { type OpenedCanvas, openCanvas } from "./open-canvas.ts";

declare const desk: CanvasDesk;

const SHEET = { view: [0, 0, 1191, 842], rotate: 0, userUnit: 1 } as const;
/** Strokes strewn over a sheet, each by its own operators. */
const strokes = (count: number): string =>
  Array.from({ length: count }, (_, i) => {
    const [x, y] = [(i * 7919) % 1191, (i * 104_729) % 842];
    return `0.3 w ${x} ${y} m ${x + (i % 9)} ${y + (i % 7)} l S`;
  }).join("\n");
const words = Array.from(
  { length: 200 },
  (_, i) => `BT /F1 3 Tf ${(i % 20) * 60} ${Math.floor(i / 20) * 84} Td (R-${i}) Tj ET`,
);

let canvas: OpenedCanvas;
let page: Page;
beforeAll(async () => {
  canvas = await openCanvas({
    "dense.pdf": contentPagePdf(strokes(80_000), SHEET),
    "plain.pdf": contentPagePdf(`${strokes(4_000)}\n${words.join("\n")}`, SHEET),
  });
  page = canvas.page;
}, 120_000);
afterAll(() => canvas?.close());

test("while a page is drawn for the first time, what is there of it is shown, more and more of it", async () => {
  const { dark, left } = await page.evaluate(() => desk.watchFirst("files/dense.pdf"));
  expect(dark.length).toBeGreaterThan(0);
  expect(dark.at(-1)).toBeGreaterThan(1000);
  expect(dark.at(-1)).toBeGreaterThan(dark[0]!);
  expect(left).toBe(0);
});

test("a page that was expected is there at once, as a coarse picture; another is not", async () => {
  expect(await page.evaluate(() => desk.showExpected("files/plain.pdf"))).toEqual({ before: 0, after: 1 });
});

test("at 64 times a fitted page the picture is pixel by pixel what pdf.js draws of that part", async () => {
  await page.evaluate(() => desk.show("files/plain.pdf"));
  const fit = await page.evaluate(() => desk.view.view().scale);
  // A word near the middle of the sheet.
  await page.evaluate(async () => {
    const [x, y] = desk.view.sheetToScreen([603, 421]);
    desk.view.zoomBy(64, [x, y]);
    await desk.settled();
  });
  expect((await page.evaluate(() => desk.view.view().scale)) / fit).toBeCloseTo(64, 6);
  const seen = await page.evaluate(() => desk.compareSharp("files/plain.pdf"));
  expect(seen.dark).toBeGreaterThan(1000);
  expect(seen.differ).toBe(0);
});

test("wherever one looks and however closely, the pictures shown stay within their bytes", async () => {
  await page.evaluate(() => desk.show("files/plain.pdf"));
  const most = await page.evaluate(async () => {
    let bytes = 0;
    for (let i = 0; i < 14; i++) {
      desk.view.zoomBy(i < 8 ? 1.9 : 0.5, [300 + 30 * i, 500 - 20 * i]);
      desk.view.panBy(i % 2 ? 90 : -70, 40);
      await desk.settled();
      bytes = Math.max(bytes, desk.shownBytes());
    }
    return bytes;
  });
  expect(most).toBeGreaterThan(0);
  expect(most).toBeLessThanOrEqual(MOST_SHOWN_BYTES);
});

test("marks drawn in slices, given up for a move of the sheet and begun again are the marks drawn undisturbed", async () => {
  await page.evaluate(() => desk.show("files/plain.pdf"));
  const calm = async () => {
    await page.waitForTimeout(900);
    return (await page.screenshot()).toString("base64");
  };
  await page.evaluate(async () => {
    desk.strew(3000);
    await new Promise(requestAnimationFrame);
    await new Promise(requestAnimationFrame);
    desk.view.panBy(31, 12);
  });
  const disturbed = await calm();
  await page.evaluate(async () => {
    desk.view.setMarks("wiring", []);
    desk.view.setMarks("findings", []);
    await new Promise(requestAnimationFrame);
  });
  const none = await calm();
  await page.evaluate(() => desk.strew(3000));
  expect(await calm()).toBe(disturbed);
  expect(none).not.toBe(disturbed);
});

test("a change of a few marks is mended where they are, and the picture is as if all were drawn", async () => {
  await page.evaluate(() => desk.show("files/plain.pdf"));
  const calm = async () => {
    await page.waitForTimeout(500);
    return (await page.screenshot()).toString("base64");
  };
  const drawn = () => page.evaluate(() => desk.strew(200));
  await drawn();
  const before = await calm();
  const changed = () => page.evaluate(() => desk.strew(200, 7));
  await changed();
  await page.evaluate(() => desk.view.setSelected(["run-3", "spot-5"]));
  const mended = await calm();
  await page.evaluate(() => {
    desk.view.setMarks("wiring", []);
    desk.view.setMarks("findings", []);
  });
  await calm();
  await changed();
  const whole = await calm();
  expect(mended).toBe(whole);
  expect(mended).not.toBe(before);
  await page.evaluate(() => desk.view.setSelected([]));
  await drawn();
  expect(await calm()).toBe(before);
});

test("nothing went wrong on the page", async () => {
  expect(await page.evaluate(() => desk.errors)).toEqual([]);
  expect(canvas.problems).toEqual([]);
});
