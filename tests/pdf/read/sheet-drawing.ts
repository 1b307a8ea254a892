import { degrees, PDFDocument, type PDFFont, PDFName, PDFNumber, type PDFPage, rgb } from "@cantoo/pdf-lib";
import type { Point2 } from "../../../src/geometry/point.ts";

/** How the page of a drawn sheet lies: the page's own frame. */
export interface SheetFrame {
  readonly rotate: 0 | 90 | 180 | 270;
  /** Lower left corner of the crop box in sheet space; the media box is larger all round. */
  readonly corner: readonly [number, number];
  readonly userUnit: number;
}

/** Size of every drawn sheet as displayed, in user units. */
export const DRAWN_WIDTH = 1000;
export const DRAWN_HEIGHT = 720;

/** ISO 32000-2, table 31: Rotate turns the page clockwise when it is displayed. A place as displayed (y up) in sheet space. */
export const toSheet = ({ rotate, corner: [left, bottom] }: SheetFrame, [x, y]: Point2): Point2 => {
  if (rotate === 90) return [left + (DRAWN_HEIGHT - y), bottom + x];
  if (rotate === 180) return [left + (DRAWN_WIDTH - x), bottom + (DRAWN_HEIGHT - y)];
  if (rotate === 270) return [left + y, bottom + (DRAWN_WIDTH - x)];
  return [left + x, bottom + y];
};

/** How a line is drawn; widths in displayed units. */
export interface Pen {
  readonly width: number;
  readonly grey: number;
  readonly dash?: number[];
  /** Dashes and gaps drawn as lines of their own. */
  readonly pieces?: number[];
}

/** Draws in the frame a person sees: x to the right, y up. */
export class Drawing {
  /** Whether text is set glyph by glyph, as some programs write it. */
  byGlyph = false;
  constructor(
    readonly page: PDFPage,
    readonly font: PDFFont,
    readonly frame: SheetFrame,
  ) {}
  at(p: Point2): { x: number; y: number } {
    const [x, y] = toSheet(this.frame, p);
    return { x, y };
  }
  line(a: Point2, b: Point2, pen: Pen): void {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const place = (along: number): Point2 => [
      a[0] + ((b[0] - a[0]) * along) / length,
      a[1] + ((b[1] - a[1]) * along) / length,
    ];
    const common = { thickness: pen.width, color: rgb(pen.grey, pen.grey, pen.grey) };
    if (!pen.pieces) {
      this.page.drawLine({
        start: this.at(a),
        end: this.at(b),
        ...common,
        ...(pen.dash ? { dashArray: pen.dash } : {}),
      });
      return;
    }
    for (let along = 0, i = 0; along < length; i++) {
      const next = Math.min(length, along + pen.pieces[i % pen.pieces.length]!);
      if (i % 2 === 0) this.page.drawLine({ start: this.at(place(along)), end: this.at(place(next)), ...common });
      // Whatever the pattern, a line ends with ink.
      else if (next === length)
        this.page.drawLine({ start: this.at(place(Math.max(along, length - 1))), end: this.at(b), ...common });
      along = next;
    }
  }
  circle(centre: Point2, radius: number, pen: Pen): void {
    this.page.drawCircle({
      ...this.at(centre),
      size: radius,
      borderWidth: pen.width,
      borderColor: rgb(pen.grey, pen.grey, pen.grey),
    });
  }
  /** A circle as a drawing program explodes it: short lines. */
  facets(centre: Point2, radius: number, count: number, pen: Pen): void {
    const corner = (i: number): Point2 => [
      centre[0] + radius * Math.cos((2 * Math.PI * i) / count),
      centre[1] + radius * Math.sin((2 * Math.PI * i) / count),
    ];
    for (let i = 0; i < count; i++) this.line(corner(i), corner((i + 1) % count), pen);
  }
  text(text: string, at: Point2, size: number, centred = false): void {
    const width = this.font.widthOfTextAtSize(text, size);
    const from: Point2 = centred ? [at[0] - width / 2, at[1] - 0.35 * size] : at;
    if (!this.byGlyph) {
      this.show(text, from, size);
      return;
    }
    let along = 0;
    for (const glyph of text) {
      if (glyph !== " ") this.show(glyph, [from[0] + along, from[1]], size);
      along += this.font.widthOfTextAtSize(glyph, size);
    }
  }
  private show(text: string, at: Point2, size: number): void {
    this.page.drawText(text, { ...this.at(at), size, font: this.font, rotate: degrees(this.frame.rotate) });
  }
}

/** An empty sheet lying as the frame says: its media box is larger than its crop box all round. */
export async function blankSheet(frame: SheetFrame): Promise<{ readonly doc: PDFDocument; readonly draw: Drawing }> {
  const doc = await PDFDocument.create();
  const font = await doc.embedFont("Helvetica");
  const [width, height] = frame.rotate % 180 === 0 ? [DRAWN_WIDTH, DRAWN_HEIGHT] : [DRAWN_HEIGHT, DRAWN_WIDTH];
  const page = doc.addPage([width, height]);
  const [left, bottom] = frame.corner;
  page.setMediaBox(left - 30, bottom - 20, width + 70, height + 50);
  page.setCropBox(left, bottom, width, height);
  if (frame.rotate) page.setRotation(degrees(frame.rotate));
  if (frame.userUnit !== 1) page.node.set(PDFName.of("UserUnit"), PDFNumber.of(frame.userUnit));
  return { doc, draw: new Drawing(page, font, frame) };
}
