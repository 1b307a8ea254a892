import type { Point2 } from "../geometry/point.ts";
import type { Sheet } from "../job/schema.ts";
import { type Radians, radians } from "../units/quantity.ts";

/** How marks are set out on a page: sheet units a printer's point, and which way is right and up when displayed. */
export interface SheetFrame {
  /** Sheet units in 1/72 in. of paper, times the enlargement asked for. */
  readonly point: number;
  /** Baseline direction of text that reads upright, counter-clockwise from the sheet's +x. */
  readonly upright: Radians;
  /** Crop box: lower left x and y, upper right x and y. */
  readonly view: readonly [number, number, number, number];
  /** The sheet-space vector that points `right` and `up` points of paper as displayed. */
  readonly shift: (right: number, up: number) => Point2;
}

/** Millimetres of paper in printer's points. */
export const pointsOfMillimetres = (mm: number): number => (mm * 72) / 25.4;

/** The frame of a sheet; `enlarge` above 1 makes marks larger than usual, for sheets that will be printed small. */
export function sheetFrame(sheet: Pick<Sheet, "view" | "rotate" | "userUnit">, enlarge = 1): SheetFrame {
  const point = enlarge / sheet.userUnit;
  // Exact for the four quarter turns, so that upright marks have clean coordinates.
  const [c, s] = { 0: [1, 0], 90: [0, 1], 180: [-1, 0], 270: [0, -1] }[sheet.rotate] as [number, number];
  return {
    point,
    upright: radians((sheet.rotate * Math.PI) / 180),
    view: sheet.view,
    shift: (right, up) => [(right * c - up * s) * point, (right * s + up * c) * point],
  };
}

/** A direction along a line, turned by half a turn where text along it would stand on its head. */
export function readableAlong(frame: SheetFrame, a: Point2, b: Point2): Radians {
  const angle = Math.atan2(b[1] - a[1], b[0] - a[0]) - frame.upright;
  const turned = angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
  const flipped =
    turned > Math.PI / 2 + 1e-9 ? turned - Math.PI : turned <= -Math.PI / 2 + 1e-9 ? turned + Math.PI : turned;
  return radians(flipped + frame.upright);
}
