import type { Point2 } from "../../geometry/point.ts";
import { lineAbove } from "./find-notes.ts";
import type { SheetBox } from "./gather-linework.ts";
import { chosen, type Linework } from "./linework.ts";
import { applyMatrix, invert } from "./matrix.ts";
import { displayTransform, type PageGeometry } from "./page-geometry.ts";
import type { FoundScaleNote, TextRun } from "./plan-contents.ts";

/** A scale note with the view it stands at. Sheet space. */
export interface NotedView {
  readonly note: FoundScaleNote;
  /** The words of the title beside the note; null where there are none. */
  readonly title: string | null;
  /** Whether the note stands in the title block, for all of the sheet. */
  readonly inTitleBlock: boolean;
  /** The part of the sheet it speaks for as far as can be told: the title's own column, up to the next title. */
  readonly region: SheetBox;
  /** What makes that doubtful: another note at the same title, or nothing drawn in the part. */
  readonly doubts: readonly ("two-notes" | "nothing-drawn")[];
}

/** Titles whose heights on the sheet differ by less than this part of it stand in one row. */
const ROW = 0.04;
/** How far left of its title a view may begin, as a part of the sheet's width. */
const LEFT = 0.02;
/** How far left of the first title of a row its view may begin. */
const FIRST_LEFT = 0.12;
/** A title beyond ends a view where it takes up this part of the view's column. */
const ENDS_AT = 0.6;
/** Notes looked at on one page. */
const MOST_NOTES = 400;
/** Segments asked for to tell on which side of their titles the views are. */
const SAMPLED = 40_000;

/** A note as a person sees it: the page upright, y down, 1/72 in. of paper. */
interface Shown {
  readonly note: FoundScaleNote;
  readonly title: string | null;
  readonly left: number;
  readonly y: number;
}

/**
 * Ties the scale notes of a page to its views: each to the title it stands at, and to the part of the sheet above that title
 * (below it on sheets where titles stand over their views).
 */
export function notedViews(
  geometry: PageGeometry,
  notes: readonly FoundScaleNote[],
  texts: readonly TextRun[],
  linework?: Linework,
): readonly NotedView[] {
  const shown = displayTransform(geometry);
  const [width, height] = sizeOf(geometry);
  const all: Shown[] = notes.slice(0, MOST_NOTES).map((note) => {
    const [left, y] = applyMatrix(shown, note.run.at);
    return { note, title: titleOf(note, texts), left, y };
  });
  const labelled = all.map(({ note }) => isLabelled(note.run, texts));
  // A lone note without a title speaks for the sheet as well.
  const views = all.filter((each, i) => !labelled[i] && (each.title !== null || all.length > 1));
  const middles = linework ? middlesOf(linework).map((at) => applyMatrix(shown, at)) : [];
  const above = views.map((view) => reach(view, views, width, height, true));
  const below = views.map((view) => reach(view, views, width, height, false));
  const inBoxes = (boxes: readonly SheetBox[]) =>
    middles.reduce((sum, at) => sum + Number(boxes.some((box) => isIn(box, at))), 0);
  const under = views.length > 0 && inBoxes(below) > 1.5 * inBoxes(above);
  const back = invert(shown);
  return all.map((each) => {
    const i = views.indexOf(each);
    const box: SheetBox = i < 0 ? [0, 0, width, height] : (under ? below : above)[i]!;
    const twin = views.some(
      (other) =>
        i >= 0 &&
        other !== each &&
        Math.abs(other.y - each.y) < 3 * em(each) &&
        Math.abs(other.left - each.left) < 12 * em(each),
    );
    const empty = linework !== undefined && i >= 0 && !middles.some((at) => isIn(box, at));
    return {
      note: each.note,
      title: i < 0 ? null : each.title,
      inTitleBlock: i < 0,
      region: boxed(applyMatrix(back, [box[0], box[1]]), applyMatrix(back, [box[2], box[3]])),
      doubts: [...(twin ? (["two-notes"] as const) : []), ...(empty ? (["nothing-drawn"] as const) : [])],
    };
  });

  function em({ note }: Shown): number {
    return note.run.height * geometry.userUnit;
  }
}

