import { degrees, PDFDocument, PDFName, PDFNumber, rgb } from "@cantoo/pdf-lib";
import type { Point2 } from "../../../src/geometry/point.ts";
import { seeded } from "../../geometry/random-scenes.ts";
import { DRAWN_HEIGHT, DRAWN_WIDTH, type SheetFrame, toSheet } from "./sheet-drawing.ts";

/** A sheet with dimensions, a scale bar and a note, drawn by another library. Places in sheet space. */
export interface DrawnScales {
  readonly bytes: Uint8Array;
  readonly dimensions: readonly { readonly text: string; readonly ends: readonly [Point2, Point2] }[];
  /** Building length per paper length, as drawn and as the note says. */
  readonly ratio: number;
  readonly noted: number;
  /** Lengths in feet between parallel lines that measure nothing, scattered about. */
  readonly decoys: number;
}

/** Draws a sheet whose note is false by `reduced`: what is drawn has that part of the size stated. */
export async function drawnScales(seed: number, frame: SheetFrame, reduced = 1): Promise<DrawnScales> {
  const random = seeded(seed);
  const whole = (low: number, high: number): number => low + Math.floor(random() * (high - low + 1));
  const doc = await PDFDocument.create();
  const font = await doc.embedFont("Helvetica");
  const [width, height] = frame.rotate % 180 === 0 ? [DRAWN_WIDTH, DRAWN_HEIGHT] : [DRAWN_HEIGHT, DRAWN_WIDTH];
  const page = doc.addPage([width, height]);
  const [left, bottom] = frame.corner;
  page.setMediaBox(left - 30, bottom - 20, width + 70, height + 50);
  page.setCropBox(left, bottom, width, height);
  if (frame.rotate) page.setRotation(degrees(frame.rotate));
  if (frame.userUnit !== 1) page.node.set(PDFName.of("UserUnit"), PDFNumber.of(frame.userUnit));
  const at = (p: Point2) => {
    const [x, y] = toSheet(frame, p);
    return { x, y };
  };
  const line = (a: Point2, b: Point2, thickness = 0.4) =>
    page.drawLine({ start: at(a), end: at(b), thickness, color: rgb(0, 0, 0) });
  const text = (words: string, p: Point2, size: number, turn = 0) =>
    page.drawText(words, { ...at(p), size, font, rotate: degrees(frame.rotate + turn) });
  const [paper, noted] = [
    [`1/8" = 1'-0"`, 96],
    [`1/4" = 1'-0"`, 48],
    [`3/16" = 1'-0"`, 64],
  ][whole(0, 2)] as [string, number];
  const ratio = noted / reduced;
  /** Displayed units for so many inches of building. */
  const units = (inches: number): number => (inches * 72) / (ratio * frame.userUnit);
  const style = whole(0, 2);
  const mark = (p: Point2, u: Point2, towards: number): void => {
    const v: Point2 = [-u[1], u[0]];
    const place = (along: number, across: number): Point2 => [
      p[0] + u[0] * along + v[0] * across,
      p[1] + u[1] * along + v[1] * across,
    ];
    line(place(0, -6), place(0, 4), 0.2);
    if (style === 0) line(place(-2.5, -2.5), place(2.5, 2.5), 1);
    if (style === 1) {
      const corners = [p, place(towards * 6, 1.2), place(towards * 6, -1.2)];
      line(corners[0]!, corners[1]!, 0.3);
      line(corners[1]!, corners[2]!, 0.3);
      line(corners[2]!, corners[0]!, 0.3);
    }
  };
  const dimensions: { text: string; ends: readonly [Point2, Point2] }[] = [];
  for (let row = 0; row < 6; row++) {
    const isUp = row >= 4;
    let place = 120;
    for (let i = 0; i < 4; i++) {
      const inches = whole(8, 16) * 12 * (noted / 48) + (row % 2 === 0 ? whole(0, 11) : 0);
      const long = units(inches);
      if (place + long > (isUp ? 640 : 800)) break;
      const u: Point2 = isUp ? [0, 1] : [1, 0];
      const on = (s: number, off: number): Point2 =>
        isUp ? [60 + (row - 4) * 840 - off, s] : [s, 650 - row * 120 + off];
      const [from, to] = [on(place, 0), on(place + long, 0)];
      line(from, to);
      mark(from, u, 1);
      mark(to, u, -1);
      const words = `${Math.floor(inches / 12)}'-${inches % 12}"`;
      const size = 6;
      const half = font.widthOfTextAtSize(words, size) / 2;
      text(words, on(place + long / 2 - half, 2.5), size, isUp ? 90 : 0);
      dimensions.push({ text: words, ends: [toSheet(frame, from), toSheet(frame, to)] });
      place += long;
    }
  }
  // Lengths that measure nothing: beside a lone line, in a sentence, nowhere near one.
  const decoys = 6;
  for (let i = 0; i < decoys; i++) {
    const p: Point2 = [200 + 90 * i, 620 - 6 * i];
    text(`${whole(5, 30)}'-0"`, p, 6);
    if (i % 2 === 0) line([p[0] - 20, p[1] - 3], [p[0] + 40, p[1] - 3]);
  }
  text("KEEP 3'-0\" CLEAR OF THE PANEL", [200, 560], 6);
  const foot = units(12);
  const [x, y]: Point2 = [420, 40];
  for (const feet of [0, 4, 8, 16])
    text(`${feet}'`, [x + feet * foot - font.widthOfTextAtSize(`${feet}'`, 5) / 2, y + 6], 5);
  line([x, y], [x + 16 * foot, y]);
  line([x, y + 3], [x + 16 * foot, y + 3]);
  text("FRAMING PLAN", [60, 60], 9);
  text(paper, [60, 48], 7);
  return { bytes: await doc.save(), dimensions, ratio, noted, decoys };
}
