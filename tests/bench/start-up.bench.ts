import type { Browser } from "playwright-core";
import { ensureBuilt } from "../../src/cli/build.mjs";
import { servePage } from "../browser/serve-page.ts";
import { shellSize } from "../shell-size.ts";
import { type BenchRow, benchRow } from "./bench-row.ts";
import { plainChromium, serveEmptyApp } from "./open-app.ts";

const ROUNDS = 7;

/**
 * From the beginning of the navigation to the first act that works, nothing kept in the browser: in the program the sheet of the sample is
 * there, and Alt+1 has opened the drawer of the Sheet stage; in an empty page of the same framework, built by the same vite, a key has raised its
 * number. In one browser, in turns.
 */
export async function run(): Promise<BenchRow[]> {
  const [program, empty, browser] = await Promise.all([servePage(), serveEmptyApp(), plainChromium()]);
  try {
    const rows: BenchRow[] = [];
    const times = { sample: [] as number[], start: [] as number[], empty: [] as number[] };
    for (let round = 0; round <= ROUNDS; round++) {
      const sheet = "#drawer-sheet";
      const picture = "canvas[data-part=base]";
      const taken = [
        await firstAct(browser, `${program.address}?sample=riverside-workshop`, picture, sheet),
        await firstAct(browser, program.address, ".start button", ".start button"),
        await firstAct(browser, empty.address, "output", "output:not([data-count='0'])"),
      ];
      // The first round warms the browser and the disk.
      if (round === 0) continue;
      times.sample.push(taken[0]!);
      times.start.push(taken[1]!);
      times.empty.push(taken[2]!);
    }
    const floor = median(times.empty);
    const floorName = "an empty React page, the same";
    rows.push(
      benchRow(
        "start-up to the first act on the sample's sheet",
        median(times.sample),
        floorName,
        floor,
        "at most 1.5x wanted",
      ),
      benchRow("start-up to the start page", median(times.start), floorName, floor),
      sizeRow(shellSize(await ensureBuilt("page"))),
    );
    return rows;
  } finally {
    await browser.close();
    await program.close();
    empty.close();
  }
}

const sizeRow = (bytes: number): BenchRow =>
  benchRow("the shell, KB after gzip (not milliseconds)", bytes / 1000, "what it may have", 350, "sizes, not times");

const median = (times: readonly number[]): number => times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)]!;

/** Milliseconds from the beginning of the navigation until `ready` is there and Alt+1, pressed again and again, has led to `done`. */
async function firstAct(browser: Browser, address: string, ready: string, done: string): Promise<number> {
  const context = await browser.newContext({ viewport: { width: 1600, height: 1000 } });
  try {
    const page = await context.newPage();
    await page.goto(address, { waitUntil: "commit" });
    return await page.evaluate(
      async ([first, last]) => {
        while (!document.querySelector(first) || !document.querySelector(last)) {
          if (document.querySelector(first))
            window.dispatchEvent(
              new KeyboardEvent("keydown", { key: "1", code: "Digit1", altKey: true, bubbles: true }),
            );
          await new Promise((resolve) => setTimeout(resolve, 0));
        }
        return performance.now();
      },
      [ready, done] as const,
    );
  } finally {
    await context.close();
  }
}
