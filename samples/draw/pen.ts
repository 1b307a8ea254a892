import { PDFDocument, type PDFFont, StandardFonts } from "@cantoo/pdf-lib";
import { escaped } from "./pdf-file.ts";

export type Paper = readonly [x: number, y: number];
/** Line widths, points: the five pens of the drawing office. */
export const PENS = { hair: 0.25, thin: 0.4, medium: 0.7, heavy: 1.2, border: 2 } as const;
export type Width = keyof typeof PENS;

interface Stroke {
  readonly width?: Width;
  readonly dash?: readonly number[];
  /** 0 black to 1 white. */
  readonly grey?: number;
}
interface Paint extends Stroke {
  readonly close?: boolean;
  /** Grey of the fill, 0 black to 1 white. Absent: not filled. */
  readonly fill?: number;
  /** Fill without an outline. */
  readonly bare?: boolean;
}
interface Lettering {
  readonly size: number;
  readonly bold?: boolean;
  readonly align?: "start" | "middle" | "end";
  /** Degrees, counter-clockwise. */
  readonly turn?: number;
  /** Clears the lines behind the text. */
  readonly mask?: boolean;
  readonly grey?: number;
}

/** Fonts whose widths place the text; the file itself names the same two standard fonts. */
export interface Metrics {
  readonly regular: PDFFont;
  readonly bold: PDFFont;
}
export async function loadMetrics(): Promise<Metrics> {
  const scratch = await PDFDocument.create({ updateMetadata: false });
  return {
    regular: await scratch.embedFont(StandardFonts.Helvetica),
    bold: await scratch.embedFont(StandardFonts.HelveticaBold),
  };
}

/** Draws on a sheet as it is read (x right, y up, points), and writes the content stream of its page. */
export class Pen {
  readonly #out: string[] = [];
  readonly #metrics: Metrics;
  readonly #layers: readonly string[];

  /** `toPage` is the matrix from the sheet as read to user space of the page. */
  constructor(metrics: Metrics, layers: readonly string[], toPage: readonly number[]) {
    this.#metrics = metrics;
    this.#layers = layers;
    this.#out.push(`${toPage.join(" ")} cm`, "1 J 1 j");
  }

  get content(): string {
    return this.#out.join("\n");
  }

  /** Draws on a layer. */
  on(layer: string, draw: () => void): void {
    const index = this.#layers.indexOf(layer);
    if (index < 0) throw new Error(`No layer ${layer}`);
    this.#out.push(`/OC /L${index} BDC`);
    draw();
    this.#out.push("EMC");
  }

  line(a: Paper, b: Paper, stroke: Stroke = {}): void {
    this.path([a, b], stroke);
  }

  path(points: readonly Paper[], paint: Paint = {}): void {
    this.#start(paint);
    const steps = points.map(([x, y], i) => `${n(x)} ${n(y)} ${i === 0 ? "m" : "l"}`).join(" ");
    this.#out.push(`${steps} ${this.#end(paint)}`, "Q");
  }

  rect([x, y]: Paper, width: number, height: number, paint: Paint = {}): void {
    this.#start(paint);
    this.#out.push(`${n(x)} ${n(y)} ${n(width)} ${n(height)} re ${this.#end(paint)}`, "Q");
  }

  circle([x, y]: Paper, r: number, paint: Paint = {}): void {
    const k = 0.5523 * r;
    this.#start(paint);
    const quarter = (a: Paper, b: Paper, c: Paper): string => [...a, ...b, ...c].map(n).join(" ").concat(" c");
    this.#out.push(
      [
        `${n(x + r)} ${n(y)} m`,
        quarter([x + r, y + k], [x + k, y + r], [x, y + r]),
        quarter([x - k, y + r], [x - r, y + k], [x - r, y]),
        quarter([x - r, y - k], [x - k, y - r], [x, y - r]),
        quarter([x + k, y - r], [x + r, y - k], [x + r, y]),
        this.#end({ ...paint, close: true }),
      ].join(" "),
      "Q",
    );
  }

  /** A quarter or other arc, by short lines. Degrees, counter-clockwise from east. */
  arc([x, y]: Paper, r: number, from: number, to: number, stroke: Stroke = {}): void {
    const count = Math.max(2, Math.ceil(Math.abs(to - from) / 6));
    const points = Array.from({ length: count + 1 }, (_, i): Paper => {
      const a = ((from + ((to - from) * i) / count) * Math.PI) / 180;
      return [x + r * Math.cos(a), y + r * Math.sin(a)];
    });
    this.path(points, stroke);
  }

  widthOf(text: string, size: number, bold = false): number {
    return this.#metrics[bold ? "bold" : "regular"].widthOfTextAtSize(text, size);
  }

  text(
    text: string,
    [x, y]: Paper,
    { size, bold = false, align = "start", turn = 0, mask, grey = 0 }: Lettering,
  ): void {
    const width = this.widthOf(text, size, bold);
    const shift = align === "start" ? 0 : align === "middle" ? -width / 2 : -width;
    const a = (turn * Math.PI) / 180;
    const [cos, sin] = [Math.cos(a), Math.sin(a)];
    const at = (dx: number, dy: number): Paper => [x + dx * cos - dy * sin, y + dx * sin + dy * cos];
    if (mask) {
      const [low, high] = [-size * 0.28, size * 0.86];
      const [left, right] = [shift - size * 0.2, shift + width + size * 0.2];
      this.path([at(left, low), at(right, low), at(right, high), at(left, high)], { fill: 1, bare: true, close: true });
    }
    const [tx, ty] = at(shift, 0);
    this.#out.push(
      `q ${n(grey)} g BT /${bold ? "F2" : "F1"} ${n(size)} Tf ${[cos, sin, -sin, cos, tx, ty].map(n).join(" ")} Tm`,
      `(${escaped(text)}) Tj ET Q`,
    );
  }

  /** Lines of text, downwards from the first baseline. Returns the baseline below the last. */
  block(lines: readonly string[], [x, y]: Paper, lettering: Lettering, leading = 1.45): number {
    let at = y;
    for (const line of lines) {
      if (line !== "") this.text(line, [x, at], lettering);
      at -= lettering.size * leading * (line === "" ? 0.6 : 1);
    }
    return at;
  }

  #start({ width = "thin", dash, grey = 0, fill }: Paint): void {
    const dashes = dash ? ` [${dash.map(n).join(" ")}] 0 d` : "";
    this.#out.push(`q ${n(PENS[width])} w ${n(grey)} G${fill === undefined ? "" : ` ${n(fill)} g`}${dashes}`);
  }

  #end({ close, fill, bare }: Paint): string {
    if (fill === undefined) return close ? "s" : "S";
    return bare ? "f" : close ? "b" : "B";
  }
}

const n = (value: number): string => String(Number(value.toFixed(3)) + 0);
