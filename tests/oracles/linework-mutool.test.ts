/*
 * Linework against MuPDF, whose `mutool trace` tells every path it is asked to stroke, with its matrix: in the frame of the page as displayed,
 * y down. Its own interpreter for content streams, form XObjects and the page's rotation. Clips are told apart there, so only what is whole is compared.
 */
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Linework, SEGMENT } from "../../src/pdf/read/linework.ts";
import { applyMatrix } from "../../src/pdf/read/matrix.ts";
import { displayTransform, type PageGeometry } from "../../src/pdf/read/page-geometry.ts";
import { readLinework } from "../../src/pdf/read/read-linework.ts";
import { drawnSheet } from "../pdf/read/drawn-sheet.ts";
import { frames } from "../pdf/read/measure-reading.ts";
import { withPlan } from "../pdf/read/open-bytes.ts";
import { tools, withFile } from "../pdf/write/fixtures.ts";

type Segment = readonly [number, number, number, number];

/** The straight pieces that MuPDF strokes on a page. */
function traced(bytes: Uint8Array, page: number): Segment[] {
  const text = withFile(bytes, (path) =>
    execFileSync("mutool", ["trace", path, `${page}`], { encoding: "utf8", maxBuffer: 1 << 29 }),
  );
  const segments: Segment[] = [];
  let matrix: readonly number[] | null = null;
  let [from, start] = [
    [0, 0],
    [0, 0],
  ];
  for (const line of text.split("\n")) {
    const [, tag] = /^\s*<(\/?\w+)/.exec(line) ?? [];
    if (tag === "stroke_path") matrix = /transform="([^"]*)"/.exec(line)![1]!.split(" ").map(Number);
    else if (tag === "/stroke_path") matrix = null;
    if (!matrix || !tag) continue;
    const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = matrix;
    const [x, y] = ["x", "y"].map((name) => Number(new RegExp(`\\b${name}3?="([^"]*)"`).exec(line)?.[1]));
    const at = [a * x! + c * y! + e, b * x! + d * y! + f];
    if (tag === "moveto") start = at;
    if (tag === "lineto") segments.push([from[0]!, from[1]!, at[0]!, at[1]!]);
    if (tag === "closepath") segments.push([from[0]!, from[1]!, start[0]!, start[1]!]);
    if (tag === "moveto" || tag === "lineto" || tag === "curveto") from = at;
    if (tag === "closepath") from = start;
  }
  return segments;
}

/** Coarse keys of a segment, either way round, so that a rounding apart still finds its partner. */
const cell = 0.5;
const keysOf = ([a, b, c, d]: Segment): string[] => {
  const [x, y, w, h] = [(a + c) / 2, (b + d) / 2, Math.abs(a - c), Math.abs(b - d)];
  const rounded = [Math.floor, Math.ceil];
  return rounded.flatMap((f) => rounded.map((g) => `${f(x / cell)} ${g(y / cell)} ${Math.round(w)} ${Math.round(h)}`));
};
const setOf = (segments: readonly Segment[]): Set<string> => new Set(segments.flatMap(keysOf));

/** Ours as displayed, whole straight strokes only. */
function ours(linework: Linework, geometry: PageGeometry): Segment[] {
  const shown = displayTransform(geometry);
  return Array.from({ length: linework.count }, (_, i) => i)
    .filter((i) => {
      const left = SEGMENT.curved | SEGMENT.cutStart | SEGMENT.cutEnd;
      return (linework.flags[i]! & left) === 0 && linework.styles[linework.style[i]!]!.stroke !== null;
    })
    .map((i) => {
      const [a, b, c, d] = linework.coords.slice(4 * i, 4 * i + 4) as unknown as Segment;
      const [from, to] = [applyMatrix(shown, [a, b]), applyMatrix(shown, [c, d])];
      return [from[0], from[1], to[0], to[1]];
    });
}

async function compare(bytes: Uint8Array, page: number, leastShared: number): Promise<void> {
  const theirs = traced(bytes, page);
  await withPlan(bytes.slice(), async (plan) => {
    const mine = ours(await readLinework(plan, page), plan.pages[page - 1]!);
    const [known, found] = [setOf(theirs), setOf(mine)];
    const strange = mine.filter((segment) => !keysOf(segment).some((key) => known.has(key)));
    expect(strange.length / mine.length, JSON.stringify(strange.slice(0, 3))).toBeLessThan(1e-3);
    const long = theirs.filter(([a, b, c, d]) => Math.hypot(a - c, b - d) > 0.01);
    const shared = long.filter((segment) => keysOf(segment).some((key) => found.has(key)));
    expect(shared.length / long.length).toBeGreaterThan(leastShared);
  });
}

describe.skipIf(!tools.mutool)("linework as MuPDF traces it (skipped where mutool is not installed)", () => {
  it.each(frames.map((frame, i) => [JSON.stringify(frame), frame, i] as const))(
    "on a drawn sheet with %s",
    async (_, frame, i) => {
      const { bytes } = await drawnSheet(i + 1, frame);
      // A few leaders run off the page, and are cut.
      await compare(bytes, 1, 0.95);
    },
  );

  // What is missing there are lines that a clip or the page's edge cuts.
  it.each([
    ["house-A103-roof-11x17-reduced.pdf", 1, 0.9],
    ["cad-a3-rot270-vp.pdf", 1, 0.9],
    ["metal-building-set.pdf", 3, 0.95],
  ])("on %s, page %i (skipped where it is not at hand)", async (name, page, leastShared) => {
    const file = new URL(`../../../shared/drawings/${name}`, import.meta.url);
    if (existsSync(file)) await compare(new Uint8Array(readFileSync(file)), page, leastShared);
  });
});
