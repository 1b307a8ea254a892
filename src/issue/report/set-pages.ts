import type { Picture } from "../../geometry/picture.ts";
import type { UnitSystem } from "../../units/length.ts";
import { FAINT_INK, HAIR_INK } from "../inks.ts";
import { levelPath } from "../paths.ts";
import { SHORT_CAUTION } from "../words.ts";
import { type Block, LEADING, type Setting, textItem } from "./block.ts";
import { paginate, type Stretch } from "./paginate.ts";
import { isoDate } from "./report-facts.ts";
import { fitText, wrapText } from "./wrap-text.ts";

/** Pages as pictures, all of one size in points of paper. */
export interface ReportPages {
  readonly size: readonly [width: number, height: number];
  readonly pages: readonly Picture[];
  /** What the items of each page are parts of; what is in none, or in one without a part, adorns the page. */
  readonly stretches: readonly (readonly Stretch[])[];
}

/** The paper, the margins on it in points, and what stands at the foot of every page. */
export interface PageForm {
  readonly size: readonly [width: number, height: number];
  readonly margin: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly caution: string;
  readonly pageWords: (number: number, count: number) => string;
}

const FOOT: Setting = { size: 6.8, face: "regular", ink: FAINT_INK };
const HEAD: Setting = { size: 8, face: "regular", ink: FAINT_INK };
/** US letter and ISO A4, points. */
const PAPER_SIZE = { imperial: [612, 792], metric: [595.28, 841.89] } as const;

/** How reports and letters are set: on the usual paper of a unit system, with the caution in English. */
const letterForm = (system: UnitSystem): PageForm => ({
  size: PAPER_SIZE[system],
  margin: { left: 58, right: 50, top: 62, bottom: 62 },
  caution: SHORT_CAUTION,
  pageWords: (number, count) => `Page ${number} of ${count}`,
});

/** Sets parts, each from the top of a page of its own, on pages with their title, date, number and the caution. `parts` get the width they may fill. */
export function setParts(
  form: PageForm,
  title: string,
  now: Date,
  parts: (width: number) => readonly (readonly Block[])[],
): ReportPages {
  const { size, margin } = form;
  const width = size[0] - margin.left - margin.right;
  const place = { left: margin.left, top: size[1] - margin.top, bottom: margin.bottom };
  const pages = parts(width).flatMap((blocks) => paginate(blocks, place));
  return {
    size,
    pages: pages.map(({ items }, i) => [...items, ...frame(form, title, now, i, pages.length)]),
    stretches: pages.map(({ stretches }) => stretches),
  };
}

/** Sets blocks on the usual pages of a unit system, each with its title, date, number and the caution. */
export const setPages = (
  system: UnitSystem,
  title: string,
  now: Date,
  blocks: (width: number) => readonly Block[],
): ReportPages => setParts(letterForm(system), title, now, (width) => [blocks(width)]);

/** Head and foot of a page. */
function frame(
  { size, margin, caution, pageWords }: PageForm,
  title: string,
  now: Date,
  index: number,
  count: number,
): Picture {
  const [left, right] = [margin.left, size[0] - margin.right];
  const line = (y: number) => levelPath(left, right, y, { stroke: HAIR_INK, width: 0.5 });
  const foot = wrapText(caution, right - left - 76, FOOT.size, FOOT.face);
  const head = size[1] - margin.top;
  return [
    ...(index > 0
      ? [
          textItem(fitText(title, right - left - 90, HEAD.size, HEAD.face), left, head + 30, HEAD),
          textItem(isoDate(now), right, head + 30, HEAD, "end"),
          line(head + 16),
        ]
      : []),
    line(margin.bottom - 12),
    ...foot.map((text, i) => textItem(text, left, margin.bottom - 17 - i * FOOT.size * LEADING, FOOT)),
    textItem(pageWords(index + 1, count), right, margin.bottom - 17, HEAD, "end"),
  ];
}
