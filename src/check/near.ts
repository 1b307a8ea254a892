import type { DeckShare } from "./deck-share.ts";
import type { Measured } from "./measure.ts";
import type { Piece } from "./piece.ts";

/** Pieces of an element, and what of each lies in plan inside the area they are judged against. */
export interface Near {
  readonly pieces: readonly Piece[];
  readonly shares: readonly DeckShare[];
  /** How they lie to that area, where that has been measured already. */
  measured?(): Measured | undefined;
}
