import { afterAll, beforeAll, beforeEach, expect, test, vi } from "vitest";
import { CEILING, DeskHands, type Place } from "./desk.ts";
import { type OpenedPage, openPage } from "./open-page.ts";
import { RUNS } from "./sample-job.ts";
import { TouchHands } from "./touch-hands.ts";

/** The sheet under fingers and a pen, as they come from a screen. */
vi.setConfig({ testTimeout: 60_000 });
/** Longer than a finger has to be held still to aim, milliseconds. */
const HELD = 800;

let opened: OpenedPage;
let desk: DeskHands;
let hands: TouchHands;
beforeAll(async () => {
  opened = await openPage("?sample=riverside-workshop", { width: 1024, height: 768 }, { hasTouch: true });
  opened.page.setDefaultTimeout(12_000);
  desk = new DeskHands(opened.page);
  await desk.shown();
  hands = await TouchHands.of(opened.page);
}, 180_000);
afterAll(() => opened?.close());
beforeEach(async () => {
  await hands.lift();
  // No tool in hand, nothing selected, the whole sheet.
  await desk.sheet.focus();
  for (let i = 0; i < 4; i++) await opened.page.keyboard.press("Escape");
  await opened.page.locator(".card").waitFor({ state: "detached" });
  await fitSheet();
});

async function fitSheet(): Promise<void> {
  await opened.page.getByRole("button", { name: "Fit", exact: true }).click();
  await desk.settled();
}
const view = async () => (await desk.sheet.getAttribute("data-view"))!.split(" ").map(Number);
const pause = (ms: number) => opened.page.waitForTimeout(ms);
const loupe = () => opened.page.locator(".loupe");
const undo = () => opened.page.getByRole("button", { name: /^Undo/ }).getAttribute("aria-label");
/** A place on the sheet where nothing is, and its pixel. */
const EMPTY: Place = [1900, 300];
const pixel = (at: Place) => desk.pixel(CEILING, at);

test("two fingers move and zoom the sheet together", async () => {
  const [before] = await view();
  const [x, y] = await pixel([1296, 864]);
  await hands.press({ at: [x - 60, y] });
  await hands.press({ at: [x + 60, y] });
  await hands.move([x - 120, y + 40], [x + 120, y + 40]);
  await hands.lift();
  await desk.settled();
  const [scale] = await view();
  expect(scale! / before!).toBeCloseTo(2, 1);
  const [nowX, nowY] = await pixel([1296, 864]);
  expect(Math.hypot(nowX - x, nowY - y - 40)).toBeLessThan(4);
});

test("one finger moves the sheet, and a tap that trembles is a tap", async () => {
  const [, beforeX, beforeY] = await view();
  const [x, y] = await pixel(EMPTY);
  await hands.press({ at: [x, y] });
  await hands.move([x - 50, y - 30]);
  await hands.lift();
  await desk.settled();
  const [, afterX, afterY] = await view();
  expect(Math.hypot(afterX! - beforeX! + 50, afterY! - beforeY! + 30)).toBeLessThan(3);
  await fitSheet();
  // Fingers are never quite still.
  const [rx, ry] = await onRun();
  await hands.press({ at: [rx, ry] });
  await hands.move([rx + 6, ry + 5]);
  await hands.lift();
  await desk.card.getByRole("heading", { name: "R-2", exact: true }).waitFor();
});

/** A run of the sample, the pixel of its first end, and of its middle. */
const RUN = RUNS.find(({ label }) => label === "R-2")!;
const runsEnd = () => pixel(RUN.vertices[0]!.at);
function onRun(): Promise<Place> {
  const [a, b] = RUN.vertices;
  return pixel([(a!.at[0] + b!.at[0]) / 2, (a!.at[1] + b!.at[1]) / 2]);
}

test("held still a finger shows in a loupe what is there, and opens its card when it is lifted", async () => {
  const [x, y] = await onRun();
  await hands.press({ at: [x, y] });
  await pause(HELD);
  await loupe().waitFor();
  expect(await loupe().textContent()).toMatch(/R-2/);
  // The sheet stays where it is: the finger aims now.
  const stood = await view();
  await hands.move([x + 4, y + 30]);
  expect(await view()).toEqual(stood);
  await hands.move([x, y]);
  const box = (await loupe().boundingBox())!;
  expect(box.y + box.height).toBeLessThan(y - 20);
  expect(box.y).toBeGreaterThanOrEqual(0);
  expect(await inkInLoupe()).toBeGreaterThan(20);
  await hands.lift();
  await loupe().waitFor({ state: "detached" });
  await desk.card.getByRole("heading", { name: "R-2", exact: true }).waitFor();
});

