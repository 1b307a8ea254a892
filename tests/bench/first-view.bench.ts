import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import type { CanvasDesk } from "../canvas/canvas-page.ts";
import { openCanvas } from "../canvas/open-canvas.ts";
import { type BenchRow, benchRow } from "./bench-row.ts";

declare const desk: CanvasDesk;

const ROUNDS = 3;
const DRAWINGS = "../shared/drawings";

/** Sheets to look at: real ones where they are at hand (four of a set, the densest first, and a ceiling plan), else those of the samples. */
function sheets(): { name: string; path: string; page: number }[] {
  const set = join(DRAWINGS, "metal-building-set.pdf");
  const ceiling = join(DRAWINGS, "ti-conference-rcp.pdf");
  const real = [
    ...[8, 1, 7, 2].map((page) => ({ name: `metal building, sheet ${page}`, path: set, page })),
    { name: "conference centre, ceiling plan", path: ceiling, page: 1 },
  ].filter(({ path }) => existsSync(path));
  if (real.length > 0) return real;
  return readdirSync("samples", { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".pdf"))
    .sort()
    .slice(0, 3)
    .map((name) => ({ name: `samples/${name}`, path: join("samples", name), page: 1 }));
}

/**
 * First view of a sheet, from asking for it to its picture in the view, beside pdf.js alone drawing the same page at the
 * same scale onto a canvas of the page; the document open in both cases, the page never drawn before. In one browser, in turns.
 */
export async function run(): Promise<BenchRow[]> {
  const wanted = sheets();
  const files = Object.fromEntries(wanted.map(({ path }, i) => [`${i}.pdf`, path]));
  const canvas = await openCanvas(files, { viewport: { width: 1600, height: 1000 } });
  try {
    const rows: BenchRow[] = [];
    for (const [i, { name, page }] of wanted.entries()) {
      let [view, bare] = [Infinity, Infinity];
      for (let round = 0; round <= ROUNDS; round++) {
        const path = `files/${i}.pdf`;
        const seen = await canvas.page.evaluate(([p, n]) => desk.timeView(p, n), [path, page] as const);
        const alone = await canvas.page.evaluate(([p, n, s]) => desk.timeBare(p, n, s), [
          path,
          page,
          seen.scale,
        ] as const);
        // The first round starts workers and loads fonts.
        if (round === 0) continue;
        view = Math.min(view, seen.ms);
        bare = Math.min(bare, alone);
      }
      rows.push(
        benchRow(`first view: ${name}`, view, "bare pdf.js, same page and scale", bare, "at most 1.15x wanted"),
      );
    }
    return rows;
  } finally {
    await canvas.close();
  }
}
