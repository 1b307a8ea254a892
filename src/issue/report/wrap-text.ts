import type { FontFace } from "../../geometry/picture.ts";
import { textWidth } from "../text-width.ts";

/** Where a line may end: at spaces, but not inside 13'-1 1/2" or between a number and its mm. */
const BREAKS = / +(?!\d+\/\d|mm\b)|(?<!\d) +(?=\d+\/\d)/;

/** Breaks a text into lines no wider than `width`, at spaces; a word too long for a line is broken where it must be. */
export function wrapText(text: string, width: number, size: number, face: FontFace): string[] {
  const lines: string[] = [];
  for (const paragraph of text.split(/\r\n|\r|\n/)) {
    let line = "";
    for (const word of paragraph.split(BREAKS)) {
      const longer = line === "" ? word : `${line} ${word}`;
      if (textWidth(longer, size, face) <= width) {
        line = longer;
        continue;
      }
      if (line !== "") lines.push(line);
      line = word;
      while (textWidth(line, size, face) > width) {
        const head = fitting(line, width, size, face);
        lines.push(head);
        line = line.slice(head.length);
      }
    }
    lines.push(line);
  }
  return lines;
}

/** The text, or as much of it as fits on one line of that width with an ellipsis behind it. */
export function fitText(text: string, width: number, size: number, face: FontFace): string {
  if (textWidth(text, size, face) <= width) return text;
  return `${fitting(text, width - textWidth("…", size, face), size, face).trimEnd()}…`;
}

/** The longest start of a word that fits, at least one character. */
function fitting(word: string, width: number, size: number, face: FontFace): string {
  let head = "";
  for (const character of word) {
    if (head !== "" && textWidth(head + character, size, face) > width) break;
    head += character;
  }
  return head;
}