/** Pixels in the loupe that are darker than paper: the drawing and its marks are in it. */
const inkInLoupe = () =>
  opened.page.evaluate(async () => {
    await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
    const glass = document.querySelector<HTMLCanvasElement>(".loupe canvas")!;
    const copy = new OffscreenCanvas(glass.width, glass.height).getContext("2d")!;
    copy.drawImage(glass, 0, 0);
    const { data } = copy.getImageData(0, 0, glass.width, glass.height);
    let dark = 0;
    for (let i = 0; i < data.length; i += 4) if (data[i + 3]! > 200 && data[i]! < 160) dark++;
    return dark;
  });

test("held still a finger puts a tool's point where it is lifted, saying what it snaps to; the loupe never leaves the window", async () => {
  await desk.stage("Wiring");
  await desk.press(/^Trace a run/, desk.drawer);
  const [x, y] = await runsEnd();
  await hands.press({ at: [x + 40, y + 60] });
  await pause(HELD);
  await hands.move([x + 3, y + 3]);
  await expect.poll(() => loupe().textContent()).toMatch(/R-2/);
  await hands.lift();
  await expect.poll(() => opened.page.locator("[data-live=crosshair]").textContent()).toMatch(/First point/);
  // Near an edge the loupe gives way, and stays in the window.
  for (const [px, py] of [
    [1015, 130],
    [296, 130],
    [700, 130],
  ] as const) {
    await hands.press({ at: [px, py] });
    await pause(HELD);
    const box = (await loupe().boundingBox())!;
    expect(box.x).toBeGreaterThanOrEqual(0);
    expect(box.y).toBeGreaterThanOrEqual(0);
    expect(box.x + box.width).toBeLessThanOrEqual(1024);
    // A second finger calls it off: no point is put.
    await hands.press({ at: [px, py + 150] });
    await hands.lift();
    await loupe().waitFor({ state: "detached" });
  }
});

test("a vertex that a finger drags is seen in the loupe", async () => {
  const before = await undo();
  await opened.page.getByRole("listbox", { name: "Wiring" }).getByText("R-2", { exact: true }).click();
  await fitSheet();
  const [x, y] = await runsEnd();
  await hands.press({ at: [x, y] });
  await hands.move([x + 30, y + 40]);
  await loupe().waitFor();
  await hands.lift();
  await loupe().waitFor({ state: "detached" });
  await expect.poll(undo).toMatch(/Move a vertex of R-2/);
  await opened.page.keyboard.press("Control+z");
  await expect.poll(undo).toBe(before);
});

test("a hand on the screen neither moves the sheet nor puts a point", async () => {
  await desk.press(/^Trace a run/, desk.drawer);
  const before = await view();
  const place = opened.page.locator("[data-live=crosshair]");
  const said = await place.textContent();
  const [x, y] = await pixel(EMPTY);
  await hands.press({ at: [x, y], radius: 45 });
  await hands.move([x - 80, y - 40]);
  await hands.lift();
  await hands.tap([x, y], 45);
  // A finger beside the hand still moves the sheet, and is no pinch with it.
  await hands.press({ at: [x, y], radius: 45 });
  await hands.press({ at: [x - 100, y] });
  await hands.move([x, y], [x - 140, y]);
  await hands.lift();
  await desk.settled();
  const after = await view();
  expect(after[0]).toBe(before[0]);
  expect(Math.abs(after[1]! - before[1]! + 40)).toBeLessThan(3);
  expect(await place.textContent()).toBe(said);
});

test("while a pen is near, fingers do nothing; it hovers, and puts points", async () => {
  await desk.press(/^Trace a run/, desk.drawer);
  const [x, y] = await runsEnd();
  await hands.pen("mouseMoved", [x + 2, y + 2]);
  // Hovering shows where the point would go.
  await expect.poll(() => opened.page.locator(".foot .place").textContent()).toMatch(/R-2/);
  const before = await view();
  await hands.press({ at: [x + 100, y + 100] });
  await hands.move([x + 20, y + 100]);
  await hands.lift();
  await hands.pen("mousePressed", [x + 2, y + 2]);
  await hands.press({ at: [x + 100, y + 100] });
  await hands.move([x + 20, y + 100]);
  await hands.pen("mouseReleased", [x + 2, y + 2]);
  await hands.lift();
  await desk.settled();
  expect(await view()).toEqual(before);
  // One point is put: taking it back leaves the tool with nothing to take back.
  await opened.page
    .getByRole("status")
    .getByText(/next|tag/i)
    .first()
    .waitFor();
  expect(opened.problems).toEqual([]);
});
