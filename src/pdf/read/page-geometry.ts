import type { Similarity } from "../../geometry/similarity.ts";
import { type Radians, radians } from "../../units/quantity.ts";
import { applyMatrix, invert, type Matrix } from "./matrix.ts";

/** How a page turns: degrees clockwise when displayed (ISO 32000-2, table 31, Rotate). */
export type PageRotation = 0 | 90 | 180 | 270;

/** Everything about a page that maps sheet space to what a person sees. */
export interface PageGeometry {
  /** 1 for the first page. */
  readonly page: number;
  /** The crop box cut to the media box, in sheet space: lower left x and y, upper right x and y. */
  readonly view: readonly [x0: number, y0: number, x1: number, y1: number];
  readonly rotate: PageRotation;
  /** Size of one sheet unit in 1/72 in. of paper (ISO 32000-2, table 31, UserUnit); 1 unless the page says otherwise. */
  readonly userUnit: number;
}

/** Sizes of a page as displayed at a scale of 1: one displayed pixel is 1/72 in. of paper. */
export interface DisplaySize {
  readonly width: number;
  readonly height: number;
}

/** Width and height of the page as displayed at a scale of 1, in 1/72 in. of paper. */
export const displaySize = ({ view, rotate, userUnit }: PageGeometry): DisplaySize => {
  const across = (view[2] - view[0]) * userUnit;
  const up = (view[3] - view[1]) * userUnit;
  return rotate === 90 || rotate === 270 ? { width: up, height: across } : { width: across, height: up };
};

/**
 * Sheet space to displayed pixels: the origin is the upper left corner of the page as displayed, y runs down.
 * At a scale of 1 a displayed pixel is 1/72 in. of paper, user unit included.
 */
export const displayTransform = ({ view, rotate, userUnit }: PageGeometry, scale = 1): Matrix => {
  const s = scale * userUnit;
  const [x0, y0, x1, y1] = view;
  switch (rotate) {
    case 0:
      return [s, 0, 0, -s, -s * x0, s * y1];
    case 90:
      return [0, s, s, 0, -s * y0, -s * x0];
    case 180:
      return [-s, 0, 0, s, s * x1, -s * y0];
    case 270:
      return [0, -s, -s, 0, s * y1, s * x1];
  }
};

/** Displayed pixels at that scale back to sheet space. */
export const sheetTransform = (geometry: PageGeometry, scale = 1): Matrix => invert(displayTransform(geometry, scale));

/** The direction, counter-clockwise from the sheet's +x, of a line of text that reads upright on the displayed page. */
export const uprightAngle = ({ rotate }: PageGeometry): Radians => radians((rotate * Math.PI) / 180);

/**
 * Sheet space to inches of paper: origin at the lower left corner of the page as displayed, x to the right and
 * y up as displayed. The registration of a sheet whose drawing is at full size.
 */
export const pageAsShown = (geometry: PageGeometry): Similarity => {
  const shown = displayTransform(geometry);
  const { height } = displaySize(geometry);
  const origin = applyMatrix(shown, [0, 0]);
  const turn = geometry.rotate === 270 ? 90 : -geometry.rotate;
  return {
    scale: geometry.userUnit / 72,
    angle: radians((turn * Math.PI) / 180),
    dx: origin[0] / 72,
    dy: (height - origin[1]) / 72,
  };
};

/** The page rotation nearest to any number of degrees a file may carry (negative and above 360 included). */
export const pageRotation = (degrees: number): PageRotation => {
  const turns = ((Math.round(degrees / 90) % 4) + 4) % 4;
  return ([0, 90, 180, 270] as const)[turns] ?? 0;
};
