import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { degrees, PDFDocument, PDFName, PDFNumber, rgb } from "@cantoo/pdf-lib";
import type { FontFace, Picture } from "../../../src/geometry/picture.ts";
import { pdfMessages } from "../../../src/pdf/messages.ts";
import type { AnnotationSpec } from "../../../src/pdf/write/annotations.ts";
import { type AppendRequest, appendUpdate, issuedBytes } from "../../../src/pdf/write/append-update.ts";
import { radians } from "../../../src/units/quantity.ts";

const fontFile = (path: string): Uint8Array =>
  new Uint8Array(readFileSync(createRequire(import.meta.url).resolve(`roboto-fontface/fonts/${path}`)));

export const fonts: Readonly<Record<FontFace, Uint8Array>> = {
  regular: fontFile("roboto/Roboto-Regular.woff"),
  bold: fontFile("roboto/Roboto-Bold.woff"),
  condensed: fontFile("roboto-condensed/Roboto-Condensed-Regular.woff"),
};

export const day = new Date("2026-03-04T05:06:07Z");
export const job = {
  name: "job.json",
  mime: "application/json",
  description: "The job",
  bytes: new TextEncoder().encode('{"run":"R-14"}'.repeat(50)),
  modified: day,
};
export const layers = [{ id: "findings", name: "Clearance findings" }];
export const vermillion = { r: 0.835, g: 0.369, b: 0 };

/** A filled square about a point, 20 units wide. */
export const squareAt = (x: number, y: number, half = 10): Picture => [
  {
    type: "path",
    steps: [
      ["M", x - half, y - half],
      ["L", x + half, y - half],
      ["L", x + half, y + half],
      ["L", x - half, y + half],
      ["Z"],
    ],
    fill: vermillion,
  },
];

/** A line of text with the signs the trade needs. */
export const tradeText = (x: number, y: number): Picture => [
  {
    type: "text",
    text: "12′-6⅜″ ≥ 1½″ EMT ⅝ ⅞",
    at: [x, y],
    size: 12,
    angle: radians(0),
    align: "start",
    face: "regular",
    fill: { r: 0, g: 0, b: 0 },
  },
];

export const mark = (over: Partial<AnnotationSpec> = {}): AnnotationSpec => ({
  subtype: "Square",
  name: "underside-1",
  contents: "Run R-14 is 7/8″ under the deck",
  author: "Reviewer",
  subject: "too close",
  modified: day,
  layer: "findings",
  rect: [100, 100, 120, 120],
  colour: vermillion,
  width: 1,
  picture: squareAt(110, 110),
  ...over,
});

export const request = (over: Partial<AppendRequest> = {}): AppendRequest => ({
  pages: [{ page: 1, annotations: [mark()] }],
  layers,
  fonts,
  ...over,
});

/** The issued file; throws, in the words a person would read, when it is refused. */
export const issue = (original: Uint8Array, over: Partial<AppendRequest> = {}): Uint8Array => {
  const result = appendUpdate(original, request(over));
  if (result.ok) return issuedBytes(original, result.value.increment);
  throw new Error(result.problems.map((p) => pdfMessages[p.code]?.(p.params) ?? `no words for ${p.code}`).join("\n"));
};

export interface DrawingOptions {
  pages?: number;
  size?: [number, number];
  rotate?: number;
  crop?: [x: number, y: number, width: number, height: number];
  userUnit?: number;
  objectStreams?: boolean;
  text?: string;
}

/** A drawing of our own: a frame and a line of text on each page. */
export const drawing = async (o: DrawingOptions = {}): Promise<Uint8Array> => {
  const doc = await PDFDocument.create();
  const font = await doc.embedFont("Helvetica");
  for (let i = 1; i <= (o.pages ?? 1); i++) {
    const page = doc.addPage(o.size ?? [400, 300]);
    page.drawRectangle({ x: 20, y: 20, width: 360, height: 260, borderWidth: 1, borderColor: rgb(0, 0, 0) });
    page.drawText(o.text ?? `Sheet E-${i}`, { x: 40, y: 250, size: 14, font });
    if (o.rotate) page.setRotation(degrees(o.rotate));
    if (o.crop) page.setCropBox(...o.crop);
    if (o.userUnit) page.node.set(PDFName.of("UserUnit"), PDFNumber.of(o.userUnit));
  }
  return doc.save({ useObjectStreams: o.objectStreams ?? false });
};

