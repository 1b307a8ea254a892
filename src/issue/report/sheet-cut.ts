import type { Finding } from "../../check/finding.ts";
import type { Picture, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { applyTo, invert, type Similarity } from "../../geometry/similarity.ts";
import { gridLinesOf } from "../../job/grid-lines.ts";
import { sheetToBuilding } from "../../job/registration.ts";
import type { Job } from "../../job/schema.ts";
import { radians } from "../../units/quantity.ts";
import { clipLine } from "../clip-drawing.ts";
import { gridOfFinding } from "../grid-words.ts";
import { FAINT_INK, HAIR_INK } from "../inks.ts";
import type { Mark } from "../mark.ts";
import { linePath } from "../paths.ts";
import { pictureBounds, placePicture } from "../place-picture.ts";
import { sheetFrame } from "../sheet-frame.ts";
import { sheetTitle } from "../words.ts";
import type { Block, Piece } from "./block.ts";
import type { Part } from "./part.ts";

/** The picture on the page, points. */
export const CUT = { width: 178, height: 134 } as const;
/** Points of the page for a point of the sheet's paper: near enough to tell symbols apart, far enough to show what is around. */
const ZOOM = 0.8;
/** Letters of grid lines, points. */
const GRID_SIZE = 6.5;

type Box = readonly [number, number, number, number];

/**
 * Cuts from the sheets what surrounds a finding: our marks as they lie on the sheet, upright, and the lines of the grid where one is kept. The answer
 * is undefined for a finding whose symbol is not among the marks.
 */
export function sheetCutter(job: Job, marks: readonly Mark[]): (finding: Finding) => Block | undefined {
  const bySheet = new Map<string, { mark: Mark; bounds: Box }[]>();
  for (const mark of marks) {
    const bounds = pictureBounds(mark.picture);
    const there = bySheet.get(mark.sheet) ?? [];
    bySheet.set(mark.sheet, there);
    if (bounds) there.push({ mark, bounds });
  }
  return (finding) => {
    const around = bySheet.get(finding.sheet) ?? [];
    const own = around.find(({ mark }) => mark.finding !== undefined && mark.finding === finding.number);
    if (!own) return undefined;
    const toPage = placing(job, finding, own.bounds);
    const window: Box = [0, 0, CUT.width, CUT.height];
    const seen = around.flatMap(({ mark, bounds }) =>
      meets(boxOf(bounds, toPage), window)
        ? placePicture(mark.picture, toPage).filter((item) => isWithin(item, window))
        : [],
    );
    return cutBlock(job, finding, [...gridPicture(job, finding, toPage, window), ...seen]);
  };
}

function cutBlock(job: Job, finding: Finding, picture: Picture): Block {
  const grid = gridOfFinding(job, finding);
  const alt = `Cut from sheet ${sheetTitle(job, finding.sheet)} around finding ${finding.number}, ${finding.element}${grid && `, ${grid}`}.`;
  const part: Part = { role: "Figure", alt };
  return {
    height: CUT.height,
    before: 4,
    keep: false,
    draw: (x, top): Piece[] => {
      const clip: Box = [x, top - CUT.height, x + CUT.width, top];
      const shift = { scale: 1, angle: radians(0), dx: clip[0], dy: clip[1] };
      return [
        { part, clip, picture: placePicture(picture, shift) },
        { picture: [linePath(corners(clip), { stroke: HAIR_INK, width: 0.6 }, true)] },
      ];
    },
  };
}

/** From the sheet to the picture: spot and symbol in its middle, as far as the page goes on around them. */
function placing(job: Job, { sheet }: Finding, own: Box): Similarity {
  const { view, point, upright } = sheetFrame(job.sheets[sheet]!);
  const turn = { scale: ZOOM / point, angle: radians(-upright), dx: 0, dy: 0 };
  const middle = ([x0, y0, x1, y1]: Box): Point2 => [(x0 + x1) / 2, (y0 + y1) / 2];
  const page = boxOf(view, turn);
  const held = middle(boxOf(own, turn)).map((v, i) => {
    const half = (i === 0 ? CUT.width : CUT.height) / 2;
    const [low, high] = [page[i]! + half, page[i + 2]! - half];
    return low > high ? (low + high) / 2 : Math.min(Math.max(v, low), high);
  });
  return { ...turn, dx: CUT.width / 2 - held[0]!, dy: CUT.height / 2 - held[1]! };
}

const corners = ([x0, y0, x1, y1]: Box): Point2[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

function boxOf(box: Box, sim: Similarity): Box {
  const placed = corners(box).map((at) => applyTo(sim, at));
  const [xs, ys] = [placed.map(([x]) => x), placed.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

const meets = (a: Box, b: Box): boolean => a[0] < b[2] && a[2] > b[0] && a[1] < b[3] && a[3] > b[1];

/** Words are shown whole or not at all; of lines what lies within. */
function isWithin(item: PictureItem, window: Box): boolean {
  const box = pictureBounds([item]);
  if (!box) return false;
  if (item.type === "path") return meets(box, window);
  return box[0] > window[0] && box[1] > window[1] && box[2] < window[2] && box[3] < window[3];
}

/** Lines of the building's grid, each with its label where it enters the picture. */
function gridPicture(job: Job, { elementId }: Finding, toPage: Similarity, window: Box): PictureItem[] {
  const viewport = job.elements[elementId]?.viewport;
  const placed = viewport === undefined ? undefined : sheetToBuilding(job, viewport);
  if (viewport === undefined || !placed?.ok) return [];
  const back = invert(placed.value.sim);
  const [x0, y0, x1, y1] = window;
  return gridLinesOf(job, viewport).flatMap(({ label, line }) => {
    const [a, b] = line.map((at) => applyTo(toPage, applyTo(back, at))) as [Point2, Point2];
    return clipLine([a, b], { inside: [...window], outside: [] }).flatMap((piece): PictureItem[] => {
      const end = piece.toSorted(([ax, ay], [bx, by]) => by - ay - (bx - ax))[0]!;
      const at: Point2 = [
        Math.min(Math.max(end[0] + 2, x0 + 2), x1 - 8),
        Math.min(Math.max(end[1] - GRID_SIZE, y0 + 2), y1 - GRID_SIZE),
      ];
      return [
        linePath(piece, { stroke: HAIR_INK, width: 0.5, dash: [8, 2, 2, 2] }),
        {
          type: "text",
          text: label,
          at,
          size: GRID_SIZE,
          angle: radians(0),
          align: "start",
          face: "bold",
          fill: FAINT_INK,
        },
      ];
    });
  });
}
