import { textWidth } from "../text-width.ts";
import { type Block, CELL, LEADING, type Piece, type Setting, textItem } from "./block.ts";
import { entryLink, type Part } from "./part.ts";

const NUMBER: Setting = { ...CELL, size: 8 };

/** Where numbers are set, and what they are a part of. */
interface NumberPlace {
  readonly x: number;
  readonly width: number;
  readonly part: Part;
}

/** Numbers of findings one after the other, each leading to its entry: a block a line. */
export function numberLines(numbers: readonly number[], { x: left, width, part }: NumberPlace): Block[] {
  const lines: { text: string; number: number; x: number }[][] = [];
  let x = 0;
  numbers.forEach((number, i) => {
    const text = i + 1 < numbers.length ? `${number},` : String(number);
    const wide = textWidth(text, NUMBER.size, NUMBER.face);
    if (lines.length === 0 || x + wide > width) {
      lines.push([]);
      x = 0;
    }
    lines.at(-1)!.push({ text, number, x });
    x += wide + 4;
  });
  return lines.map((line) => ({
    height: NUMBER.size * LEADING,
    before: 0.5,
    keep: true,
    draw: (at, top) =>
      line.map(
        (one): Piece => ({
          part: entryLink(one.number, part),
          picture: [textItem(one.text, at + left + one.x, top, NUMBER)],
        }),
      ),
  }));
}
