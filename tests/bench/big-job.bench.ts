import type { Browser, Page } from "playwright-core";
import type { Session } from "../../src/editor/session.ts";
import { jobText } from "../../src/job/parse-job.ts";
import { servePage } from "../browser/serve-page.ts";
import type { CanvasDesk } from "../canvas/canvas-page.ts";
import { openCanvas } from "../canvas/open-canvas.ts";
import { type BenchRow, benchRow } from "./bench-row.ts";
import { type BigJob, bigJob } from "./big-job.ts";
import { plainChromium, reachDesk, serveEmptyApp } from "./open-app.ts";

declare const desk: CanvasDesk & { readonly session: Session; readonly view: { zoom(by: number): void } };
declare const raise: () => void;

const RUNS = 10_000;
const EDITS = 1_000;
const ROUNDS = 3;
const FRAME = 1000 / 60;
const VIEWPORT = { width: 1600, height: 1000 };

/**
 * A job of 10,000 runs under 300 decks, opened from its file and edited: from giving the program the file to the picture of the sheet, beside
 * JSON.parse of the job's text and the first view of that sheet alone; 1,000 random moves of a vertex, from the edit to the frame that shows it,
 * beside a number raised in an empty page of the same framework in the same browser; and the longest the main thread was held up.
 */
export async function run(): Promise<BenchRow[]> {
  const big = await bigJob(RUNS);
  const [program, empty, browser] = await Promise.all([servePage(), serveEmptyApp(), plainChromium()]);
  try {
    const opened = await openings(browser, program.address, big);
    const page = opened.page;
    const rows = [...opened.rows];
    const emptyPage = await (await browser.newContext({ viewport: VIEWPORT })).newPage();
    await emptyPage.goto(empty.address);
    for (const [zoom, name] of [
      [1, "the whole sheet in view"],
      [4, "at four times that"],
    ] as const) {
      if (zoom > 1) await page.evaluate((by) => desk.view.zoom(by), zoom);
      await page.waitForTimeout(2_000);
      await emptyPage.bringToFront();
      const floor = median(await raised(emptyPage, 200));
      await page.bringToFront();
      const { shown, found, longest } = await edited(page, EDITS / 2);
      rows.push(
        benchRow(
          `an edit among ${RUNS} to its pixels, ${name}, median`,
          median(shown),
          "a number in an empty page",
          floor,
          `${(median(shown) - floor).toFixed(1)} ms more; a frame is ${FRAME.toFixed(1)}`,
        ),
        benchRow("the same to the pixels of its findings, median", median(found), "a number in an empty page", floor),
        benchRow(
          "the longest hold-up of the main thread meanwhile",
          longest,
          "what nobody notices",
          50,
          "0: none above 50",
        ),
      );
    }
    return rows;
  } finally {
    await browser.close();
    await program.close();
    empty.close();
  }
}

const median = (times: readonly number[]): number => times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)]!;

/** Opens the job several times beside its floor; the page of the last time stays open, all marks drawn. */
async function openings(browser: Browser, address: string, big: BigJob): Promise<{ rows: BenchRow[]; page: Page }> {
  const text = jobText(big.job);
  const canvas = await openCanvas({ "plan.pdf": big.plan }, { viewport: VIEWPORT }, plainChromium);
  let [ms, parse, view, held] = [Infinity, Infinity, Infinity, Infinity];
  let page: Page | undefined;
  try {
    await canvas.page.route("**/job-text", (route) => route.fulfill({ body: text, contentType: "text/plain" }));
    for (let round = 0; round < ROUNDS; round++) {
      await page?.context().close();
      page = await (await browser.newContext({ viewport: VIEWPORT })).newPage();
      await page.route("**/big-job", (route) => route.fulfill({ body: Buffer.from(big.file) }));
      await page.goto(address);
      await page.locator(".start").waitFor();
      // The parts that come later are there: opening is measured, not loading.
      await page.waitForTimeout(1_000);
      const times = await opened(page);
      ms = Math.min(ms, times.ms);
      held = Math.min(held, times.held);
      parse = Math.min(
        parse,
        await canvas.page.evaluate(async () => {
          const json = await (await fetch("job-text")).text();
          const start = performance.now();
          JSON.parse(json);
          return performance.now() - start;
        }),
      );
      view = Math.min(view, (await canvas.page.evaluate(() => desk.timeView("files/plan.pdf", 1))).ms);
    }
  } finally {
    await canvas.close();
  }
  await reachDesk(page!);
  return {
    page: page!,
    rows: [
      benchRow(
        `a job of ${RUNS} runs opened, from its file to its sheet`,
        ms,
        "JSON.parse of its text and the sheet's first view",
        parse + view,
        `${parse.toFixed(0)} and ${view.toFixed(0)} ms; at most 1.2x wanted`,
      ),
      benchRow(
        "the longest hold-up of the main thread after that, check and marks",
        held,
        "what nobody notices",
        50,
        "0: none above 50",
      ),
    ],
  };
}

