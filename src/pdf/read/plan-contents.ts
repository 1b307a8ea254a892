import type { Point2 } from "../../geometry/point.ts";
import type { Length } from "../../units/length.ts";
import type { Problem } from "../../units/problem.ts";
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
  /** Whether it is set so that it reads in a mirror only. */
  readonly mirrored?: true;
}

/** A layer of the drawing (ISO 32000-2, 8.11, optional content group). */
export interface PlanLayer {
  readonly id: string;
  readonly name: string;
  /** Whether the file shows it to begin with. */
  readonly shown: boolean;
}

/** A scale note on the sheet. Nothing is said about which part of the sheet it speaks for, or whether it is true. */
export interface FoundScaleNote {
  /** The note as written, without what stands around it. */
  readonly text: string;
  /** Building length per paper length; null where the note refers elsewhere (AS NOTED) or denies a scale (N.T.S.). */
  readonly ratio: number | null;
  /** `scale`, or what stands instead of one. */
  readonly kind: "scale" | "as-noted" | "not-to-scale";
  readonly run: TextRun;
}

/** A text that reads as an elevation: marked as one (EL., T.O.S., A.F.F.) or written with a sign. */
export interface FoundElevation {
  /** The elevation as written, with its words. */
  readonly text: string;
  /** The words before or after the figure ("T.O.S.", "A.F.F."), as written; "" for a bare signed figure. Their meaning is for a person to settle. */
  readonly words: string;
  /** The line of text right above, which on most tags names the surface ("T.O. STEEL AT GRID D"); null when there is none. */
  readonly above: string | null;
  readonly value: Length;
  readonly run: TextRun;
}

/** A text that reads as a roof slope. */
export interface FoundSlope {
  readonly text: string;
  /** Rise over run. */
  readonly rise: number;
  readonly run: TextRun;
}

/** What one page offers. */
export interface PageContents {
  readonly geometry: PageGeometry;
  /** What the file calls the page, else the text that looks most like a sheet number ("A-110"), else null. */
  readonly label: string | null;
  readonly texts: readonly TextRun[];
  /** Lines of text that read in a mirror only: left out of `texts`, and nothing is looked for in them. Not given where there are none. */
  readonly mirrored?: readonly TextRun[];
  readonly scaleNotes: readonly FoundScaleNote[];
  readonly elevations: readonly FoundElevation[];
  readonly slopes: readonly FoundSlope[];
}

/** What a drawing offers. */
export interface PlanContents {
  readonly pages: readonly PageContents[];
  readonly layers: readonly PlanLayer[];
  /** Pages that could not be read, and what else is odd. */
  readonly warnings: readonly Problem[];
}
