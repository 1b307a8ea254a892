import type { IntervalSet } from "../geometry/interval-set.ts";
import type { DeckArea } from "./deck-area.ts";
import type { OverDeck } from "./lower-deck.ts";
import type { Measured } from "./measure.ts";
import type { Near } from "./near.ts";

/** Which areas are the next ones above an element, and at which stations; undefined stands for no area at all. */
export interface NextAbove {
  isNext(deck: DeckArea | undefined): boolean;
  stations(deck: DeckArea | undefined): IntervalSet;
}

/** An area that is over an element or within reach of it, with the pieces it is over or within reach of. */
export interface AreaNear extends Near {
  readonly deck: DeckArea;
}

/** The areas around an element. */
export interface Around extends NextAbove {
  /** Those over a piece of it or within reach of one in plan, in the order in which its pieces come to them. */
  readonly areas: readonly AreaNear[];
  /** Whether one of them is next above some part of it. */
  readonly isUnderAny: boolean;
  /** The decks with a floor above that are next above some part of it. */
  readonly floors: readonly DeckArea[];
  /** How it lies over a deck that is not next above any of it, where it does. */
  over(near: AreaNear): OverDeck | undefined;
  /** Remembers how near it comes to a roof that has been spoken of. */
  speakOf(near: AreaNear, measured: Measured): void;
  /**
   * The roofs that are the nearest of all to a piece, though none of those spoken of: the least distance is over all roofs, however far.
   * Those in `noMatter` it lies well above.
   */
  nearestUnspoken(spoken: readonly DeckArea[], noMatter: readonly DeckArea[]): readonly DeckArea[];
}
