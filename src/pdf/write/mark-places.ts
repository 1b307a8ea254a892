import type { Box } from "./appearance.ts";

/** Where an issue put an annotation. Sheet space. */
export interface MarkPlace {
  readonly name: string;
  /** Counted from 1. */
  readonly page: number;
  readonly box: Box;
  /** The words it was issued with; absent in files that do not say. */
  readonly contents?: string;
}

/** Entry of the attachment's file specification that holds the places of our annotations; names that begin with XX are free for private use (ISO 32000-2, annex E). */
export const PLACES_ENTRY = "XXUndersideMarks";

/** Places as they are written: a line each, page, box and name, and after a tab the words of the mark as JSON. */
export const placesText = (places: readonly MarkPlace[]): string =>
  places
    .map(({ page, box, name, contents }) => {
      const place = `${page} ${box.join(" ")} ${name}`;
      return contents === undefined ? place : `${place}\t${JSON.stringify(contents)}`;
    })
    .join("\n");

/** Places from their text; a line that is none is left out. */
export const parsePlaces = (text: string): MarkPlace[] =>
  text.split("\n").flatMap((line) => {
    const [place = "", words] = line.split("\t");
    const [page, x0, y0, x1, y1, ...name] = place.split(" ");
    const numbers = [page, x0, y0, x1, y1].map(Number);
    if (name.length === 0 || !numbers.every(Number.isFinite)) return [];
    const [number, ...box] = numbers as [number, number, number, number, number];
    const contents = words === undefined ? undefined : parseWords(words);
    return [{ page: number, box, name: name.join(" "), ...(contents === undefined ? {} : { contents }) }];
  });

const parseWords = (json: string): string | undefined => {
  try {
    const words: unknown = JSON.parse(json);
    return typeof words === "string" ? words : undefined;
  } catch {
    return undefined;
  }
};
