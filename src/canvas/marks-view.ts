import type { Point2 } from "../geometry/point.ts";
import { applyMatrix, chain, invert, type Matrix } from "../pdf/read/matrix.ts";
import type { SheetRect } from "./screen-mark.ts";

/** Where the marks are to be drawn: sheet space to CSS pixels, the size of the view in CSS pixels, device pixels a CSS pixel. */
export interface MarksView {
  readonly toScreen: Matrix;
  readonly width: number;
  readonly height: number;
  readonly ratio: number;
}

/** A rectangle of device pixels of the view, whole numbers, y down. */
export interface DeviceRect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Sheet space to device pixels of the view. */
export const toDevice = ({ toScreen, ratio }: MarksView): Matrix => chain(toScreen, [ratio, 0, 0, ratio, 0, 0]);

/** The whole view in device pixels. */
export const deviceRectOf = ({ width, height, ratio }: MarksView): DeviceRect => ({
  x: 0,
  y: 0,
  width: Math.max(1, Math.round(width * ratio)),
  height: Math.max(1, Math.round(height * ratio)),
});

/** The part of the view that a rectangle of the sheet covers, with `around` CSS pixels more on each side; nothing when that is out of view. */
export function deviceRect(view: MarksView, { x0, y0, x1, y1 }: SheetRect, around: number): DeviceRect | undefined {
  if (!(x0 <= x1 && y0 <= y1)) return undefined;
  const m = toDevice(view);
  const corners = [
    applyMatrix(m, [x0, y0]),
    applyMatrix(m, [x1, y0]),
    applyMatrix(m, [x0, y1]),
    applyMatrix(m, [x1, y1]),
  ];
  const whole = deviceRectOf(view);
  const more = around * view.ratio;
  const span = (k: 0 | 1, room: number): [number, number] => [
    Math.max(0, Math.floor(Math.min(...corners.map((p) => p[k])) - more)),
    Math.min(room, Math.ceil(Math.max(...corners.map((p) => p[k])) + more)),
  ];
  const [left, right] = span(0, whole.width);
  const [top, bottom] = span(1, whole.height);
  return right > left && bottom > top ? { x: left, y: top, width: right - left, height: bottom - top } : undefined;
}

/** The rectangle of the sheet that holds a part of the view. */
export function sheetRect(view: MarksView, { x, y, width, height }: DeviceRect): SheetRect {
  const back = invert(toDevice(view));
  const corners: Point2[] = [applyMatrix(back, [x, y]), applyMatrix(back, [x + width, y + height])];
  const [[ax, ay], [bx, by]] = corners as [Point2, Point2];
  return { x0: Math.min(ax, bx), y0: Math.min(ay, by), x1: Math.max(ax, bx), y1: Math.max(ay, by) };
}

/** Two views that show the same place at the same size. */
export const sameView = (a: MarksView, b: MarksView): boolean =>
  a.width === b.width &&
  a.height === b.height &&
  a.ratio === b.ratio &&
  a.toScreen.every((v, i) => v === b.toScreen[i]);

/** CSS transform that moves what was drawn for one view, its corner at `left`, `top` (CSS pixels), to where another one shows it. */
export function transformBetween(from: MarksView, to: MarksView, left = 0, top = 0): string {
  const k = Math.hypot(to.toScreen[0], to.toScreen[1]) / Math.hypot(from.toScreen[0], from.toScreen[1]);
  const x = to.toScreen[4] + k * (left - from.toScreen[4]);
  const y = to.toScreen[5] + k * (top - from.toScreen[5]);
  return `matrix(${k},0,0,${k},${x},${y})`;
}
