import { type Browser, chromium } from "playwright-core";
import { findChromium } from "../browser/chromium.ts";
import type { CanvasDesk } from "../canvas/canvas-page.ts";
import { openCanvas } from "../canvas/open-canvas.ts";
import { contentPagePdf } from "../pdf/read/tiny-pdf.ts";
import { type BenchRow, benchRow } from "./bench-row.ts";

declare const desk: CanvasDesk;

const MARKS = 10_000;
const STEPS = 90;
const SHEET = { view: [0, 0, 3024, 2160], rotate: 0, userUnit: 1 } as const;

/** Without a graphics card the browser puts its pictures together by plain software; emulating a card, as the tests do, is slower many times over. */
const plainChromium = async (): Promise<Browser> =>
  chromium.launch({
    executablePath: await findChromium(),
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
  });

/** A frame of a pan with ten thousand marks on the sheet, all in view or a tenth of them, beside the same pan with none: medians. */
export async function run(): Promise<BenchRow[]> {
  const lines = Array.from({ length: 300 }, (_, i) => `${i * 10} 0 m ${i * 10} 2160 l S`).join("\n");
  const canvas = await openCanvas(
    { "lines.pdf": contentPagePdf(lines, SHEET) },
    { viewport: { width: 1600, height: 1000 } },
    plainChromium,
  );
  try {
    await canvas.page.evaluate(() => desk.show("files/lines.pdf"));
    const pan = async (marks: number, zoom: number): Promise<number> => {
      const times = await canvas.page.evaluate(
        async ([count, factor, steps]) => {
          const ink = { r: 0.84, g: 0.37, b: 0 };
          const spots = Array.from({ length: count }, (_, i) => {
            const [x, y] = [(i * 7919) % 3024, (i * 104729) % 2160];
            const steps = [["M", x - 7, y - 4], ["L", x + 7, y - 4], ["L", x, y + 8], ["Z"]] as const;
            return {
              key: `f${i}`,
              hit: { kind: "spot", at: [x, y], radius: 8 } as const,
              picture: [
                { type: "path", steps, fill: ink, stroke: ink, width: 1, opacity: 0.8 },
                {
                  type: "text",
                  text: `F-${i}`,
                  at: [x + 9, y],
                  size: 9,
                  angle: 0 as never,
                  align: "start",
                  face: "regular",
                  fill: ink,
                },
              ] as const,
            };
          });
          desk.view.setMarks("findings", spots);
          desk.view.fit();
          desk.view.zoomBy(factor);
          await desk.settled();
          const frames = await desk.timePan(steps);
          await desk.settled();
          return frames;
        },
        [marks, zoom, STEPS] as const,
      );
      times.sort((a, b) => a - b);
      return times[Math.floor(times.length / 2)]!;
    };
    await pan(0, 1);
    const rows: BenchRow[] = [];
    for (const zoom of [1, 3]) {
      const none = await pan(0, zoom);
      const all = await pan(MARKS, zoom);
      rows.push(
        benchRow(`pan with ${MARKS} marks, zoom ${zoom}`, all, "the same pan without marks", none, "a frame, median"),
      );
    }
    return rows;
  } finally {
    await canvas.close();
  }
}
