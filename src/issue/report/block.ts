import type { Colour, FontFace, Picture, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { radians } from "../../units/quantity.ts";
import { FAINT_INK, HAIR_INK, INK } from "../inks.ts";
import { linePath } from "../paths.ts";
import { placePicture } from "../place-picture.ts";
import { wrapText } from "./wrap-text.ts";

/** A piece of a page that is never broken; what does not fit goes to the next page. Points of paper. */
export interface Block {
  readonly height: number;
  /** Room above it, left out at the top of a page. */
  readonly before: number;
  /** Stays on the page of the block that follows. */
  readonly keep: boolean;
  /** Draws with its upper left corner at (x, top). */
  readonly draw: (x: number, top: number) => Picture;
}

/** How words are set. */
export interface Setting {
  readonly size: number;
  readonly face: FontFace;
  readonly ink: Colour;
}

/** The title of the report. */
export const TITLE: Setting = { size: 20, face: "bold", ink: INK };
/** Headings of its parts. */
export const HEADING: Setting = { size: 12, face: "bold", ink: INK };
/** Running words. */
export const BODY: Setting = { size: 9, face: "regular", ink: INK };

/** What a value is, beside it. */
export const LABEL: Setting = { size: 9, face: "regular", ink: FAINT_INK };
/** Headings of columns. */
export const COLUMN: Setting = { size: 7.5, face: "regular", ink: FAINT_INK };
/** Cells of a table. */
export const CELL: Setting = { size: 8.5, face: "regular", ink: INK };

/** Baseline to baseline, as a part of the size. */
export const LEADING = 1.32;
/** Indent of one level of a tree. */
export const GUIDE_STEP = 11;
/** From the top of a line to its baseline, as a part of the size. */
const ASCENT = 0.95;

/** One line of text in a block's own place. */
export const textItem = (
  text: string,
  x: number,
  top: number,
  { size, face, ink }: Setting,
  align: "start" | "middle" | "end" = "start",
): PictureItem => ({
  type: "text",
  text,
  at: [x, top - size * ASCENT],
  size,
  angle: radians(0),
  align,
  face,
  fill: ink,
});

/** One cell of a row: wrapped within its width. */
export interface Cell {
  readonly text: string;
  /** From the left of the block. */
  readonly x: number;
  readonly width: number;
  readonly setting: Setting;
  readonly align?: "start" | "end";
}

/** How a row is set. */
export interface RowOptions {
  readonly before?: number;
  readonly keep?: boolean;
  /** Drawn beside the words; its origin is the upper left corner of the row. */
  readonly picture?: Picture;
  /** How many upright hairlines of a tree run past on the left. */
  readonly guides?: number;
}

/** Lines of a cell that stay together; a longer cell goes on in further blocks, so that it may cross pages. */
const MOST_LINES = 30;

/** Cells side by side, each wrapped: one block, or several where a cell is very long. */
export function row(cells: readonly Cell[], options: RowOptions = {}): Block[] {
  const set = cells.map((cell) => ({
    cell,
    lines: wrapText(cell.text, cell.width, cell.setting.size, cell.setting.face),
  }));
  const count = Math.max(1, Math.ceil(Math.max(...set.map(({ lines }) => lines.length)) / MOST_LINES));
  return Array.from({ length: count }, (_, part) => {
    const shown = set.map(({ cell, lines }) => ({
      cell,
      lines: lines.slice(part * MOST_LINES, (part + 1) * MOST_LINES),
    }));
    const first = part === 0;
    return rowBlock(shown, {
      ...options,
      before: first ? (options.before ?? 0) : 0,
      keep: part === count - 1 && (options.keep ?? false),
      picture: first ? (options.picture ?? []) : [],
    });
  });
}

function rowBlock(
  set: readonly { readonly cell: Cell; readonly lines: readonly string[] }[],
  { before = 0, keep = false, picture = [], guides = 0 }: RowOptions,
): Block {
  const height = Math.max(0, ...set.map(({ cell, lines }) => lines.length * cell.setting.size * LEADING));
  return {
    height,
    before,
    keep,
    draw: (x, top) => [
      ...Array.from({ length: guides }, (_, i) => {
        const at = x + i * GUIDE_STEP + 2.5;
        const line: Point2[] = [
          [at, top + before],
          [at, top - height],
        ];
        return linePath(line, { stroke: HAIR_INK, width: 0.4 });
      }),
      ...placePicture(picture, { scale: 1, angle: radians(0), dx: x, dy: top }),
      ...set.flatMap(({ cell, lines }) =>
        lines.map((line, i) => {
          const at = cell.align === "end" ? x + cell.x + cell.width : x + cell.x;
          const y = top - i * cell.setting.size * LEADING;
          return textItem(line, at, y, cell.setting, cell.align ?? "start");
        }),
      ),
    ],
  };
}

/** A paragraph: a block a line, the first two and the last two lines kept together. */
export function paragraph(
  text: string,
  width: number,
  setting: Setting,
  options: { before?: number; indent?: number; keep?: boolean } = {},
): Block[] {
  const indent = options.indent ?? 0;
  const lines = wrapText(text, width - indent, setting.size, setting.face);
  return lines.map((line, i) => ({
    height: setting.size * LEADING,
    before: i === 0 ? (options.before ?? 0) : 0,
    keep: i === lines.length - 1 ? (options.keep ?? false) : i === 0 || i === lines.length - 2,
    draw: (x, top) => [textItem(line, x + indent, top, setting)],
  }));
}

/** A heading with a hairline above; stays with what follows. */
export const heading = (text: string, width: number, before = 18): Block => ({
  height: HEADING.size * LEADING + 8,
  before,
  keep: true,
  draw: (x, top) => [
    linePath(
      [
        [x, top],
        [x + width, top],
      ],
      { stroke: INK, width: 0.8 },
    ),
    textItem(text, x, top - 5, HEADING),
  ],
});

/** A picture whose own origin is its lower left corner. */
export const pictureBlock = (
  picture: Picture,
  height: number,
  options: { before?: number; keep?: boolean } = {},
): Block => ({
  height,
  before: options.before ?? 0,
  keep: options.keep ?? false,
  draw: (x, top) => placePicture(picture, { scale: 1, angle: radians(0), dx: x, dy: top - height }),
});
