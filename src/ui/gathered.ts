import type { ScreenMark } from "../canvas/screen-mark.ts";
import { type CheckResult, type Finding, findingKeyText, isQuiet, VERDICTS } from "../check/finding.ts";
import type { Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import { SYMBOL_MM } from "../issue/finding-mark.ts";
import { INK, VERDICT_INK, WHITE } from "../issue/inks.ts";
import { circlePath, roundRectPath } from "../issue/paths.ts";
import { placePicture } from "../issue/place-picture.ts";
import { pointsOfMillimetres, type SheetFrame } from "../issue/sheet-frame.ts";
import { symbolOf } from "../issue/symbols.ts";
import { CAP_HEIGHT, textWidth } from "../issue/text-width.ts";
import { radians } from "../units/quantity.ts";

/** A sheet with more findings than this is crowded: seen whole, their symbols would be a carpet over the drawing. */
const CROWD = 250;
/** Findings are gathered by squares of so many symbol sides; a square with fewer than `LEAST` keeps its symbols. */
const SQUARE_SIDES = 5;
const LEAST = 3;

/**
 * Marks of a crowded sheet seen from afar (enlarged `times`): the findings of each square of the sheet in one mark, with the symbol of the worst
 * of them and their number, and a dot at every spot. Pointed at, it is the worst one. Those of `apart` (keys) stay as they are; nothing is left out.
 */
export function gathered(
  marks: readonly ScreenMark[],
  result: CheckResult | null,
  times: number,
  frame: SheetFrame,
  apart: readonly string[],
): readonly ScreenMark[] {
  if (times === 1 || !result || marks.length <= CROWD) return marks;
  let findings: ReadonlyMap<string, Finding> | undefined;
  const alone = new Set(apart);
  const side = pointsOfMillimetres(SYMBOL_MM) * times * frame.point;
  const square = SQUARE_SIDES * side;
  const squares = new Map<string, Member[]>();
  const kept: ScreenMark[] = [];
  for (const mark of marks) {
    const known = shown.get(mark);
    if (!known) findings ??= shownFindings(result);
    const finding = known ?? findings?.get(mark.key);
    if (finding && !known) shown.set(mark, finding);
    if (!finding || alone.has(mark.key)) kept.push(mark);
    else {
      const name = `${Math.floor(finding.at[0] / square)} ${Math.floor(finding.at[1] / square)}`;
      const list = squares.get(name);
      if (list) list.push({ mark, finding });
      else squares.set(name, [{ mark, finding }]);
    }
  }
  const groups = [...squares.values()].flatMap((list) =>
    list.length < LEAST ? list.map(({ mark }) => mark) : [groupMark(list, side, frame)],
  );
  // A mark kept apart lies over the groups.
  return [...groups, ...kept];
}

/** What each mark shows. A mark that is the same object was drawn of the same finding: only those of others are looked for. */
const shown = new WeakMap<ScreenMark, Finding>();

/** The findings that have marks, by the keys of these. */
const shownFindings = ({ findings }: CheckResult): ReadonlyMap<string, Finding> =>
  new Map(
    findings.flatMap((finding): [string, Finding][] =>
      isQuiet(finding.verdict) ? [] : [[`finding:${findingKeyText(finding)}`, finding]],
    ),
  );

type Member = { readonly mark: ScreenMark; readonly finding: Finding };

/** Groups made before, by their first mark: the same members at the same size are the same object, and are not drawn anew. */
const made = new WeakMap<
  ScreenMark,
  { readonly list: readonly Member[]; readonly side: number; readonly group: ScreenMark }
>();

function groupMark(list: readonly Member[], side: number, frame: SheetFrame): ScreenMark {
  const first = list[0]!.mark;
  const known = made.get(first);
  if (
    known?.side === side &&
    known.list.length === list.length &&
    known.list.every(({ mark }, i) => mark === list[i]!.mark)
  )
    return known.group;
  const group = newGroup(list, side, frame);
  made.set(first, { list, side, group });
  return group;
}

function newGroup(list: readonly Member[], side: number, frame: SheetFrame): ScreenMark {
  const worst = list.reduce((a, b) => (badness(b.finding) < badness(a.finding) ? b : a));
  const spots = list.map(({ finding }) => finding.at);
  const middle = (k: 0 | 1) => spots.reduce((sum, at) => sum + at[k], 0) / spots.length;
  // On the spot nearest the middle of them all: never over a place where there is nothing to see.
  const [x, y] = [middle(0), middle(1)];
  const far = (at: Point2) => Math.hypot(at[0] - x, at[1] - y);
  const place = spots.reduce((a, b) => (far(b) < far(a) ? b : a));
  const ink = VERDICT_INK[worst.finding.verdict];
  const dots = spots.map((at) => circlePath(at, 0.06 * side, { fill: ink, opacity: 0.8 }));
  const { key, faint } = worst.mark;
  return {
    key,
    ...(faint === undefined ? {} : { faint }),
    picture: [...dots, ...plate(worst.finding, String(list.length), place, side, frame)],
    hit: { kind: "spot", at: place, radius: 0.9 * side },
  };
}

/** How bad: 0 is the worst. */
const badness = ({ verdict }: Finding): number => VERDICTS.indexOf(verdict);

/** The symbol with the number in a double frame: one frame is a finding, two are several. */
function plate({ verdict }: Finding, number: string, [dx, dy]: Point2, side: number, frame: SheetFrame): Picture {
  const ink = VERDICT_INK[verdict];
  const size = 0.6;
  const right = 0.62 + textWidth(number, size, "bold") + 0.16;
  const outline = (more: number, opacity: number) =>
    roundRectPath(-0.66 - more, -0.66 - more, right + more, 0.66 + more, 0.18, { stroke: ink, width: 0.05, opacity });
  const sim = { scale: side, angle: frame.upright, dx, dy };
  return placePicture(
    [
      roundRectPath(-0.8, -0.8, right + 0.14, 0.8, 0.22, { fill: WHITE, opacity: 0.72 }),
      outline(0, 0.9),
      outline(0.12, 0.9),
      ...symbolOf(verdict),
      {
        type: "text",
        text: number,
        at: [0.62, (-size * CAP_HEIGHT) / 2],
        size,
        angle: radians(0),
        align: "start",
        face: "bold",
        fill: INK,
      },
    ],
    sim,
  );
}
