/**
 * Marks on every kind of page in every kind of file: four turnings, three crop boxes and two user units on the pages of one drawing, written
 * with each kind of cross-reference and each standard protection. qpdf checks the structure; poppler, MuPDF and pdf.js draw every page,
 * and the mark must be where ISO 32000-2 puts it (8.3.2.3 and table 31, computed here and not by our code), in its colour.
 */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { dirname } from "node:path";
import { degrees, PDFDocument, PDFName, PDFNumber } from "@cantoo/pdf-lib";
import { getDocument, VerbosityLevel } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import {
  issue,
  mark,
  qpdf,
  qpdfComplaints,
  readPpm,
  squareAt,
  tools,
  vermillion,
  withFile,
} from "../pdf/write/fixtures.ts";
import { asHybrid } from "../pdf/write/hybrid.ts";

type Box = readonly [x: number, y: number, width: number, height: number];
type Pixels = ReturnType<typeof readPpm>;

const SIZE = [400, 300] as const;
const SPOT = [140, 90] as const;
const HALF = 8;
const COLOUR = [vermillion.r, vermillion.g, vermillion.b].map((c) => Math.round(c * 255));

/** Crop boxes as the page states them, and what of them lies on the page. */
const CROPS: readonly { readonly stated?: Box; readonly shown: Box }[] = [
  { shown: [0, 0, ...SIZE] },
  { stated: [50, 30, 300, 200], shown: [50, 30, 300, 200] },
  { stated: [-40, 60, 260, 180], shown: [0, 60, 220, 180] },
];
const CASES = [0, 90, 180, 270].flatMap((rotate) =>
  CROPS.flatMap((crop) => [1, 2].map((userUnit) => ({ rotate, ...crop, userUnit }))),
);

/** One page a case. Page, font and content objects are the drawing's own; nothing of it is ours. */
const drawing = async (objectStreams: boolean): Promise<Uint8Array> => {
  const document = await PDFDocument.create();
  for (const { rotate, stated, userUnit } of CASES) {
    const page = document.addPage([...SIZE]);
    page.drawLine({ start: { x: 20, y: 280 }, end: { x: 380, y: 280 }, thickness: 1 });
    page.setRotation(degrees(rotate));
    if (stated) page.setCropBox(...(stated as [number, number, number, number]));
    if (userUnit !== 1) page.node.set(PDFName.of("UserUnit"), PDFNumber.of(userUnit));
  }
  return document.save({ useObjectStreams: objectStreams });
};

const lock = (...options: string[]) => ["--allow-weak-crypto", "--encrypt", "", "owner", ...options, "--"];
const KINDS: Readonly<Record<string, () => Promise<Uint8Array>>> = {
  "a cross-reference table": () => drawing(false),
  "a cross-reference stream and object streams": () => drawing(true),
  "a hybrid of both": async () => asHybrid(await drawing(false)),
};
const QPDF_KINDS: Readonly<Record<string, readonly string[]>> = {
  "a table, linearized": ["--linearize", "--object-streams=disable"],
  "object streams, linearized": ["--linearize", "--object-streams=generate"],
  "RC4 with 40 bits": lock("40"),
  "RC4 with 128 bits": lock("128", "--use-aes=n"),
  "AES with 128 bits": lock("128", "--use-aes=y"),
  "AES with 256 bits": lock("256"),
  "AES with 256 bits, the older kind": lock("256", "--force-R5"),
};
const all: [string, () => Promise<Uint8Array>][] = [
  ...Object.entries(KINDS),
  ...Object.entries(tools.qpdf ? QPDF_KINDS : {}).map(([name, options]): [string, () => Promise<Uint8Array>] => [
    name,
    async () => qpdf(await drawing(false), ...options),
  ]),
];

/** Where the spot is seen: units of sheet space from the left and the top of the shown page. */
const placeOf = ({ rotate, shown: [left, bottom, width, height] }: (typeof CASES)[number]): [number, number] => {
  const [u, v] = [SPOT[0] - left, SPOT[1] - bottom];
  if (rotate === 90) return [v, u];
  if (rotate === 180) return [width - u, v];
  if (rotate === 270) return [height - v, width - u];
  return [u, height - v];
};

