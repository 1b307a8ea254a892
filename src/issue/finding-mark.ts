import type { Finding } from "../check/finding.ts";
import type { Colour, PictureItem } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import type { UnitSystem } from "../units/length.ts";
import { findingSentence } from "./finding-sentence.ts";
import { INK, VERDICT_INK, WHITE } from "./inks.ts";
import type { Mark } from "./mark.ts";
import type { Occupancy } from "./occupancy.ts";
import { circlePath, linePath, roundRectPath } from "./paths.ts";
import { placePicture } from "./place-picture.ts";
import { pointsOfMillimetres, type SheetFrame } from "./sheet-frame.ts";
import { symbolOf } from "./symbols.ts";
import type { TakenRoom } from "./taken-room.ts";
import { CAP_HEIGHT, textWidth } from "./text-width.ts";
import { capital, findingName } from "./words.ts";

/** Side of a symbol on paper, millimetres, unless marks are enlarged. */
export const SYMBOL_MM = 5;
/** Directions a symbol may go from its spot, turns counter-clockwise from the right as displayed; the best first. */
const DIRECTIONS = [1 / 8, 3 / 8, 7 / 8, 5 / 8, 1 / 4, 3 / 4, 1 / 16, 7 / 16, 15 / 16, 9 / 16, 0, 1 / 2];
/** Distances from the spot to the symbol's middle, in symbol sides. */
const REACHES = [1.7, 2.6, 3.8, 5.4];
/** Where all of those are covered: rings so far apart, out to so far, in symbol sides, and how far apart places on a ring are. */
const FURTHER = { first: 5.4, step: 1.45, last: 20, apart: 1.45 } as const;
/** What symbols and their spots weigh for those placed after them. */
const SYMBOL_WEIGHT = 40;
const SPOT_WEIGHT = 20;

/** The size of symbols and where they may go. */
export interface SymbolSetting {
  readonly frame: SheetFrame;
  readonly occupancy: Occupancy;
  /** What must stay legible: words, labels, and the symbols placed so far. */
  readonly taken: TakenRoom;
  readonly system: UnitSystem;
}

/**
 * A finding on the sheet: its symbol with its number, offset from the spot with a leader to it, where the least lies
 * underneath: never over words or another symbol while there is room within a long leader. Placing depends only on what was placed before, so the same findings give the same marks.
 */
export function findingMark(finding: Finding, key: string, setting: SymbolSetting): Mark {
  const { frame, occupancy, taken } = setting;
  const ink = VERDICT_INK[finding.verdict];
  const side = pointsOfMillimetres(SYMBOL_MM);
  const number = finding.number === null ? "" : String(finding.number);
  const size = 0.66 * side;
  const plate = plateSize(side, number, size);
  const place = bestPlace(finding.at, side, plate, setting);
  const corners = plateCorners(place, plate, frame);
  occupancy.addBox(corners, SYMBOL_WEIGHT);
  taken.add(corners);
  occupancy.addLine([finding.at, place], SPOT_WEIGHT);

  const onPlate = (right: number, up: number): Point2 => {
    const [dx, dy] = frame.shift(right, up);
    return [place[0] + dx, place[1] + dy];
  };
  const { point, upright } = frame;
  const sim = { scale: point, angle: upright, dx: place[0], dy: place[1] };
  const back = placePicture(
    [
      roundRectPath(plate.left, -plate.up, plate.right, plate.up, 2.5, { fill: WHITE, opacity: 0.72 }),
      roundRectPath(plate.left, -plate.up, plate.right, plate.up, 2.5, { stroke: ink, width: 0.6, opacity: 0.9 }),
    ],
    sim,
  );
  const picture: PictureItem[] = [
    circlePath(finding.at, 2.2 * point, { stroke: ink, width: 0.9 * point, opacity: 0.9 }),
    leader(finding.at, place, plate, frame, ink),
    ...back,
    ...placePicture(symbolOf(finding.verdict), { scale: side * point, angle: upright, dx: place[0], dy: place[1] }),
  ];
  if (number) {
    picture.push({
      type: "text",
      text: number,
      at: onPlate(side * 0.68, (-size * CAP_HEIGHT) / 2),
      size: size * point,
      angle: upright,
      align: "start",
      face: "bold",
      fill: INK,
    });
  }
  return {
    key,
    layer: "findings",
    sheet: finding.sheet,
    ...(finding.number === null ? {} : { finding: finding.number }),
    picture,
    hit: { kind: "spot", at: place, radius: side * 0.75 * point },
    annotation: {
      subtype: "Stamp",
      subject: capital(findingName(finding)),
      contents: findingSentence(finding, setting.system),
      colour: ink,
    },
  };
}

/** The plate behind symbol and number, about the symbol's middle, points of paper. */
interface Plate {
  readonly left: number;
  readonly right: number;
  readonly up: number;
}

function plateSize(side: number, number: string, size: number): Plate {
  const edge = 0.66 * side;
  return {
    left: -edge,
    right: number ? side * 0.68 + textWidth(number, size, "bold") + 0.16 * side : edge,
    up: edge,
  };
}

function plateCorners(place: Point2, plate: Plate, frame: SheetFrame): Point2[] {
  return [
    [plate.left, -plate.up],
    [plate.right, -plate.up],
    [plate.right, plate.up],
    [plate.left, plate.up],
  ].map(([right, up]): Point2 => {
    const [dx, dy] = frame.shift((right as number) * 1.08, (up as number) * 1.08);
    return [place[0] + dx, place[1] + dy];
  });
}

