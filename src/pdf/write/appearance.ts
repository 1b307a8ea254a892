import type { Colour, FontFace, PathItem, PathStep, Picture, TextItem } from "../../geometry/picture.ts";
import { EmbeddedFont } from "./embedded-font.ts";
import type { Increment } from "./increment.ts";
import { dict, name, type PdfDict, type PdfRef } from "./pdf-object.ts";
import { formatNumber } from "./serialize.ts";

/** A rectangle in sheet space: least x, least y, greatest x, greatest y. */
export type Box = readonly [number, number, number, number];

const FONT_NAME: Record<FontFace, string> = { regular: "FR", bold: "FB", condensed: "FC" };

/** Decimals kept of a coordinate: a ten-thousandth of a point is far below what any device shows. */
const n = (value: number): string => formatNumber(value, 4);
/** A number of a matrix, which is multiplied by coordinates. */
const m = (value: number): string => formatNumber(value, 6);

/** Bytes set aside at once for contents: a thousand small buffers cost more to make and to give up than all that is in them. */
const ROOM = 1 << 16;

/** Turns pictures into form XObjects; fonts and opacities are shared by all of one update. */
export class AppearanceMaker {
  private readonly opened = new Map<FontFace, EmbeddedFont>();
  private readonly opacities = new Map<number, PdfRef>();
  private room = new Uint8Array(0);

  constructor(
    private readonly increment: Increment,
    private readonly fonts: Readonly<Record<FontFace, Uint8Array>>,
  ) {}

  /** The font of a face, opened when first needed. */
  font(face: FontFace): EmbeddedFont {
    let font = this.opened.get(face);
    if (font === undefined) {
      font = new EmbeddedFont(face, this.fonts[face]);
      this.opened.set(face, font);
    }
    return font;
  }

  /**
   * A form XObject that draws the picture where its coordinates say: the form's space is the sheet's, and `box` must hold the
   * whole picture, for nothing outside it is drawn.
   */
  form(picture: Picture, box: Box): PdfRef {
    const fonts: PdfDict = new Map();
    const states: PdfDict = new Map();
    const content = new ContentWriter();
    for (const item of picture) {
      if (item.opacity !== undefined || content.translucent) {
        const opacity = Math.min(1, Math.max(0, item.opacity ?? 1));
        const state = `G${Math.round(opacity * 1000)}`;
        states.set(state, this.opacity(Math.round(opacity * 1000)));
        content.set("gs", `/${state}`);
        content.translucent = true;
      }
      if (item.type === "path") content.path(item);
      else {
        const font = this.font(item.face);
        fonts.set(FONT_NAME[item.face], font.ref(this.increment));
        content.line(item, font);
      }
    }
    return this.increment.addStream(
      dict({
        Type: name("XObject"),
        Subtype: name("Form"),
        BBox: [...box],
        Resources: dict({
          Font: fonts.size > 0 ? fonts : undefined,
          ExtGState: states.size > 0 ? states : undefined,
        }),
      }),
      this.bytesOf(content.finish()),
    );
  }

  /** Writes the fonts, once every picture is made. */
  finish(): void {
    for (const font of this.opened.values()) font.write(this.increment);
  }

  /** The bytes of a content, in a buffer shared with others. */
  private bytesOf(content: string): Uint8Array {
    const { length } = content;
    if (this.room.length < length) this.room = new Uint8Array(Math.max(length, ROOM));
    const bytes = this.room.subarray(0, length);
    this.room = this.room.subarray(length);
    for (let i = 0; i < length; i++) bytes[i] = content.charCodeAt(i);
    return bytes;
  }

  private opacity(thousandths: number): PdfRef {
    let ref = this.opacities.get(thousandths);
    if (ref === undefined) {
      const value = thousandths / 1000;
      ref = this.increment.add(dict({ Type: name("ExtGState"), CA: value, ca: value, AIS: false }));
      this.opacities.set(thousandths, ref);
    }
    return ref;
  }
}

/** What a step is called behind its numbers. */
const OPERATOR: Record<PathStep[0], string> = { M: "m\n", L: "l\n", C: "c\n", Z: "h\n" };

