import type { Colour, Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";

/** The optional-content layers our marks lie on. */
export type MarkLayer = "areas" | "wiring" | "notes" | "findings";

/**
 * One mark on a sheet, in sheet space: the display list of an area, a storey above, an element, a note or a finding. The screen draws its picture, the
 * writer turns it into an annotation with the same picture as its appearance.
 */
export interface Mark {
  /** `area:ID`, `storey:ID`, `element:ID`, `note:ID` or `finding:ELEMENT-ID:VERDICT`; unique within a job, and stable from one issue to the next. */
  readonly key: string;
  readonly layer: MarkLayer;
  readonly sheet: string;
  readonly picture: Picture;
  /** Its words set beside it, name and tags: each is the last so many items of the picture, in order, and a text annotation when issued. */
  readonly labels?: readonly { readonly text: string; readonly items: number }[];
  /** Of a finding: its number, which is that of its entry in the report, and the last item of the picture. */
  readonly finding?: number;
  /** What a pointer has to be near. */
  readonly hit:
    | { readonly kind: "line"; readonly points: readonly Point2[] }
    | { readonly kind: "area"; readonly outline: readonly Point2[] }
    | { readonly kind: "spot"; readonly at: Point2; readonly radius: number };
  /** What the annotation carries for readers that list them. */
  readonly annotation: {
    readonly subtype: "PolyLine" | "Polygon" | "Square" | "Stamp" | "FreeText";
    readonly subject: string;
    readonly contents: string;
    /** Of words: the line of their leader, from what it shows to. */
    readonly vertices?: readonly Point2[];
    /** Of its line, sheet units. */
    readonly width?: number;
    readonly colour: Colour;
  };
}