const expectMark = (image: Pixels, c: (typeof CASES)[number], who: string): void => {
  const [, , width, height] = c.shown;
  const turned = c.rotate % 180 !== 0;
  // Renderers differ in whether they honour a user unit: pixels to a unit are measured from the picture.
  const scale = image.width / (turned ? height : width);
  expect(image.height / (turned ? width : height), who).toBeCloseTo(scale, 1);
  const [x, y] = placeOf(c);
  const seen = (dx: number, dy: number) => image.at((x + dx) * scale, (y + dy) * scale);
  const near = (got: readonly number[], want: readonly number[]) =>
    got.every((part, i) => Math.abs(part - want[i]!) < 8);
  for (const [dx, dy] of [
    [0, 0],
    [6, 6],
    [-6, 6],
    [6, -6],
    [-6, -6],
  ] as const)
    expect(near(seen(dx, dy), COLOUR), `${who}: ${JSON.stringify(c)} inside at ${dx}, ${dy}: ${seen(dx, dy)}`).toBe(
      true,
    );
  for (const [dx, dy] of [
    [11, 0],
    [-11, 0],
    [0, 11],
    [0, -11],
  ] as const)
    expect(near(seen(dx, dy), [255, 255, 255]), `${who}: ${JSON.stringify(c)} outside at ${dx}, ${dy}`).toBe(true);
};

const drawnBy = (
  bytes: Uint8Array,
  program: (path: string, folder: string) => string[],
  files: (n: number) => string,
) =>
  withFile(bytes, (path) => {
    const folder = dirname(path);
    const [name, ...options] = program(path, folder) as [string, ...string[]];
    execFileSync(name, options, { stdio: "ignore" });
    return CASES.map((_, i) => readPpm(readFileSync(`${folder}/${files(i + 1)}`)));
  });

async function expectInPdfJs(bytes: Uint8Array): Promise<void> {
  const task = getDocument({ data: bytes.slice(), verbosity: VerbosityLevel.ERRORS });
  const document = await task.promise;
  expect(document.numPages).toBe(CASES.length);
  for (const [i, c] of CASES.entries()) {
    const page = await document.getPage(i + 1);
    const viewport = page.getViewport({ scale: 1 });
    const factory = document.canvasFactory as {
      create(w: number, h: number): { canvas: never; context: CanvasRenderingContext2D };
    };
    const { canvas, context } = factory.create(Math.round(viewport.width), Math.round(viewport.height));
    await page.render({ canvas, canvasContext: context, viewport }).promise;
    const { data, width, height } = context.getImageData(0, 0, Math.round(viewport.width), Math.round(viewport.height));
    const at = (x: number, y: number): [number, number, number] => {
      const from = 4 * (Math.floor(y) * width + Math.floor(x));
      return [data[from]!, data[from + 1]!, data[from + 2]!];
    };
    expectMark({ width, height, at }, c, "pdf.js");
    page.cleanup();
  }
  await task.destroy();
}

/** How the section that the file's last `startxref` leads to begins: a table with its keyword, a stream as an object (ISO 32000-2, 7.5.4, 7.5.8). */
const lastSection = (bytes: Uint8Array): "table" | "stream" => {
  const text = Buffer.from(bytes).toString("latin1");
  const start = Number(/startxref\s+(\d+)\s+%%EOF\s*$/.exec(text)![1]);
  return text.startsWith("xref", start) ? "table" : "stream";
};

describe.each(all)(`${CASES.length} kinds of page in a file with %s`, (name, make) => {
  it.each([false, true])(
    "take their marks where they belong, drawn into the page: %s (programs that are not installed are left out)",
    { timeout: 120_000 },
    async (flatten) => {
      const original = await make();
      if (tools.qpdf) expect(qpdfComplaints(original), "the test's own file").toBe("");
      const annotations = [mark({ rect: [...SPOT, ...SPOT], picture: squareAt(...SPOT, HALF) })];
      const password = name.includes("AES") || name.includes("RC4") ? { password: "owner" } : {};
      const issued = issue(original, {
        pages: CASES.map((_, i) => ({ page: i + 1, annotations })),
        flatten,
        ...password,
      });
      expect(Buffer.from(issued.subarray(0, original.length)).equals(Buffer.from(original))).toBe(true);
      // A program that reads tables only, for which a hybrid is made, must find the update too.
      expect(lastSection(issued), "the section of the update").toBe(lastSection(original));
      if (tools.qpdf) expect(qpdfComplaints(issued)).toBe("");
      if (tools.pdftoppm) {
        const poppler = (path: string, folder: string) => ["pdftoppm", "-r", "72", "-cropbox", path, `${folder}/p`];
        for (const [i, image] of drawnBy(issued, poppler, (n) => `p-${String(n).padStart(2, "0")}.ppm`).entries())
          expectMark(image, CASES[i]!, "poppler");
      }
      if (tools.mutool) {
        const mupdf = (path: string, folder: string) => [
          "mutool",
          "draw",
          "-q",
          "-F",
          "ppm",
          "-r",
          "72",
          "-o",
          `${folder}/m-%d.ppm`,
          path,
        ];
        for (const [i, image] of drawnBy(issued, mupdf, (n) => `m-${n}.ppm`).entries())
          expectMark(image, CASES[i]!, "MuPDF");
      }
      await expectInPdfJs(issued);
    },
  );
});
