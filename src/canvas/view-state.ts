import type { Point2 } from "../geometry/point.ts";
import { chain, type Matrix } from "../pdf/read/matrix.ts";
import { displaySize, displayTransform, type PageGeometry } from "../pdf/read/page-geometry.ts";
import type { SheetRect } from "./screen-mark.ts";

/** Where a sheet stands on the screen: CSS pixels, measured from the upper left corner of the view, y down. */
export interface ViewState {
  /** CSS pixels per 1/72 in. of paper. */
  readonly scale: number;
  /** Where the upper left corner of the displayed page lies. */
  readonly origin: Point2;
}

/** Size of the view in CSS pixels. */
export interface ViewSize {
  readonly width: number;
  readonly height: number;
}

/** How much of the view lies under something else at each side, CSS pixels. */
export interface Covered {
  readonly left?: number;
  readonly top?: number;
  readonly right?: number;
  readonly bottom?: number;
}

/** Free space round a fitted page, CSS pixels. */
const FIT_MARGIN = 20;
/** How much of a page stays in sight however far it is pushed, CSS pixels. */
const STAYS_IN_SIGHT = 60;
/** Limits of zooming: at most so many CSS pixels per 1/72 in. or so many times a fitted page, at least this part of one. */
const LARGEST_SCALE = 64;
const MOST_TIMES_FIT = 64;
const LEAST_PART_OF_FIT = 0.2;

/** Sheet space to CSS pixels of the view. */
export const sheetToScreen = (geometry: PageGeometry, { scale, origin }: ViewState): Matrix =>
  chain(displayTransform(geometry, scale), [1, 0, 0, 1, origin[0], origin[1]]);

/** The whole page in the middle of the part of the view that nothing covers. */
export const fitView = (geometry: PageGeometry, size: ViewSize, covered: Covered = {}): ViewState => {
  const page = displaySize(geometry);
  const { left = 0, top = 0, right = 0, bottom = 0 } = covered;
  const free = { width: size.width - left - right, height: size.height - top - bottom };
  const { scale, origin } = centred(page.width / 2, page.height / 2, page.width, page.height, free, FIT_MARGIN);
  return { scale, origin: [origin[0] + left, origin[1] + top] };
};

/** A rectangle of the sheet in the middle of the view, as large as fits, within the limits of zooming. */
export const viewOf = (geometry: PageGeometry, rect: SheetRect, size: ViewSize): ViewState => {
  const m = displayTransform(geometry);
  const xs = [m[0] * rect.x0 + m[2] * rect.y0 + m[4], m[0] * rect.x1 + m[2] * rect.y1 + m[4]];
  const ys = [m[1] * rect.x0 + m[3] * rect.y0 + m[5], m[1] * rect.x1 + m[3] * rect.y1 + m[5]];
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const [y0, y1] = [Math.min(...ys), Math.max(...ys)];
  const state = centred((x0 + x1) / 2, (y0 + y1) / 2, x1 - x0, y1 - y0, size, 2 * FIT_MARGIN);
  return zoomed(state, 1, [size.width / 2, size.height / 2], geometry, size);
};

const centred = (cx: number, cy: number, wide: number, high: number, size: ViewSize, margin: number): ViewState => {
  const across = Math.max(1, size.width - 2 * margin) / Math.max(wide, 1e-6);
  const down = Math.max(1, size.height - 2 * margin) / Math.max(high, 1e-6);
  const scale = Math.min(across, down, LARGEST_SCALE);
  return { scale, origin: [size.width / 2 - cx * scale, size.height / 2 - cy * scale] };
};

/** Zoomed by a factor about a point of the view, which stays where it is; the limits of zooming hold. */
export const zoomed = (
  state: ViewState,
  factor: number,
  about: Point2,
  geometry: PageGeometry,
  size: ViewSize,
): ViewState => {
  const fit = fitView(geometry, size).scale;
  const [least, most] = [fit * LEAST_PART_OF_FIT, Math.max(LARGEST_SCALE, fit * MOST_TIMES_FIT)];
  const scale = Math.min(most, Math.max(least, state.scale * factor));
  const by = scale / state.scale;
  const origin: Point2 = [about[0] + (state.origin[0] - about[0]) * by, about[1] + (state.origin[1] - about[1]) * by];
  return keptInSight({ scale, origin }, geometry, size);
};

/** Moved back as far as needed to keep some of the page in the view. */
export const keptInSight = ({ scale, origin }: ViewState, geometry: PageGeometry, size: ViewSize): ViewState => {
  const page = displaySize(geometry);
  const keep = (at: number, long: number, room: number) => {
    const seen = Math.min(STAYS_IN_SIGHT, long, room);
    return Math.min(room - seen, Math.max(seen - long, at));
  };
  return {
    scale,
    origin: [keep(origin[0], page.width * scale, size.width), keep(origin[1], page.height * scale, size.height)],
  };
};

/** On whole device pixels, so that a picture drawn at this scale lands on them unblurred. */
export const onDevicePixels = ({ scale, origin }: ViewState, ratio: number): ViewState => ({
  scale,
  origin: [Math.round(origin[0] * ratio) / ratio, Math.round(origin[1] * ratio) / ratio],
});
