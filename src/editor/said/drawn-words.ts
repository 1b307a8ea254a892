import type { Point2 } from "../../geometry/point.ts";
import type { Inches, Radians, SheetUnits } from "../../units/quantity.ts";

/** A line of text on a sheet, sheet space. */
export interface DrawnText {
  readonly text: string;
  /** On the baseline, at its start. */
  readonly at: Point2;
  readonly angle: Radians;
  readonly height: SheetUnits;
  readonly width: SheetUnits;
}

/** Where a text stands. */
interface Standing {
  readonly run: DrawnText;
  /** The line of text right above it, and whether the two begin at one place, as the lines of one note do. */
  readonly above: string | null;
  readonly heads: boolean;
  /** The nearest place on the line that is drawn nearest, or that its leader points at; `ambiguous` where another is nearly as near. Null where none is near. */
  readonly line: { readonly at: Point2; readonly ambiguous: boolean; readonly byLeader: boolean } | null;
}

/** An elevation written on a sheet. */
export interface DrawnTag extends Standing {
  readonly text: string;
  readonly value: Inches;
  readonly basis: "bottom" | "centre" | "top" | null;
  /** The surface it names in plain lower case: steel, deck, slab, roofing, conduit…; null where it names none. */
  readonly surface: string | null;
  /** A finished floor, down from the deck, or not said. */
  readonly from: "floor" | "deck" | null;
  readonly existing: boolean;
  readonly approximate: boolean;
  readonly give: Inches | null;
  /** Middle of the figure. */
  readonly middle: Point2;
}

/** What is written of a raceway: its trade size and type as written ("C" is any conduit), its conductors. */
export interface DrawnNote extends Standing {
  readonly text: string;
  readonly size: string | null;
  readonly type: string | null;
  readonly conductors: readonly { readonly count: number; readonly size: string; readonly ground: boolean }[];
  /** Whether its line names several sizes, as that of a rack does. */
  readonly several: boolean;
}

/** Something on a sheet that tells the scale of a part of it. */
export interface DrawnScale {
  /** A note at a view, a note in the title block, the file's own viewport, a scale bar, or dimensions taken together. */
  readonly kind: "note" | "sheet-note" | "viewport" | "bar" | "dimensions";
  /** As written: the note, the name of the viewport, the labels of the bar, how many dimensions. */
  readonly text: string;
  /** Building length per paper length. */
  readonly ratio: number;
  readonly place: Point2;
  /** The part of the sheet it speaks for: least x, least y, greatest x, greatest y. */
  readonly region: readonly [number, number, number, number];
  /** For dimensions: how many agree, how many there are, and how far they lie apart as a part of the ratio. */
  readonly of: { readonly agreeing: number; readonly all: number; readonly spread: number } | null;
  /** Whether it is drawn to be measured, not merely claimed. */
  readonly measured: boolean;
  /** Another note at the same title, or nothing drawn in its part. */
  readonly doubts: readonly ("two-notes" | "nothing-drawn")[];
  /** Where it is measured: two places, and the length between them as written. */
  readonly stretch: { readonly ends: readonly [Point2, Point2]; readonly length: Inches } | null;
}

/** What the text of a sheet says of wiring and decks: suggestions, none of them taken by itself. */
export interface DrawnWords {
  readonly tags: readonly DrawnTag[];
  readonly notes: readonly DrawnNote[];
  /** What tells the scale, but for the viewports of the file. */
  readonly scales: readonly DrawnScale[];
  /** Whether there is text at all; "outlines": none, and letters that are drawn as lines. */
  readonly text: "there" | "outlines" | "none";
}
