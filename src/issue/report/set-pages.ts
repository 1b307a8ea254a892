import type { Picture } from "../../geometry/picture.ts";
import type { UnitSystem } from "../../units/length.ts";
import { FAINT_INK, HAIR_INK } from "../inks.ts";
import { linePath } from "../paths.ts";
import { SHORT_CAUTION } from "../words.ts";
import { type Block, LEADING, type Setting, textItem } from "./block.ts";
import { paginate } from "./paginate.ts";
import { isoDate } from "./report-facts.ts";
import { fitText, wrapText } from "./wrap-text.ts";

/** Pages as pictures, all of one size in points of paper. */
export interface ReportPages {
  readonly size: readonly [width: number, height: number];
  readonly pages: readonly Picture[];
}

const FOOT: Setting = { size: 6.8, face: "regular", ink: FAINT_INK };
const HEAD: Setting = { size: 8, face: "regular", ink: FAINT_INK };
const MARGIN = { left: 58, right: 50, top: 62, bottom: 62 } as const;
/** US letter and ISO A4, points. */
const PAPER_SIZE = { imperial: [612, 792], metric: [595.28, 841.89] } as const;

/** Sets blocks on pages of the paper of a unit system, each with its title, date, number and the caution. `blocks` get the width they may fill. */
export function setPages(
  system: UnitSystem,
  title: string,
  now: Date,
  blocks: (width: number) => readonly Block[],
): ReportPages {
  const size = PAPER_SIZE[system];
  const width = size[0] - MARGIN.left - MARGIN.right;
  const place = { left: MARGIN.left, top: size[1] - MARGIN.top, bottom: MARGIN.bottom };
  const pages = paginate(blocks(width), place);
  return { size, pages: pages.map((page, i) => [...page, ...frame(title, now, size, i, pages.length)]) };
}

/** Head and foot of a page. */
function frame(title: string, now: Date, size: readonly [number, number], index: number, count: number): Picture {
  const [left, right] = [MARGIN.left, size[0] - MARGIN.right];
  const line = (y: number) =>
    linePath(
      [
        [left, y],
        [right, y],
      ],
      { stroke: HAIR_INK, width: 0.5 },
    );
  const number = `Page ${index + 1} of ${count}`;
  const foot = wrapText(SHORT_CAUTION, right - left - 76, FOOT.size, FOOT.face);
  return [
    ...(index > 0
      ? [
          textItem(fitText(title, right - left - 90, HEAD.size, HEAD.face), left, size[1] - 32, HEAD),
          textItem(isoDate(now), right, size[1] - 32, HEAD, "end"),
          line(size[1] - 46),
        ]
      : []),
    line(MARGIN.bottom - 12),
    ...foot.map((text, i) => textItem(text, left, MARGIN.bottom - 17 - i * FOOT.size * LEADING, FOOT)),
    textItem(number, right, MARGIN.bottom - 17, HEAD, "end"),
  ];
}
