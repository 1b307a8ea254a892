import type { Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Sheet } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import { cornersOfWords, WORDS_WEIGHT } from "./drawing-words.ts";
import { noteLayout } from "./kinds/note-layout.ts";
import { Occupancy } from "./occupancy.ts";
import { type SheetFrame, sheetFrame } from "./sheet-frame.ts";
import { textCorners } from "./text-width.ts";

/** Directions the words of a note may lie from what it shows to, turns counter-clockwise from the right as displayed; the best first. */
const DIRECTIONS = [1 / 8, 3 / 8, 7 / 8, 5 / 8, 1 / 12, 5 / 12, 11 / 12, 7 / 12, 1 / 5, 3 / 10, 4 / 5, 7 / 10];
/** How far, points of paper. */
const REACHES = [32, 50, 75, 110, 160, 230];
/** What marks weigh: their lines, their words, and the spots a finding's symbol fills. */
const WEIGHTS = { line: 5, words: 12, spot: 40 } as const;
/** How much worse each later place is than the one before it. */
const LATER = 0.8;
/** Room kept round the words, points of paper. */
const PAD = 3;

/** What is drawn over a sheet already. */
interface DrawnMark {
  readonly picture: Picture;
  readonly hit?: { readonly kind: string; readonly at?: Point2; readonly radius?: number };
}

/** Where the words of a note go that shows to a point; sheet space. */
type NoteRoom = (at: Point2, note: { readonly label: string; readonly text: string }) => Point2;

/**
 * Finds places for the words of notes on a sheet where they cover the least of the marks there are and of the drawing's own words: the same
 * place each time for the same sheet. A page without room for them has them beside their point, pushed inside.
 */
export function noteRoom(
  sheet: Pick<Sheet, "view" | "rotate" | "userUnit">,
  marks: readonly DrawnMark[],
  words: readonly TextRun[],
): NoteRoom {
  const frame = sheetFrame(sheet);
  let made: Occupancy | undefined;
  return (at, note) => {
    made ??= occupied(sheet, marks, words);
    let best: { readonly place: Point2; readonly cost: number } | undefined;
    let rank = 0;
    for (const reach of REACHES)
      for (const turns of DIRECTIONS) {
        const handicap = LATER * rank++;
        if (best && handicap >= best.cost) return best.place;
        const angle = turns * 2 * Math.PI;
        const [dx, dy] = frame.shift(Math.cos(angle) * reach, Math.sin(angle) * reach);
        const place: Point2 = [at[0] + dx, at[1] + dy];
        const { corners, leader } = noteLayout({ ...note, at, place }, frame);
        const [a, b, c, d] = corners;
        const [left, right] = [frame.shift(-PAD, 0), frame.shift(PAD, 0)];
        const [down, up] = [frame.shift(0, -PAD), frame.shift(0, PAD)];
        const padded = [plus(a, left, down), plus(b, right, down), plus(c, right, up), plus(d, left, up)];
        const cost = made.costOfBox(padded) + 0.5 * made.costOfLine(leader) + handicap;
        if (cost < (best?.cost ?? Infinity)) best = { place, cost };
      }
    return best?.place ?? pulledInside(at, frame.shift(REACHES[0]!, REACHES[0]!), frame.view);
  };
}

const plus = ([x, y]: Point2, ...steps: readonly Point2[]): Point2 =>
  steps.reduce<Point2>(([a, b], [dx, dy]) => [a + dx, b + dy], [x, y]);

function pulledInside([x, y]: Point2, [dx, dy]: Point2, [x0, y0, x1, y1]: SheetFrame["view"]): Point2 {
  return [Math.min(Math.max(x + dx, x0), x1), Math.min(Math.max(y + dy, y0), y1)];
}

/** What lies where on a sheet: the drawing's words, and the marks over it. */
function occupied(
  sheet: Pick<Sheet, "view" | "rotate" | "userUnit">,
  marks: readonly DrawnMark[],
  words: readonly TextRun[],
): Occupancy {
  const { view, point } = sheetFrame(sheet);
  const occupancy = new Occupancy(view, 3 * point);
  for (const word of words) occupancy.addBox(cornersOfWords(word), WORDS_WEIGHT);
  for (const { picture, hit } of marks) {
    if (hit?.kind === "spot" && hit.at && hit.radius) {
      const [[x, y], r] = [hit.at, hit.radius * 1.5];
      occupancy.addBox([[x - r, y - r], [x + r, y - r], [x + r, y + r], [x - r, y + r]], WEIGHTS.spot); // biome-ignore format: one box
    }
    for (const item of picture) {
      if (item.type === "text") occupancy.addBox(textCorners(item), WEIGHTS.words);
      else if (item.stroke) for (const line of linesOf(item.steps)) occupancy.addLine(line, WEIGHTS.line);
    }
  }
  return occupancy;
}

/** The lines of a path, curves by their ends. */
function linesOf(steps: readonly (readonly [string, ...number[]])[]): Point2[][] {
  const lines: Point2[][] = [];
  for (const [kind, ...numbers] of steps) {
    if (kind === "Z") {
      const line = lines.at(-1);
      if (line?.[0]) line.push(line[0]);
      continue;
    }
    const at: Point2 = [numbers.at(-2)!, numbers.at(-1)!];
    if (kind === "M") lines.push([at]);
    else lines.at(-1)?.push(at);
  }
  return lines;
}
