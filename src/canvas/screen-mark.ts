import type { Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";

/** What a pointer has to be near to mean a mark; in sheet space, radius in sheet units. */
export type HitShape =
  | { readonly kind: "line"; readonly points: readonly Point2[] }
  | { readonly kind: "area"; readonly outline: readonly Point2[] }
  | { readonly kind: "spot"; readonly at: Point2; readonly radius: number };

/** A mark on the screen: its picture in sheet space, and what a pointer has to be near. */
export interface ScreenMark {
  readonly key: string;
  readonly picture: Picture;
  /** A mark without a shape cannot be pointed at. */
  readonly hit?: HitShape;
  /** Drawn faintly: of another stage of the work. */
  readonly faint?: boolean;
}

/** The layers of marks, from the lowest to the topmost. */
export const MARK_LAYERS = ["areas", "room", "wiring", "notes", "findings", "said", "draft"] as const;
export type MarkLayer = (typeof MARK_LAYERS)[number];

/** A rectangle in sheet space. */
export interface SheetRect {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}
