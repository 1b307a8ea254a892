import { existsSync } from "node:fs";
import { type Browser, chromium } from "playwright-core";
import { findChromium } from "../browser/chromium.ts";
import type { CanvasDesk } from "../canvas/canvas-page.ts";
import type { EmptyDesk } from "../canvas/empty-page.ts";
import type { FrameTimes } from "../canvas/frame-times.ts";
import { openCanvas } from "../canvas/open-canvas.ts";
import { contentPagePdf } from "../pdf/read/tiny-pdf.ts";
import { type BenchRow, benchRow } from "./bench-row.ts";

declare const desk: CanvasDesk;
declare const emptyDesk: EmptyDesk;

const MARKS = 10_000;
const STEPS = 120;
/** Watched after each gesture, for what comes when it rests. */
const REST_MS = 1_200;
const ROUNDS = 3;
const SET = "../shared/drawings/metal-building-set.pdf";
const SHEET = { view: [0, 0, 2160, 3024], rotate: 0, userUnit: 1 } as const;
/** Operators of a sheet as dense as the densest of that set. */
const PATHS = 121_500;

/** Without a graphics card the browser puts its pictures together by plain software; emulating a card, as the tests do, is slower many times over. */
const plainChromium = async (): Promise<Browser> =>
  chromium.launch({
    executablePath: await findChromium(),
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
  });

/** A sheet of 243,000 operators, each second one a stroke. */
const denseSheet = (): Uint8Array =>
  contentPagePdf(
    Array.from({ length: PATHS }, (_, i) => {
      const [x, y] = [(i * 7919) % 2160, (i * 104_729) % 3024];
      return `${x} ${y} m ${x + (i % 9)} ${y + (i % 7)} l S`;
    }).join("\n"),
    SHEET,
  );

const p95 = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length * 0.95)]!;

/**
 * Frames while panning, zooming and dragging one vertex, ten thousand marks on a sheet of 243,000 operators, fitted and zoomed in, beside an
 * empty page of the same browser that pans or zooms one picture of the same size: the 95th of a hundred frames, and the longest the page's
 * thread was held up, also while the view came to rest. In turns, the best of three rounds.
 */
export async function run(): Promise<BenchRow[]> {
  const real = existsSync(SET);
  const canvas = await openCanvas(
    { "dense.pdf": real ? SET : denseSheet() },
    { viewport: { width: 1600, height: 1000 } },
    plainChromium,
  );
  try {
    const empty = await canvas.openEmpty();
    await canvas.page.bringToFront();
    await canvas.page.evaluate((page) => desk.show("files/dense.pdf", page), real ? 8 : 1);
    await canvas.page.evaluate((count) => desk.strew(count), MARKS);
    const size = await canvas.page.evaluate(() => {
      const base = document.querySelector<HTMLCanvasElement>("canvas[data-part=base]")!;
      const [x, y] = desk.view.view().origin;
      return { width: base.width, height: base.height, x, y };
    });
    const measured = {
      pan: async () => canvas.page.evaluate(([n, rest]) => desk.timeGesture("pan", n, rest), [STEPS, REST_MS] as const),
      zoom: async () =>
        canvas.page.evaluate(([n, rest]) => desk.timeGesture("zoom", n, rest), [STEPS, REST_MS] as const),
      drag: async () => canvas.page.evaluate(([n, rest]) => desk.timeDrag(n, rest), [STEPS, REST_MS] as const),
    };
    const rows: BenchRow[] = [];
    for (const zoom of [1, 6]) {
      for (const kind of ["pan", "zoom", "drag"] as const) {
        const [seen, bare]: [FrameTimes[], FrameTimes[]] = [[], []];
        for (let round = 0; round <= ROUNDS; round++) {
          await empty.bringToFront();
          const picture = { ...size, rest: REST_MS };
          const floor = await empty.evaluate(([how, n, what]) => emptyDesk.timeBitmap(how, n, what), [
            kind === "zoom" ? "zoom" : "pan",
            STEPS,
            picture,
          ] as const);
          await canvas.page.bringToFront();
          await canvas.page.evaluate(async (factor) => {
            desk.view.fit();
            desk.view.zoomBy(factor);
            await desk.settled();
          }, zoom);
          const times = await measured[kind]();
          await canvas.page.evaluate(() => desk.settled());
          // The first round starts what starts slowly.
          if (round === 0) continue;
          seen.push(times);
          bare.push(floor);
        }
        const frame = (rounds: FrameTimes[]) => Math.min(...rounds.map(({ frames }) => p95(frames)));
        const block = (rounds: FrameTimes[]) => Math.min(...rounds.map((round) => round.block));
        const what = `${kind === "drag" ? "drag a vertex" : kind}, ${MARKS} marks, ${zoom === 1 ? "whole sheet" : `zoomed ${zoom} times`}`;
        const wanted = kind === "drag" ? "at most 1.5x wanted" : "at most 1.05x wanted";
        rows.push(
          benchRow(`${what}: frame, p95`, frame(seen), "one picture moved in an empty page", frame(bare), wanted),
          benchRow(`${what}: longest block`, block(seen), "the same", block(bare), "at most 50 ms wanted"),
        );
      }
    }
    return rows;
  } finally {
    await canvas.close();
  }
}