/** Operators of a content stream; a setting is written only when it changes. */
class ContentWriter {
  private out = "1 J 1 j\n";
  private readonly settings = new Map<string, string>();
  translucent = false;

  /** Sets one piece of graphics state: the operands, then the operator. */
  set(operator: string, operands: string): void {
    if (this.settings.get(operator) === operands) return;
    this.settings.set(operator, operands);
    this.out += `${operands} ${operator}\n`;
  }

  path(item: PathItem): void {
    const { stroke, fill, dash } = item;
    if ((!stroke && !fill) || item.steps.length === 0) return;
    if (stroke) {
      this.set("RG", colour(stroke));
      this.set("w", n(item.width ?? 1));
      const dashes = dash?.some((d) => d > 0) ? dash : [];
      this.set("d", `[${dashes.map(n).join(" ")}] 0`);
    }
    if (fill) this.set("rg", colour(fill));
    for (const step of item.steps) {
      for (let i = 1; i < step.length; i++) this.out += `${n(step[i] as number)} `;
      this.out += OPERATOR[step[0]];
    }
    const odd = fill && item.evenOdd ? "*" : "";
    this.out += `${stroke ? (fill ? "B" : "S") : "f"}${odd}\n`;
  }

  line(item: TextItem, font: EmbeddedFont): void {
    if (item.text === "") return;
    const { hex, width } = font.line(item.text);
    const [cos, sin] = [m(Math.cos(item.angle)), Math.sin(item.angle)];
    const [x, y] = startOfLine(item, width);
    this.set("rg", colour(item.fill));
    const matrix = `${cos} ${m(sin)} ${m(-sin)} ${cos} ${m(x)} ${m(y)}`;
    this.out += `BT /${FONT_NAME[item.face]} ${n(item.size)} Tf ${matrix} Tm <${hex}> Tj ET\n`;
  }

  finish(): string {
    return this.out;
  }
}

const colour = ({ r, g, b }: Colour): string => `${n(r)} ${n(g)} ${n(b)}`;

const startOfLine = (item: TextItem, width: number): readonly [number, number] => {
  const back = { start: 0, middle: 0.5, end: 1 }[item.align] * width * item.size;
  return [item.at[0] - back * Math.cos(item.angle), item.at[1] - back * Math.sin(item.angle)];
};

/**
 * The box that holds a picture, strokes and letters included, grown from `least`. Curves count with their control points,
 * so it may be a little large, never too small.
 */
export const boundsOf = (picture: Picture, least: Box, maker: AppearanceMaker): Box => {
  let [x0, y0, x1, y1] = [
    Math.min(least[0], least[2]),
    Math.min(least[1], least[3]),
    Math.max(least[0], least[2]),
    Math.max(least[1], least[3]),
  ];
  const grow = (x: number, y: number, by: number): void => {
    x0 = Math.min(x0, x - by);
    y0 = Math.min(y0, y - by);
    x1 = Math.max(x1, x + by);
    y1 = Math.max(y1, y + by);
  };
  for (const item of picture) {
    if (item.type === "path") {
      const by = item.stroke ? (item.width ?? 1) / 2 : 0;
      for (const step of item.steps)
        for (let i = 1; i + 1 < step.length; i += 2) grow(step[i] as number, step[i + 1] as number, by);
    } else {
      const font = maker.font(item.face);
      const { width } = font.line(item.text);
      const [x, y] = startOfLine(item, width);
      const [cos, sin] = [Math.cos(item.angle) * item.size, Math.sin(item.angle) * item.size];
      // A tenth of the size to either side: letters may lean over their advance.
      const { bottom, top } = font.reach;
      for (const along of [-0.1, width + 0.1])
        for (const up of [bottom, top]) grow(x + cos * along - sin * up, y + sin * along + cos * up, 0);
    }
  }
  // Rounded outwards, so that what is written is never smaller than what was computed.
  return [Math.floor(x0 * 1e4) / 1e4, Math.floor(y0 * 1e4) / 1e4, Math.ceil(x1 * 1e4) / 1e4, Math.ceil(y1 * 1e4) / 1e4];
};
