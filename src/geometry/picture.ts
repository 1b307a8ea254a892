import type { Radians } from "../units/quantity.ts";
import type { Point2 } from "./point.ts";

/**
 * Vector pictures in sheet space (PDF user space of a page, y up). The same picture is drawn on the screen, in the
 * profile, in the legend and as the appearance stream of an annotation, so screen and issued sheet cannot differ.
 */
export type Picture = readonly PictureItem[];
export type PictureItem = PathItem | TextItem;

/** Device RGB, each component 0 to 1. */
export interface Colour {
  readonly r: number;
  readonly g: number;
  readonly b: number;
}

/** One step of a path: move, line, cubic curve (two control points, end point), close. Coordinates in sheet space. */
export type PathStep =
  | readonly ["M", number, number]
  | readonly ["L", number, number]
  | readonly ["C", number, number, number, number, number, number]
  | readonly ["Z"];

/** A stroked and/or filled path; non-zero winding unless `evenOdd`. Round caps and joins. */
export interface PathItem {
  readonly type: "path";
  readonly steps: readonly PathStep[];
  readonly stroke?: Colour;
  /** Stroke width in sheet units; needed when `stroke` is given. */
  readonly width?: number;
  /** Dash lengths in sheet units, on and off in turn. */
  readonly dash?: readonly number[];
  readonly fill?: Colour;
  readonly evenOdd?: boolean;
  /** 0 (invisible) to 1 (solid, the default), for stroke and fill alike. */
  readonly opacity?: number;
}

/** The faces a text item may be set in; all have the fractions, primes and "not less than" sign the trade needs. */
export type FontFace = "regular" | "bold" | "condensed";

/** One line of text. `at` is on the baseline, at the start, middle or end of the line as `align` says. */
export interface TextItem {
  readonly type: "text";
  readonly text: string;
  readonly at: Point2;
  /** Em size in sheet units. */
  readonly size: number;
  /** Direction of the baseline, counter-clockwise from the sheet's +x. */
  readonly angle: Radians;
  readonly align: "start" | "middle" | "end";
  readonly face: FontFace;
  readonly fill: Colour;
  readonly opacity?: number;
}