function bestPlace(spot: Point2, side: number, plate: Plate, setting: SymbolSetting): Point2 {
  return (
    nearPlace(spot, side, plate, setting, true) ??
    furtherPlace(spot, side, plate, setting) ??
    // No room anywhere: the place that covers the least.
    nearPlace(spot, side, plate, setting, false) ??
    pulledInside(spot, plate, setting.frame)
  );
}

/** The middle of a symbol that lies so far from its spot in a direction (radians counter-clockwise from the right as displayed). */
function placeAt(spot: Point2, angle: number, distance: number, plate: Plate, frame: SheetFrame): Point2 {
  const right = Math.cos(angle) * distance;
  // The number widens the plate to the right: symbols on the left of their spot stand off by as much.
  const [dx, dy] = frame.shift(right < 0 ? right - (plate.right + plate.left) : right, Math.sin(angle) * distance);
  return [spot[0] + dx, spot[1] + dy];
}

/** The cheapest place near the spot, or of those that cover nothing legible. */
function nearPlace(
  spot: Point2,
  side: number,
  plate: Plate,
  { frame, occupancy, taken }: SymbolSetting,
  onlyFree: boolean,
): Point2 | undefined {
  let best: { readonly place: Point2; readonly cost: number } | undefined;
  let rank = 0;
  for (const reach of REACHES) {
    for (const turns of DIRECTIONS) {
      const place = placeAt(spot, turns * 2 * Math.PI, reach * side, plate, frame);
      const corners = plateCorners(place, plate, frame);
      const handicap = 0.8 * rank++ + 3 * (reach - 1.7);
      // Later places only get dearer: nothing below the best so far is left to find.
      if (best && handicap >= best.cost) return best.place;
      const free = taken.isFree(corners);
      if (!free && onlyFree) continue;
      const least = best?.cost ?? Infinity;
      const under = occupancy.costOfBox(corners, least - handicap);
      if (under + handicap >= least) continue;
      const cost = under + 0.5 * occupancy.costOfLine([spot, place]) + handicap;
      if (cost < least) best = { place, cost };
    }
  }
  return best?.place;
}

/** The first ring with a free place, and there the one whose leader crosses the least. */
function furtherPlace(
  spot: Point2,
  side: number,
  plate: Plate,
  { frame, occupancy, taken }: SymbolSetting,
): Point2 | undefined {
  const { first, step, last, apart } = FURTHER;
  // Where many findings lie together the inner rings are full: what the searches before this one found spares looking at them again.
  const from = Math.max(first + step, taken.searchedTo(spot) - 4 * step);
  for (let reach = from; reach <= last; reach += step) {
    let best: { readonly place: Point2; readonly cost: number } | undefined;
    const count = Math.ceil((2 * Math.PI * reach) / apart);
    for (let i = 0; i < count; i++) {
      const place = placeAt(spot, (i / count + 1 / 8) * 2 * Math.PI, reach * side, plate, frame);
      const corners = plateCorners(place, plate, frame);
      if (!corners.every((corner) => isWithin(corner, frame)) || !taken.isFree(corners)) continue;
      const cost = 0.5 * occupancy.costOfLine([spot, place]) + occupancy.costOfBox(corners);
      if (!best || cost < best.cost) best = { place, cost };
    }
    if (best) {
      taken.noteSearched(spot, reach);
      return best.place;
    }
  }
  taken.noteSearched(spot, Infinity);
  return undefined;
}

const isWithin = ([x, y]: Point2, { view }: SheetFrame): boolean =>
  x >= view[0] && y >= view[1] && x <= view[2] && y <= view[3];

/** A page too small for any candidate: the plate is set over the spot, pushed inside the page. */
function pulledInside(spot: Point2, plate: Plate, { view, point }: SheetFrame): Point2 {
  const margin = Math.max(plate.right, plate.up, -plate.left) * point;
  const clamp = (v: number, low: number, high: number) =>
    low > high ? (low + high) / 2 : Math.min(Math.max(v, low), high);
  return [clamp(spot[0], view[0] + margin, view[2] - margin), clamp(spot[1], view[1] + margin, view[3] - margin)];
}

/** From the ring at the spot to the edge of the plate. */
function leader(spot: Point2, place: Point2, plate: Plate, frame: SheetFrame, ink: Colour): PictureItem {
  const [dx, dy] = [place[0] - spot[0], place[1] - spot[1]];
  const length = Math.hypot(dx, dy);
  const from = length > 0 ? (2.2 * frame.point) / length : 0;
  const [rx, ry] = frame.shift(1, 0);
  const right = Math.abs((dx * rx + dy * ry) / frame.point);
  const up = Math.abs((dx * -ry + dy * rx) / frame.point);
  const side = (dx * rx + dy * ry) / frame.point > 0 ? -plate.left : plate.right;
  // How much of the way the plate covers, measured from its middle.
  const covered = Math.min(
    right > 0 ? (side * frame.point) / right : Infinity,
    up > 0 ? (plate.up * frame.point) / up : Infinity,
    1,
  );
  const to = Math.max(from, 1 - covered);
  return linePath(
    [
      [spot[0] + dx * from, spot[1] + dy * from],
      [spot[0] + dx * to, spot[1] + dy * to],
    ],
    { stroke: ink, width: 0.7 * frame.point, opacity: 0.9 },
  );
}
