import { distance2 } from "../geometry/point.ts";
import type { DeckArea } from "./deck-area.ts";
import type { DeckShare } from "./deck-share.ts";
import type { Near } from "./near.ts";
import type { Piece } from "./piece.ts";

/** How an element passes through a deck. */
export interface Passage {
  /** Whether it goes straight up or down through it: then a stretch just below it cannot be avoided. */
  readonly upright: boolean;
}

/** An element that lies both below a deck and above it, taken apart. */
export interface TakenApart {
  /** What goes through the lowest surface, what is upright below it and leads up to it, and what lies above the deck. */
  readonly through: Near;
  /** The rest of it, which hangs below and is judged like anything else. */
  readonly rest: Near;
  /** Undefined where nothing goes through: it goes round the edge of the deck. */
  readonly passage: Passage | undefined;
}

/** Takes pieces apart that pass through a deck: those that cross its lowest surface, those wholly above the deck, and the rest. */
export function passageOf(deck: DeckArea, { pieces, shares }: Near): TakenApart {
  const depth = deck.depth ?? 0;
  const taken = pieces.map((_, i) => crosses(shares[i]!) || isAbove(shares[i]!, depth));
  const passes = shares.some(crosses);
  const upright = pieces.every((piece, i) => !crosses(shares[i]!) || isUpright(piece));
  // A riser traced in several pieces is one riser.
  for (let more = true; more; ) {
    more = false;
    pieces.forEach((piece, i) => {
      if (taken[i] || !isUpright(piece)) return;
      const joins = pieces.some(
        (other, n) => taken[n] && isUpright(other) && (other.from === piece.to || other.to === piece.from),
      );
      if (!joins) return;
      taken[i] = true;
      more = true;
    });
  }
  const only = (wanted: boolean): Near => ({
    pieces: pieces.filter((_, i) => taken[i] === wanted),
    shares: shares.filter((_, i) => taken[i] === wanted),
  });
  return { through: only(true), rest: only(false), passage: passes ? { upright } : undefined };
}

const crosses = ({ gaps }: DeckShare): boolean =>
  gaps.some(({ axisFrom, axisTo }) => Math.max(axisFrom, axisTo) > 0 && Math.min(axisFrom, axisTo) <= 0);

const isAbove = ({ gaps }: DeckShare, depth: number): boolean =>
  gaps.length > 0 && gaps.every(({ axisFrom, axisTo }) => Math.max(axisFrom, axisTo) < -depth);

/** This much sideways for each inch of rise still counts as upright. */
const UPRIGHT = 0.1;

/** Whether a piece stands upright, or so nearly that nobody would trace it otherwise. */
function isUpright(piece: Piece): boolean {
  const { axis } = piece;
  if (!axis) return false;
  const rise = Math.abs(axis.to - axis.from);
  return rise > 0 && distance2(piece.planAt(piece.from), piece.planAt(piece.to)) <= UPRIGHT * rise;
}
