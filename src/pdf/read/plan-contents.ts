import type { Point2 } from "../../geometry/point.ts";
import type { Radians, SheetUnits } from "../../units/quantity.ts";
import type { PageGeometry } from "./page-geometry.ts";

/** One line of text found on a page, in sheet space; pieces that a drawing program split are joined again. */
export interface TextRun {
  readonly text: string;
  /** On the baseline, at the start of the line. */
  readonly at: Point2;
  /** Direction of the baseline, counter-clockwise from the sheet's +x. */
  readonly angle: Radians;
  /** Em size. */
  readonly height: SheetUnits;
  /** Length along the baseline. */
  readonly width: SheetUnits;
}

/** A layer of the drawing (ISO 32000-2, 8.11, optional content group). */
export interface PlanLayer {
  readonly id: string;
  readonly name: string;
  /** Whether the file shows it to begin with. */
  readonly shown: boolean;
}

/** What one page offers. */
export interface PageContents {
  readonly geometry: PageGeometry;
  readonly texts: readonly TextRun[];
}
