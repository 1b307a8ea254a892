import type { FontFace } from "../../geometry/picture.ts";
import { textWidth } from "../text-width.ts";

/** Breaks a text into lines no wider than `width`, at spaces; a word too long for a line is broken where it must be. */
export function wrapText(text: string, width: number, size: number, face: FontFace): string[] {
  const lines: string[] = [];
  for (const paragraph of text.split(/\r\n|\r|\n/)) {
    let line = "";
    for (const word of paragraph.split(/ +/)) {
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

/** The longest start of a word that fits, at least one character. */
function fitting(word: string, width: number, size: number, face: FontFace): string {
  let head = "";
  for (const character of word) {
    if (head !== "" && textWidth(head + character, size, face) > width) break;
    head += character;
  }
  return head;
}
