import type { Finding } from "../../check/finding.ts";
import type { Scene } from "../../check/scene.ts";
import { subjectOf } from "../../check/subject.ts";
import type { Picture, PictureItem, TextItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { boundingBox } from "../../geometry/polygon.ts";
import { applyTo } from "../../geometry/similarity.ts";
import type { Id } from "../../job/fields.ts";
import { type GridLine, gridLinesOf } from "../../job/grid-lines.ts";
import { radians } from "../../units/quantity.ts";
import { type Clip, clipLine } from "../clip-drawing.ts";
import { findingMark } from "../finding-mark.ts";
import { ACCENT, FAINT_INK, HAIR_INK, INK, VERDICT_INK } from "../inks.ts";
import { alongShape, stretchPoints } from "../kinds/along.ts";
import { STRETCH_DASH } from "../kinds/run.ts";
import { Occupancy } from "../occupancy.ts";
import { linePath } from "../paths.ts";
import { sheetFrame } from "../sheet-frame.ts";
import { TakenRoom } from "../taken-room.ts";
import { textCorners } from "../text-width.ts";

/** What of a deck area is drawn, building space. */
export interface PlanOfArea {
  readonly viewport: Id;
  /** The frame it lies in. */
  readonly root: Id;
  /** Rings without their first point again at the end. */
  readonly outline: readonly Point2[];
  readonly holes: readonly (readonly Point2[])[];
  /** Corners that get a number, with the elevation of the deck there; none where the numbers are not wanted. */
  readonly corners: readonly { readonly at: Point2; readonly deck: number }[];
  /** Lines where faces of the deck meet, as pairs of corners. */
  readonly edges: readonly (readonly [number, number])[];
}

/** Room for numbers and symbols around the area, points. */
const AROUND = 26;
/** How far beyond the area wiring is drawn, points. */
const BEYOND = 10;
/** How far beyond it lines of the grid end, so that their labels stand clear of the numbers of corners. */
const GRID_BEYOND = 15;
const NUMBER_SIZE = 8;
/** How far lines of the grid are drawn on where they end, points: across any page. */
const FAR = 2000;
const STRETCH_WIDTH = 3;

/**
 * A deck area with the wiring under it, fitted into a box of paper: points, origin at the lower left corner, plan x to the right and y up. Stretches
 * that must not be built so are drawn strong in the manner of their verdict, each finding with its symbol and number.
 */
export function areaPlan(
  scene: Scene,
  area: PlanOfArea,
  findings: readonly Finding[],
  width: number,
  height: number,
): Picture {
  const { min, max } = boundingBox([...area.outline, ...area.corners.map(({ at }) => at)]);
  const scale = Math.min((width - 2 * AROUND) / (max[0] - min[0] || 1), (height - 2 * AROUND) / (max[1] - min[1] || 1));
  const [left, low] = [(width - (max[0] - min[0]) * scale) / 2, (height - (max[1] - min[1]) * scale) / 2];
  const place = ([x, y]: Point2): Point2 => [left + (x - min[0]) * scale, low + (y - min[1]) * scale];
  const [x0, y0] = place(min);
  const [x1, y1] = place(max);
  const around = (by: number): Clip => ({ inside: [x0 - by, y0 - by, x1 + by, y1 + by], outside: [] });
  const box = around(BEYOND);
  const wires = wiringOf(scene, area.root).flatMap((line) => clipLine(line.map(place), box));
  const stretches = findings.flatMap((finding) =>
    stretchesOf(scene, finding).flatMap((line) => clipLine(line.map(place), box).map((piece) => ({ piece, finding }))),
  );
  const rings = [area.outline, ...area.holes].map((ring) => ring.map(place));
  const grid = gridPicture(gridLinesOf(scene.job, area.viewport), place, around(GRID_BEYOND));
  const numbers = cornerNumbers(area.corners, place);
  const picture: PictureItem[] = [
    ...grid,
    ...rings.map((ring) => linePath(ring, { stroke: INK, width: 1 }, true)),
    ...area.edges.map((ends) =>
      linePath(
        ends.map((k) => place(area.corners[k]!.at)),
        { stroke: HAIR_INK, width: 0.8 },
      ),
    ),
    ...wires.map((line) => linePath(line, { stroke: ACCENT, width: 0.7, opacity: 0.7 })),
    ...stretches.map(({ piece, finding: { verdict } }) => {
      const dash = STRETCH_DASH[verdict];
      const paint = { stroke: VERDICT_INK[verdict], width: STRETCH_WIDTH, opacity: 0.75 };
      return linePath(piece, dash ? { ...paint, dash } : paint);
    }),
    ...(area.edges.length === 0 ? fallArrow(area.corners, place) : []),
    ...numbers,
  ];
  const frame = sheetFrame({ view: [0, 0, width, height], rotate: 0, userUnit: 1 });
  const occupancy = new Occupancy(frame.view, 3);
  for (const line of [...rings, ...wires]) occupancy.addLine(line, 3);
  const taken = new TakenRoom(40);
  for (const text of [...numbers, ...grid.filter((item) => item.type === "text")]) {
    occupancy.addBox(textCorners(text), 40);
    taken.add(textCorners(text));
  }
  for (const finding of findings) {
    const at = placeOf(scene, finding);
    if (!at) continue;
    const spot = place(at);
    if (spot[0] < 0 || spot[1] < 0 || spot[0] > width || spot[1] > height) continue;
    const mark = findingMark({ ...finding, at: spot }, "", { frame, occupancy, taken, system: scene.system });
    picture.push(...mark.picture);
  }
  return picture;
}

/** The lines of the grid across the area, each with its label at the end that lies at the left or the top. */
function gridPicture(lines: readonly GridLine[], place: (at: Point2) => Point2, box: Clip): PictureItem[] {
  return lines.flatMap(({ label, line }): PictureItem[] => {
    const [a, b] = [place(line[0]), place(line[1])];
    const long = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    // As drawn, a grid line may end before it reaches this area.
    const beyond = (from: Point2, to: Point2): Point2 => [
      to[0] + ((to[0] - from[0]) / long) * FAR,
      to[1] + ((to[1] - from[1]) / long) * FAR,
    ];
    const [piece] = clipLine([beyond(b, a), beyond(a, b)], box);
    if (!piece) return [];
    const upright = Math.abs(b[1] - a[1]) > Math.abs(b[0] - a[0]);
    const end = piece.reduce((best, p) => ((upright ? p[1] > best[1] : p[0] < best[0]) ? p : best));
    return [
      linePath(piece, { stroke: HAIR_INK, width: 0.6, dash: [7, 2, 1.5, 2] }),
      {
        type: "text",
        text: label,
        at: upright ? [end[0], end[1] + 2] : [end[0] - 2, end[1] - NUMBER_SIZE * 0.35],
        size: NUMBER_SIZE,
        angle: radians(0),
        align: upright ? "middle" : "end",
        face: "regular",
        fill: FAINT_INK,
      },
    ];
  });
}

/** From the sheet an element lies on to the building, where it is registered. */
function toBuilding(scene: Scene, elementId: Id): { readonly root: Id; to(at: Point2): Point2 } | undefined {
  const element = scene.job.elements[elementId];
  const registered = element && scene.registration(element.viewport);
  if (!registered?.ok) return undefined;
  const { root, sim } = registered.value;
  return { root, to: (at) => applyTo(sim, at) };
}

/** The lines of all wiring that lies in a frame, building space. */
const wiringOf = (scene: Scene, root: Id): Point2[][] =>
  Object.entries(scene.job.elements).flatMap(([id, element]) => {
    if (!("vertices" in element)) return [];
    const building = toBuilding(scene, id);
    return building?.root === root ? [element.vertices.map(({ at }) => building.to(at))] : [];
  });

/** Where a finding lies, building space. */
const placeOf = (scene: Scene, { elementId, at }: Finding): Point2 | undefined => toBuilding(scene, elementId)?.to(at);

/** The stretches of a finding as lines, building space. */
function stretchesOf(scene: Scene, finding: Finding): Point2[][] {
  const element = scene.job.elements[finding.elementId];
  const building = toBuilding(scene, finding.elementId);
  const shape = element && subjectOf(scene, finding.elementId, element, finding)?.shape();
  if (!shape || !building) return [];
  const along = alongShape(shape);
  return finding.stretches.map((stretch) => stretchPoints(along, stretch).map(building.to));
}

/** The number of every corner beside it, away from the middle. */
function cornerNumbers(corners: PlanOfArea["corners"], place: (at: Point2) => Point2): TextItem[] {
  const middle = middleOf(corners, place);
  return corners.map(({ at }, i) => {
    const [x, y] = place(at);
    const away = Math.hypot(x - middle[0], y - middle[1]) || 1;
    return {
      type: "text",
      text: String(i + 1),
      at: [x + ((x - middle[0]) / away) * 9, y + ((y - middle[1]) / away) * 9 - NUMBER_SIZE * 0.35],
      size: NUMBER_SIZE,
      angle: radians(0),
      align: "middle",
      face: "bold",
      fill: INK,
    };
  });
}

function middleOf(corners: PlanOfArea["corners"], place: (at: Point2) => Point2): Point2 {
  if (corners.length === 0) return [0, 0];
  const { min, max } = boundingBox(corners.map(({ at }) => place(at)));
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
}

/** From the middle towards the lower side; nothing where all corners are of one height. */
function fallArrow(corners: PlanOfArea["corners"], place: (at: Point2) => Point2): PictureItem[] {
  const middle = middleOf(corners, place);
  const mean = corners.reduce((sum, { deck }) => sum + deck, 0) / corners.length;
  let [dx, dy] = [0, 0];
  for (const { at, deck } of corners) {
    const [x, y] = place(at);
    dx -= (x - middle[0]) * (deck - mean);
    dy -= (y - middle[1]) * (deck - mean);
  }
  const length = Math.hypot(dx, dy);
  if (!(length > 1e-9)) return [];
  const [ux, uy] = [dx / length, dy / length];
  const tip: Point2 = [middle[0] + ux * 18, middle[1] + uy * 18];
  const barb = (side: number): Point2 => [tip[0] - ux * 6 - uy * 3 * side, tip[1] - uy * 6 + ux * 3 * side];
  const paint = { stroke: FAINT_INK, width: 0.9 };
  return [
    linePath([[middle[0] - ux * 18, middle[1] - uy * 18], tip], paint),
    linePath([barb(1), tip, barb(-1)], paint),
  ];
}