/** Milliseconds to the picture of the sheet, and the longest task from then until all marks are there. */
const opened = (page: Page): Promise<{ ms: number; held: number }> =>
  page.evaluate(async () => {
    const bytes = await (await fetch("big-job")).arrayBuffer();
    const data = new DataTransfer();
    data.items.add(new File([bytes], "big.underside"));
    const start = performance.now();
    document
      .querySelector(".drop-area")!
      .dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
    while (!document.querySelector("canvas[data-part=base]")) await new Promise((resolve) => setTimeout(resolve, 0));
    const shown = performance.now();
    let held = 0;
    let last = performance.now();
    const watch = new PerformanceObserver((list) => {
      for (const { startTime, duration } of list.getEntries()) {
        last = performance.now();
        if (startTime > shown) held = Math.max(held, duration);
      }
    });
    watch.observe({ entryTypes: ["longtask"] });
    // Check, marks and the first saving are over by then.
    while (performance.now() < shown + 12_000) await new Promise((resolve) => setTimeout(resolve, 100));
    watch.disconnect();
    return { ms: shown - start, held: last === 0 ? 0 : held };
  });

/** Milliseconds from raising the number of the empty page to the frame that shows it. */
const raised = (page: Page, times: number): Promise<number[]> =>
  page.evaluate(async (count) => {
    const taken: number[] = [];
    for (let n = 0; n < count; n++) {
      await new Promise((resolve) => setTimeout(resolve, 20 + (n % 17)));
      const start = performance.now();
      raise();
      await new Promise((resolve) => setTimeout(resolve, 0));
      await new Promise<void>((resolve) => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => resolve();
        requestAnimationFrame(() => port2.postMessage(null));
      });
      taken.push(performance.now() - start);
    }
    return taken;
  }, times);

/** The same for moves of a vertex of random runs; and to the frame that shows what the check says of it. */
const edited = (page: Page, times: number): Promise<{ shown: number[]; found: number[]; longest: number }> =>
  page.evaluate(async (count) => {
    const { session } = desk;
    let longest = 0;
    const watch = new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) longest = Math.max(longest, duration);
    });
    watch.observe({ entryTypes: ["longtask"] });
    const frame = () =>
      new Promise<void>((resolve) => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => resolve();
        requestAnimationFrame(() => port2.postMessage(null));
      });
    const [shown, found]: [number[], number[]] = [[], []];
    const ids = Object.keys(session.getState().job.elements);
    for (let n = 0; n < count; n++) {
      await new Promise((resolve) => setTimeout(resolve, 20 + (n % 17)));
      const id = ids[(n * 7919) % ids.length]!;
      const before = session.getState().job.elements[id]!;
      if (!("vertices" in before)) continue;
      const vertices = before.vertices.map((vertex, k) =>
        k === 1 ? { ...vertex, at: [vertex.at[0] + (n % 2 ? 4 : -4), vertex.at[1]] } : vertex,
      );
      const start = performance.now();
      session.commit({ name: "Move", changes: [{ table: "elements", id, before, after: { ...before, vertices } }] });
      await new Promise((resolve) => setTimeout(resolve, 0));
      await frame();
      shown.push(performance.now() - start);
      while (session.getState().checking) await new Promise((resolve) => setTimeout(resolve, 0));
      await frame();
      found.push(performance.now() - start);
    }
    await new Promise((resolve) => setTimeout(resolve, 200));
    watch.disconnect();
    return { shown, found, longest };
  }, times);