function reach(view: Shown, views: readonly Shown[], width: number, height: number, up: boolean): SheetBox {
  const row = ROW * height;
  const inRow = views.filter((other) => other !== view && Math.abs(other.y - view.y) <= row);
  const next = Math.min(
    width,
    ...inRow.filter(({ left }) => left > view.left + 1).map(({ left }) => left - LEFT * width),
  );
  const isFirst = (of: Shown, among: readonly Shown[]): boolean => !among.some(({ left }) => left < of.left - 1);
  const from = Math.max(0, view.left - (isFirst(view, inRow) ? FIRST_LEFT : LEFT) * width);
  const beyond = views.filter((other) => (up ? other.y < view.y - row : other.y > view.y + row) && other.left < next);
  const overlapping = beyond.filter((other) => {
    const mates = views.filter((each) => each !== other && Math.abs(each.y - other.y) <= row);
    const right = Math.min(width, ...mates.filter(({ left }) => left > other.left + 1).map(({ left }) => left));
    const left = other.left - (isFirst(other, mates) ? FIRST_LEFT : LEFT) * width;
    return Math.min(right, next) - Math.max(left, from) >= ENDS_AT * (next - from);
  });
  return up
    ? [from, Math.max(0, ...overlapping.map(({ y }) => y)), next, view.y]
    : [from, view.y, next, Math.min(height, ...overlapping.map(({ y }) => y))];
}

/** The words of the title: those before the note in its own line, else the line right above it. */
function titleOf({ run, text }: FoundScaleNote, texts: readonly TextRun[]): string | null {
  const before = run.text
    .slice(0, Math.max(0, run.text.indexOf(text)))
    .replace(/\bscale\b\s*[:=]?\s*$/i, "")
    .trim();
  // A remark before the note ("HEIGHTS DRAWN LARGER.") is no title.
  const words = before.length > 2 && !/[.:;]$/.test(before) ? before : lineAbove(run, texts);
  return words !== null && !LABEL.test(words) ? words.replace(/^\d{1,3}[A-Z]?\s+(?=\S)/, "") : null;
}

const LABEL = /^(?:drawing\s+)?scale\s*:?$/i;

/** Whether the note stands beside or under the word SCALE, as it does in a title block. */
function isLabelled(run: TextRun, texts: readonly TextRun[]): boolean {
  const [c, s] = [Math.cos(run.angle), Math.sin(run.angle)];
  return texts.some((other) => {
    if (!LABEL.test(other.text) || Math.cos(other.angle - run.angle) < 0.999) return false;
    const [dx, dy] = [other.at[0] - run.at[0], other.at[1] - run.at[1]];
    const [along, up] = [dx * c + dy * s, dy * c - dx * s];
    const high = Math.max(run.height, other.height);
    return Math.abs(up) <= 3.5 * high && along <= high && along >= -40 * high;
  });
}

/** The middles of what is seen, thinned where there is much. */
function middlesOf(linework: Linework): Point2[] {
  const { count, coords, view } = linework;
  const isChosen = chosen(linework);
  const step = Math.max(1, Math.ceil(count / SAMPLED));
  const long = 0.5 * Math.min(view[2] - view[0], view[3] - view[1]);
  const done: Point2[] = [];
  for (let segment = 0; segment < count; segment += step) {
    const at = 4 * segment;
    const [x0, y0, x1, y1] = [coords[at]!, coords[at + 1]!, coords[at + 2]!, coords[at + 3]!];
    // Borders and the like belong to no view.
    if (isChosen(segment) && Math.hypot(x1 - x0, y1 - y0) < long) done.push([(x0 + x1) / 2, (y0 + y1) / 2]);
  }
  return done;
}

const isIn = ([x0, y0, x1, y1]: SheetBox, [x, y]: Point2): boolean => x >= x0 && x <= x1 && y >= y0 && y <= y1;
const boxed = (a: Point2, b: Point2): SheetBox => [
  Math.min(a[0], b[0]),
  Math.min(a[1], b[1]),
  Math.max(a[0], b[0]),
  Math.max(a[1], b[1]),
];
const sizeOf = ({ view, rotate, userUnit }: PageGeometry): readonly [number, number] => {
  const [across, up] = [(view[2] - view[0]) * userUnit, (view[3] - view[1]) * userUnit];
  return rotate % 180 === 0 ? [across, up] : [up, across];
};
