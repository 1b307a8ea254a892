import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect } from "vitest";
import { CEILING, FRAMING, type Place, SAMPLE_PDF, type TestSheet } from "./desk.ts";

/** The issued file starts with the drawing's own bytes, has more behind them, and is in order by an independent checker where there is one. */
export function expectIssuedFrom(drawing: string, issued: Uint8Array): void {
  const own = readFileSync(drawing);
  expect(issued.length).toBeGreaterThan(own.length);
  expect(Buffer.compare(issued.subarray(0, own.length), own)).toBe(0);
  withFile(issued, (path) => {
    const checked = spawnSync("qpdf", ["--check", path], { encoding: "utf8" });
    if (checked.error) return;
    // 0: no errors and no warnings (3 would be warnings).
    expect(checked.status, `qpdf --check: ${checked.stdout}${checked.stderr}`).toBe(0);
  });
}

/** Inks that marks are drawn in, as a picture of the page shows them. */
type SeenInk = "vermillion" | "blue" | "purple" | "brown";

/** Inks found in a small square about a place of a page, drawn by poppler at 100 dpi. Null where poppler is absent. */
function inksAt(pdf: Uint8Array, page: number, at: Place, { view, rotate }: TestSheet): readonly SeenInk[] | null {
  if (rotate !== 0 && rotate !== 90) throw new Error("no test needs another turn");
  // Turned a quarter clockwise, the page's lower left corner is at the upper left, and its own y runs to the right.
  const [fromLeft, fromTop] = rotate === 90 ? [at[1] - view[1], at[0] - view[0]] : [at[0] - view[0], view[3] - at[1]];
  return withFile(pdf, (path) => {
    const scale = 100 / 72;
    const side = 24;
    const [left, top] = [fromLeft, fromTop].map((points) => Math.round(points * scale) - side / 2);
    const args = [
      "-r",
      "100",
      "-f",
      `${page}`,
      "-l",
      `${page}`,
      "-x",
      `${left}`,
      "-y",
      `${top}`,
      "-W",
      `${side}`,
      "-H",
      `${side}`,
      path,
    ];
    const drawn = spawnSync("pdftoppm", args, { maxBuffer: 1e8 });
    if (drawn.error) return null;
    const found = new Set<SeenInk>();
    for (const [r, g, b] of pixels(drawn.stdout)) {
      // Hue alone: marks lie half transparent over white paper and black lines.
      const [high, low] = [Math.max(r, g, b), Math.min(r, g, b)];
      if (high - low < 40) continue;
      const hue = hueOf(r, g, b, high, low);
      // Vermillion and the brown of decks have one hue; brown stays dark, however thin.
      if (hue > 10 && hue < 36) found.add(high > 205 ? "vermillion" : "brown");
      else if (hue > 180 && hue < 225) found.add("blue");
      else if (hue > 285 && hue < 345) found.add("purple");
    }
    return [...found];
  });
}

/**
 * The sample's issued file shows the marks where they belong, and the drawing itself has none there: the stretch of R-2 that is too
 * close, just short of its end; R-7, of which nothing can be told; the outlines of a roof and of an area that is not settled.
 */
export function expectMarks(issued: Uint8Array): void {
  const drawing = new Uint8Array(readFileSync(SAMPLE_PDF));
  const marks: readonly (readonly [SeenInk, number, Place, TestSheet])[] = [
    ["vermillion", 2, [948, 436], CEILING],
    ["purple", 2, [900, 1332], CEILING],
    ["brown", 1, [486, 232], FRAMING],
    ["purple", 1, [846, 556], FRAMING],
  ];
  for (const [ink, page, at, sheet] of marks) {
    const [before, after] = [drawing, issued].map((pdf) => inksAt(pdf, page, at, sheet));
    if (!before || !after) return;
    expect(before, `the drawing's page ${page} at ${at}`).not.toContain(ink);
    expect(after, `the issued page ${page} at ${at}`).toContain(ink);
  }
}

function hueOf(r: number, g: number, b: number, high: number, low: number): number {
  const span = high - low;
  const sixth = high === r ? ((g - b) / span + 6) % 6 : high === g ? (b - r) / span + 2 : (r - g) / span + 4;
  return sixth * 60;
}

/** The pixels of a binary PPM (P6, 8 bits). */
function* pixels(ppm: Uint8Array): Generator<readonly [number, number, number]> {
  const head = /^P6\s+\d+\s+\d+\s+255\s/.exec(Buffer.from(ppm.subarray(0, 64)).toString("latin1"));
  if (!head) throw new Error("not a picture");
  for (let at = head[0].length; at + 2 < ppm.length; at += 3) yield [ppm[at]!, ppm[at + 1]!, ppm[at + 2]!];
}

function withFile<T>(bytes: Uint8Array, use: (path: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), "underside-issued-"));
  try {
    const path = join(folder, "issued.pdf");
    writeFileSync(path, bytes);
    return use(path);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
