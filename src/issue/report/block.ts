import type { Colour, FontFace, Picture, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { radians } from "../../units/quantity.ts";
import { FAINT_INK, HAIR_INK, INK } from "../inks.ts";
import { levelPath, linePath } from "../paths.ts";
import { placePicture } from "../place-picture.ts";
import { entryLink, type Part } from "./part.ts";
import { fitText, wrapText } from "./wrap-text.ts";

/** Something drawn on a page, and what it is a part of; without a part it only adorns the page. */
export interface Piece {
  readonly picture: Picture;
  readonly part?: Part;
  /** Nothing of it is seen outside this rectangle: least x and y, greatest x and y. */
  readonly clip?: readonly [number, number, number, number];
}

/** A piece of a page that is never broken; what does not fit goes to the next page. Points of paper. */
export interface Block {
  readonly height: number;
  /** Room above it, left out at the top of a page. */
  readonly before: number;
  /** Stays on the page of the block that follows. */
  readonly keep: boolean;
  /** Draws with its upper left corner at (x, top). */
  readonly draw: (x: number, top: number) => readonly Piece[];
  /**
   * Of a block that may be broken after all: what of it fits a height, and the rest. Undefined where too little fits to be worth it.
   */
  readonly split?: (room: number) => readonly [Block, Block] | undefined;
}

/** Empty room of a height. */
export const space = (height: number): Block => ({ height, before: 0, keep: false, draw: () => [] });

/** How words are set. */
export interface Setting {
  readonly size: number;
  readonly face: FontFace;
  readonly ink: Colour;
}

/** The title of the report. */
export const TITLE: Setting = { size: 20, face: "bold", ink: INK };
/** Headings of its parts. */
const HEADING: Setting = { size: 12, face: "bold", ink: INK };
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
export const GUIDE_STEP = 7;
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
  /** The number of the finding to whose entry it leads. */
  readonly goesTo?: number;
}

/** A name as much of it as a cell of a column holds on one line: names are looked down, not read along. */
export const nameIn = ({ width }: Pick<Cell, "width">, text: string): string =>
  fitText(text, width, CELL.size, CELL.face);

/** How a row is set. */
export interface RowOptions {
  readonly before?: number;
  readonly keep?: boolean;
  /** Drawn beside the words; its origin is the upper left corner of the row. */
  readonly picture?: Picture;
  /** How many upright hairlines of a tree run past on the left. */
  readonly guides?: number;
  /** What its words are a part of together; absent, without a table: a paragraph of their own. */
  readonly part?: Part;
  /** The table it is a row of. */
  readonly table?: Part;
  /** It names the columns of its table, or its first cell names the row. */
  readonly head?: "columns" | "row";
}

/** Lines of a cell that stay together; a longer cell goes on in further blocks, so that it may cross pages. */
const MOST_LINES = 30;

/** Cells side by side, each wrapped: one block, or several where a cell is very long. */
export function row(cells: readonly Cell[], options: RowOptions = {}): Block[] {
  const parts = partsOf(cells, options);
  const set = cells.map((cell, i) => ({
    cell,
    part: parts[i] as Part,
    lines: wrapText(cell.text, cell.width, cell.setting.size, cell.setting.face),
  }));
  const count = Math.max(1, Math.ceil(Math.max(...set.map(({ lines }) => lines.length)) / MOST_LINES));
  return Array.from({ length: count }, (_, at) => {
    const shown = set.map((one) => ({ ...one, lines: one.lines.slice(at * MOST_LINES, (at + 1) * MOST_LINES) }));
    const first = at === 0;
    return rowBlock(shown, {
      ...options,
      before: first ? (options.before ?? 0) : 0,
      keep: at === count - 1 && (options.keep ?? false),
      picture: first ? (options.picture ?? []) : [],
    });
  });
}

/** What each cell of a row is: a cell of a table, or words of a paragraph. */
function partsOf(cells: readonly Cell[], { table, head, part }: RowOptions): Part[] {
  const own: Part = table ? { role: "TR", within: table } : (part ?? { role: "P" });
  return cells.map(({ goesTo }, i) => {
    const names = head === "columns" || (head === "row" && i === 0);
    const inTable: Part = names
      ? { role: "TH", within: own, scope: head === "row" ? "Row" : "Column" }
      : { role: "TD", within: own };
    const cell = table ? inTable : own;
    return goesTo === undefined ? cell : entryLink(goesTo, cell);
  });
}

interface SetCell {
  readonly cell: Cell;
  readonly part: Part;
  readonly lines: readonly string[];
}

function rowBlock(set: readonly SetCell[], { before = 0, keep = false, picture = [], guides = 0 }: RowOptions): Block {
  const height = Math.max(0, ...set.map(({ cell, lines }) => lines.length * cell.setting.size * LEADING));
  return {
    height,
    before,
    keep,
    draw: (x, top) => [
      { picture: [...guideLines(guides, x, top, before, height), ...placePicture(picture, shiftTo(x, top))] },
      ...set.map(({ cell, part, lines }) => ({
        part,
        picture: lines.map((line, i) => {
          const at = cell.align === "end" ? x + cell.x + cell.width : x + cell.x;
          const y = top - i * cell.setting.size * LEADING;
          return textItem(line, at, y, cell.setting, cell.align ?? "start");
        }),
      })),
    ],
  };
}

const shiftTo = (dx: number, dy: number) => ({ scale: 1, angle: radians(0), dx, dy });

const guideLines = (count: number, x: number, top: number, before: number, height: number): Picture =>
  Array.from({ length: count }, (_, i) => {
    const at = x + i * GUIDE_STEP + 1.5;
    const line: Point2[] = [
      [at, top + before],
      [at, top - height],
    ];
    return linePath(line, { stroke: HAIR_INK, width: 0.4 });
  });

/** A paragraph: a block a line, the first two and the last two lines kept together. */
export function paragraph(
  text: string,
  width: number,
  setting: Setting,
  options: { before?: number; indent?: number; keep?: boolean; part?: Part } = {},
): Block[] {
  const part: Part = options.part ?? { role: "P" };
  const indent = options.indent ?? 0;
  const lines = wrapText(text, width - indent, setting.size, setting.face);
  return lines.map((line, i) => ({
    height: setting.size * LEADING,
    before: i === 0 ? (options.before ?? 0) : 0,
    keep: i === lines.length - 1 ? (options.keep ?? false) : i === 0 || i === lines.length - 2,
    draw: (x, top) => [{ part, picture: [textItem(line, x + indent, top, setting)] }],
  }));
}

/** A heading with a hairline above and a bookmark; stays with what follows. */
export function heading(text: string, width: number, before = 18): Block {
  const part: Part = { role: "H2", bookmark: { text, level: 2 } };
  return {
    height: HEADING.size * LEADING + 8,
    before,
    keep: true,
    draw: (x, top) => [
      {
        picture: [levelPath(x, x + width, top, { stroke: INK, width: 0.8 })],
      },
      { part, picture: [textItem(text, x, top - 5, HEADING)] },
    ],
  };
}

/** A picture whose own origin is its lower left corner; a figure where words say what it shows. */
export function pictureBlock(
  picture: Picture,
  height: number,
  options: { before?: number; keep?: boolean; alt?: string } = {},
): Block {
  const { alt } = options;
  const part: Part | undefined = alt === undefined ? undefined : { role: "Figure", alt };
  return {
    height,
    before: options.before ?? 0,
    keep: options.keep ?? false,
    draw: (x, top) => [{ picture: placePicture(picture, shiftTo(x, top - height)), ...(part ? { part } : {}) }],
  };
}