/** One report page of our own. */
export const report = async (text = "Clearance report"): Promise<Uint8Array> => {
  const doc = await PDFDocument.create();
  const font = await doc.embedFont("Helvetica");
  for (let i = 1; i <= 2; i++) doc.addPage([612, 792]).drawText(`${text} ${i}`, { x: 72, y: 700, size: 12, font });
  return doc.save();
};

/** True when a program is installed. */
export const has = (program: string, flag = "--version"): boolean => spawnSync(program, [flag]).error === undefined;
export const tools = {
  qpdf: has("qpdf"),
  mutool: has("mutool", "-v"),
  pdftotext: has("pdftotext", "-v"),
  pdftoppm: has("pdftoppm", "-v"),
};

/** Gives a program the bytes as a file, which is gone afterwards. */
export const withFile = <T>(bytes: Uint8Array, use: (path: string) => T): T => {
  const folder = mkdtempSync(join(tmpdir(), "underside-pdf-"));
  try {
    const path = join(folder, "sheet.pdf");
    writeFileSync(path, bytes);
    return use(path);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

/** Rewrites a PDF with qpdf's options. */
export const qpdf = (bytes: Uint8Array, ...options: string[]): Uint8Array =>
  withFile(bytes, (path) => {
    execFileSync("qpdf", [...options, path, `${path}.out`], { stdio: ["ignore", "pipe", "pipe"] });
    return new Uint8Array(readFileSync(`${path}.out`));
  });

/** What `qpdf --check` has against a file: "" when nothing. */
export const qpdfComplaints = (bytes: Uint8Array, password = ""): string =>
  withFile(bytes, (path) => {
    const run = spawnSync("qpdf", ["--check", `--password=${password}`, path], { encoding: "utf8" });
    return run.status === 0 ? "" : `${run.stdout}\n${run.stderr}`;
  });

/** The text of pages as pdftotext reads it. */
export const pdftotext = (bytes: Uint8Array, ...options: string[]): string =>
  withFile(bytes, (path) => execFileSync("pdftotext", [...options, path, "-"], { encoding: "utf8" }));

const drawnBy = (program: string, ...options: string[]) =>
  readPpm(execFileSync(program, options, { maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "ignore"] }));

/** A page as pixels, drawn by pdftoppm: width, height and red, green, blue in turn. */
export const pixels = (bytes: Uint8Array, page: number, dpi: number, ...options: string[]) =>
  withFile(bytes, (path) => drawnBy("pdftoppm", "-f", `${page}`, "-l", `${page}`, "-r", `${dpi}`, ...options, path));

/** A page as pixels, drawn by mutool. */
export const mutoolPixels = (bytes: Uint8Array, page: number, dpi: number) =>
  withFile(bytes, (path) => drawnBy("mutool", "draw", "-q", "-F", "ppm", "-r", `${dpi}`, "-o", "-", path, `${page}`));

export const readPpm = (
  data: Buffer,
): { width: number; height: number; at: (x: number, y: number) => [number, number, number] } => {
  const head = /^P6\s+(?:#.*\s+)?(\d+)\s+(\d+)\s+255\s/.exec(data.subarray(0, 200).toString("latin1"));
  if (!head) throw new Error("not a pixel map");
  const [width, height, start] = [Number(head[1]), Number(head[2]), head[0].length];
  return {
    width,
    height,
    at: (x, y) => {
      const i = start + 3 * (Math.floor(y) * width + Math.floor(x));
      return [data[i] as number, data[i + 1] as number, data[i + 2] as number];
    },
  };
};
