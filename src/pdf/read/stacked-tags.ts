import { elevationsIn, type WrittenElevation } from "./elevation-tags.ts";
import { lineAbove } from "./find-notes.ts";
import { lengthsIn } from "./lengths-in-text.ts";
import type { TextRun } from "./plan-contents.ts";

const SURFACE = "steel|stl|deck|dk|slab|concrete|conc|joist|beam|roofing|roof|wall|parapet|footing|masonry";
const NAMED = new RegExp(
  String.raw`^(?:(?<top>top(?:\s+of)?|t\.?\s?o\.?(?:\s?of)?|t\s?/)|(?<bottom>bottom(?:\s+of)?|bot\.?|b\.?\s?o\.?|b\s?/|u\s?/\s?s|underside(?:\s+of)?))\s*(?<surface>${SURFACE})\b`,
  "i",
);
/** What stands over the figure of a level mark: LEVEL 1, SECOND FLOOR, FIN. FLOOR, ROOF, MEZZANINE. */
const LEVEL =
  /^(?:(?:level|lvl\.?|storey|story)\s*[\w-]{1,4}|(?:(?:\d+(?:st|nd|rd|th)|first|second|third|fourth|ground|upper|lower|main|fin(?:ish(?:ed)?|\.)?)\s+)?(?:floor|flr\.?|roof|mezzanine|basement)(?:\s+level)?|f\.?\s?f\.?(?:\s?[el])?\.?|(?:roof|deck)\s+level)$/i;
const WHOLE: Readonly<Record<string, string>> = { stl: "steel", dk: "deck", conc: "concrete" };

/**
 * The elevations in a line of text with the help of the lines round it: besides what the line says itself, a figure alone under
 * a line that names a surface or a level, as beside a level mark: `LEVEL 1` over `0'-0"`, `T.O. STEEL` over `118'-3 1/2"`.
 */
export function tagsIn(run: TextRun, texts: readonly TextRun[]): WrittenElevation[] {
  const own = elevationsIn(run);
  if (own.length > 0) return own;
  const [length, ...more] = lengthsIn(run);
  if (!length || more.length > 0 || run.text.trim() !== length.text || !/['’′]|mm|m$/i.test(length.text)) return [];
  const above = lineAbove(run, texts)?.trim() ?? "";
  const named = NAMED.exec(above)?.groups;
  if (!named && !LEVEL.test(above)) return [];
  const surface = named?.surface?.toLowerCase();
  return [
    {
      text: `${above} ${length.text}`,
      value: length.value,
      basis: named?.top ? "top" : named?.bottom ? "bottom" : null,
      surface: surface ? (WHOLE[surface] ?? surface) : null,
      from: null,
      existing: /\(e\)|\bexist(?:ing|\.)?/i.test(above),
      approximate: /\bverify\b|\bv\.?i\.?f\b/i.test(above),
      give: null,
      run,
      middle: length.middle,
    },
  ];
}
