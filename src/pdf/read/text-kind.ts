import { type Linework, SEGMENT } from "./linework.ts";
import type { PageContents } from "./plan-contents.ts";

/** How the words of a page are there: as text, only as letters drawn as lines or filled shapes, or not at all. */
export type TextKind = "there" | "outlines" | "none";

/** Letters drawn as lines: fewer segments of them are a stray mark. */
const LETTERS = 24;

/** Tells a page whose words can be read from one whose words are only drawn: of those nothing is found. */
export function textKind({ texts }: Pick<PageContents, "texts">, { flags }: Linework): TextKind {
  if (texts.length > 0) return "there";
  let drawn = 0;
  for (const bits of flags) if ((bits & SEGMENT.glyph) !== 0 && ++drawn >= LETTERS) return "outlines";
  return "none";
}
