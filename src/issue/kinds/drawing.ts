import type { Finding } from "../../check/finding.ts";
import type { Colour, FontFace, Picture } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { Radians } from "../../units/quantity.ts";
import type { Mark } from "../mark.ts";
import type { SheetFrame } from "../sheet-frame.ts";

/** What a kind needs to know to draw one of its elements. */
export interface DrawingContext {
  readonly job: Job;
  readonly id: Id;
  readonly frame: SheetFrame;
  /** Building inches a sheet unit; undefined while the viewport has no scale, and then true sizes are not drawn. */
  readonly inchesPerUnit: number | undefined;
  /** What the check says of the element; empty before a check. */
  readonly findings: readonly Finding[];
  /** Where stations along the element lie on the sheet; undefined where no stretch is to be drawn. */
  readonly along: Along | undefined;
  /** The same for one of several things that the element is made of, by its `about`. */
  readonly alongMember?: (about: string) => Along | undefined;
}

/** Stations along an element, inches of its true length, and their places on the sheet. */
export interface Along {
  /** Stations of the vertices, in order. */
  readonly vertices: readonly number[];
  readonly at: (station: number) => Point2;
}

/** A place a label may go, by a point of the drawing and the side of it, in the label's own axes. */
export interface LabelSpot {
  readonly at: Point2;
  /** Direction of the lines. */
  readonly angle: Radians;
  /** Which way the label lies of `at`: each -1 (left, below), 0 (centred on it) or 1 (right, above). */
  readonly side: readonly [right: number, up: number];
  /** Room between `at` and the nearest edge of the label. Sheet units. */
  readonly gap: number;
}

/** One line of a label; size in sheet units. */
export interface LabelLine {
  readonly text: string;
  readonly size: number;
  readonly face: FontFace;
  readonly ink: Colour;
}

/** A label of an element: its lines from the top, and the places it may go, the best first. */
export interface Label {
  readonly lines: readonly LabelLine[];
  readonly spots: Iterable<LabelSpot>;
}

/** What a kind draws of one element, in sheet space. */
export interface Drawing {
  readonly picture: Picture;
  readonly hit: Mark["hit"];
  readonly annotation: Mark["annotation"];
  readonly labels: readonly Label[];
  /** Lines that labels and symbols should keep clear of. */
  readonly keepClear: readonly (readonly Point2[])[];
}
