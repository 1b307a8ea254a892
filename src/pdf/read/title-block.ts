import type { Point2 } from "../../geometry/point.ts";
import { applyMatrix } from "./matrix.ts";
import { displaySize, displayTransform, type PageGeometry } from "./page-geometry.ts";
import type { TextRun } from "./plan-contents.ts";

/** What the title block says the sheet is. */
export interface SheetTitle {
  /** The number of the sheet ("A-110"), null where none stands out. */
  readonly number: TextRun | null;
  /** The name of the sheet, its lines joined; null where none can be told. */
  readonly name: string | null;
}

const NUMBER = /^[A-Z]{1,3}[-. ]?\d{1,4}(?:[.-]\d{1,3})?[A-Z]?$/;
const NAME_LABEL = /^(?:sheet|drawing)\s*(?:title|name)\s*:?$|^title\s*:?$/i;
const OTHER_LABEL =
  /^(?:scale|date|datum|sheet|sheet\s*(?:no|number)\.?|drawn(?:\s+by)?|checked(?:\s+by)?|project(?:\s*(?:no|number|name))?\.?|revisions?|no\.?|description|note)\s*:?$/i;
/** How much larger than the usual text the number must be, and the name. */
const LARGER = 1.5;
/** Lines of one name: how far apart, in heights. */
const LINES_APART = 1.35;
/** Texts looked at on one page. */
const MOST = 20_000;

/** A text as a person sees it: upright page, y down, 1/72 in. of paper. */
interface Seen {
  readonly run: TextRun;
  readonly at: Point2;
  readonly height: number;
  readonly right: number;
}

/**
 * The number and name of a sheet, from its title block: the number is the largest text of that form; the name stands under
 * the words SHEET TITLE or the like, else it is the large text nearest above the number, in its column.
 */
export function titleOfSheet(geometry: PageGeometry, texts: readonly TextRun[]): SheetTitle {
  const shown = displayTransform(geometry);
  const { width } = displaySize(geometry);
  const upright = texts.slice(0, MOST).flatMap((run): Seen[] => {
    const at = applyMatrix(shown, run.at);
    const end = applyMatrix(shown, [
      run.at[0] + Math.cos(run.angle) * run.width,
      run.at[1] + Math.sin(run.angle) * run.width,
    ]);
    const height = run.height * geometry.userUnit;
    const isUpright = end[0] > at[0] && Math.abs(end[1] - at[1]) < 0.1 * (end[0] - at[0]);
    return isUpright && Number.isFinite(height) ? [{ run, at, height, right: end[0] }] : [];
  });
  const heights = upright.map(({ height }) => height).sort((a, b) => a - b);
  const usual = heights[heights.length >> 1] ?? 0;
  const number = largest(upright.filter(({ run, height }) => NUMBER.test(run.text) && height >= LARGER * usual));
  return { number: number?.run ?? null, name: number ? nameNear(number, upright, usual, width) : null };
}

const largest = (list: readonly Seen[]): Seen | undefined =>
  list.reduce<Seen | undefined>((best, each) => (best && best.height >= each.height ? best : each), undefined);

function nameNear(number: Seen, texts: readonly Seen[], usual: number, width: number): string | null {
  const column = texts.filter(
    ({ at, right }) =>
      right > number.at[0] - 0.12 * width &&
      at[0] < number.right + 0.12 * width &&
      Math.abs(at[0] - number.at[0]) < 0.12 * width,
  );
  const label = column.find(({ run, at }) => NAME_LABEL.test(run.text) && at[1] < number.at[1]);
  if (label) {
    const next = Math.min(
      number.at[1] - number.height,
      ...column.filter(({ run, at }) => at[1] > label.at[1] && OTHER_LABEL.test(run.text)).map(({ at }) => at[1]),
    );
    const lines = column.filter(({ at, run }) => at[1] > label.at[1] && at[1] < next && run !== label.run);
    const first = Math.max(0, ...lines.map(({ height }) => height));
    return joined(lines.filter(({ height }) => height >= 0.8 * first));
  }
  const above = column
    .filter(
      ({ run, at, height }) =>
        at[1] < number.at[1] - 0.5 * number.height &&
        height >= LARGER * usual &&
        /[a-z]{2}/i.test(run.text) &&
        !OTHER_LABEL.test(run.text),
    )
    .sort((a, b) => b.at[1] - a.at[1]);
  const own = above.slice(0, 1);
  for (const each of above.slice(1)) {
    const last = own.at(-1)!;
    const apart = last.at[1] - each.at[1];
    // Another size, or farther up than the next line would be: the name of the project.
    if (apart > LINES_APART * last.height || Math.abs(each.height / last.height - 1) > 0.02) break;
    // Between the lines of one name the distance is even; a rule with its margins takes more.
    if (own.length > 1 && apart > 1.15 * (own.at(-2)!.at[1] - last.at[1])) break;
    own.push(each);
  }
  return joined(own);
}

function joined(lines: readonly Seen[]): string | null {
  const text = [...lines]
    .sort((a, b) => a.at[1] - b.at[1])
    .map(({ run }) => run.text)
    .join(" ")
    .trim();
  return text === "" ? null : text;
}
