import { existsSync, readFileSync } from "node:fs";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { distance2, type Point2 } from "../../src/geometry/point.ts";
import { applyTo, type Similarity } from "../../src/geometry/similarity.ts";
import { sheetToBuilding } from "../../src/job/registration.ts";
import { emptyJob, type Job } from "../../src/job/schema.ts";
import { openPlan, type PdfEngine } from "../../src/pdf/read/open-plan.ts";
import type { PageContents, TextRun } from "../../src/pdf/read/plan-contents.ts";
import { readPage } from "../../src/pdf/read/plan-reader.ts";

// A real set of drawings, outside the project. Its dimension strings say 27'-6" a bay between grids 1 and 21, and 50'-0" between A and E.
const SET = new URL("../../../shared/drawings/metal-building-set.pdf", import.meta.url);
const BAY_IN = 27.5 * 12;
const fonts = new URL("../../node_modules/pdfjs-dist/standard_fonts/", import.meta.url).pathname;

const middle = ({ at, angle, width }: TextRun): Point2 => [
  at[0] + (width / 2) * Math.cos(angle),
  at[1] + (width / 2) * Math.sin(angle),
];

/** The bubbles of one row of grids by their labels: the texts of those labels that share the row's position. */
function bubbles(page: PageContents, labels: readonly string[], onRow: (at: Point2) => boolean): Map<string, Point2> {
  const found = new Map<string, Point2>();
  for (const run of page.texts) {
    const at = middle(run);
    if (labels.includes(run.text.trim()) && onRow(at)) found.set(run.text.trim(), at);
  }
  return found;
}

async function readSheet(page: number): Promise<PageContents> {
  const plan = await openPlan({ getDocument } as unknown as PdfEngine, new Uint8Array(readFileSync(SET)), {
    engineSettings: { standardFontDataUrl: fonts },
  });
  if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
  try {
    return await readPage(plan.value, page);
  } finally {
    await plan.value.close();
  }
}

/** Sheet to building by the scale note the sheet carries. */
function byItsNote(page: PageContents, note: string): Similarity {
  const stated = page.scaleNotes.find((found) => found.text === note);
  if (!stated || stated.ratio === null)
    throw new Error(`no note ${note}: ${page.scaleNotes.map((n) => n.text).join(", ")}`);
  const { view, rotate, userUnit } = page.geometry;
  const job: Job = {
    ...emptyJob("Grid", "us-2023"),
    sheets: {
      s: {
        title: "",
        file: { sha256: "0".repeat(64), name: "", bytes: 0 },
        page: 1,
        view: [...view],
        rotate,
        userUnit,
      },
    },
    viewports: {
      v: {
        sheet: "s",
        name: "",
        region: null,
        storey: null,
        scale: { stated: { text: note, ratio: stated.ratio }, measured: null, use: "stated" },
        registration: null,
      },
    },
  };
  const registered = sheetToBuilding(job, "v");
  if (!registered.ok) throw new Error("not registered");
  return registered.value.sim;
}

const errorOf = (sim: Similarity, a: Point2, b: Point2, bays: number): number =>
  Math.abs(distance2(applyTo(sim, a), applyTo(sim, b)) / (bays * BAY_IN) - 1);

describe.skipIf(!existsSync(SET))(
  "grid bays of 27'-6\" on a real set of drawings (skipped where it is not at hand)",
  () => {
    it('come out within 0.3 % on the roof plan at 3/64" = 1\'-0"', async () => {
      const page = await readSheet(3);
      const sim = byItsNote(page, `3/64" = 1'-0"`);
      const labels = Array.from({ length: 21 }, (_, i) => `${i + 1}`);
      // /Rotate 90: the row of bubbles below the plan has one x on the unrotated page; the border's zone numbers have another.
      const row = bubbles(page, labels, ([x]) => x > 1500 && x < 1560);
      expect([...row.keys()].sort((a, b) => Number(a) - Number(b))).toEqual(labels);
      for (let n = 1; n < 21; n++) expect(errorOf(sim, row.get(`${n}`)!, row.get(`${n + 1}`)!, 1)).toBeLessThan(0.003);
      expect(errorOf(sim, row.get("1")!, row.get("21")!, 20)).toBeLessThan(0.0005);
    });

    it('come out within 0.3 % on the reflected ceiling plan at 3/16" = 1\'-0"', async () => {
      const page = await readSheet(4);
      const sim = byItsNote(page, `3/16" = 1'-0"`);
      const labels = ["9", "10", "11", "12", "13", "14"];
      const row = bubbles(page, labels, ([x]) => x > 2110);
      expect(row.size).toBe(labels.length);
      for (let n = 9; n < 14; n++) expect(errorOf(sim, row.get(`${n}`)!, row.get(`${n + 1}`)!, 1)).toBeLessThan(0.003);
    });
  },
);
