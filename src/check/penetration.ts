import { distance2, length3, type Point3 } from "../geometry/point.ts";
import type { DeckArea } from "./deck-area.ts";
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

/**
 * Takes an element apart that passes through a deck: what crosses its lowest surface, what lies wholly above the deck, and the rest. It is told by its straight
 * stretches: a vertex within one changes nothing.
 */
export function passageOf(deck: DeckArea, near: Near): TakenApart {
  const depth = deck.depth ?? 0;
  const straights = straightsOf(near);
  const crossing = straights.filter(crosses);
  const taken = new Set([...crossing, ...straights.filter((one) => isAbove(one, depth))]);
  // A riser traced in several pieces is one riser.
  const risers = straights.filter(isUpright);
  for (let more = true; more; ) {
    more = false;
    for (const riser of risers) {
      if (taken.has(riser) || !risers.some((other) => taken.has(other) && isJoined(riser, other))) continue;
      taken.add(riser);
      more = true;
    }
  }
  const numbers = new Set([...taken].flatMap((one) => one.numbers));
  const only = (wanted: boolean): Near => ({
    pieces: near.pieces.filter((_, i) => numbers.has(i) === wanted),
    shares: near.shares.filter((_, i) => numbers.has(i) === wanted),
  });
  const upright = crossing.every(isUpright);
  return { through: only(true), rest: only(false), passage: crossing.length > 0 ? { upright } : undefined };
}

/** Pieces that follow one another on one line, and the vertical gaps of their axis, those that follow one another joined. */
interface Straight {
  readonly first: Piece;
  last: Piece;
  readonly numbers: number[];
  readonly gaps: { readonly from: number; to: number; least: number; most: number }[];
}

/** This much of an angle between two segments, radians, and this much between two stations, inches, is rounding. */
const ROUNDING = 1e-6;

function straightsOf({ pieces, shares }: Near): readonly Straight[] {
  const straights: Straight[] = [];
  pieces.forEach((piece, i) => {
    const before = straights.at(-1);
    const goesOn = before !== undefined && followsStraight(before.last, piece);
    const own: Straight = goesOn ? before : { first: piece, last: piece, numbers: [], gaps: [] };
    if (!goesOn) straights.push(own);
    own.last = piece;
    own.numbers.push(i);
    for (const { from, to, axisFrom, axisTo } of shares[i]!.gaps) {
      const least = Math.min(axisFrom, axisTo);
      const most = Math.max(axisFrom, axisTo);
      const joined = own.gaps.find((gap) => piece.to > piece.from && Math.abs(gap.to - from) <= ROUNDING);
      if (!joined) own.gaps.push({ from, to, least, most });
      else {
        joined.to = to;
        joined.least = Math.min(joined.least, least);
        joined.most = Math.max(joined.most, most);
      }
    }
  });
  return straights;
}

/** Whether one straight segment goes on in the line of another. */
function followsStraight(one: Piece, next: Piece): boolean {
  if (!one.axis || !next.axis || one.curve || next.curve || Math.abs(one.to - next.from) > ROUNDING) return false;
  const a = wayOf(one);
  const b = wayOf(next);
  return a !== undefined && b !== undefined && length3(a[0] - b[0], a[1] - b[1], a[2] - b[2]) <= ROUNDING;
}

/** The way a segment goes, of length 1; undefined for one of no length. */
function wayOf(piece: Piece): Point3 | undefined {
  const [x0, y0] = piece.planAt(piece.from);
  const [x1, y1] = piece.planAt(piece.to);
  const [dx, dy, dz] = [x1 - x0, y1 - y0, piece.axis ? piece.axis.to - piece.axis.from : 0];
  const length = length3(dx, dy, dz);
  return length > 0 ? [dx / length, dy / length, dz / length] : undefined;
}

const crosses = ({ gaps }: Straight): boolean => gaps.some(({ least, most }) => most > 0 && least <= 0);

const isAbove = ({ gaps }: Straight, depth: number): boolean =>
  gaps.length > 0 && gaps.every(({ most }) => most < -depth);

const isJoined = (one: Straight, other: Straight): boolean =>
  other.first.from === one.last.to || other.last.to === one.first.from;

/** This much sideways for each inch of rise still counts as upright. */
const UPRIGHT = 0.1;

/** Whether a stretch stands upright, or so nearly that nobody would trace it otherwise. One of no length, a vertex given twice, does. */
function isUpright({ first, last }: Straight): boolean {
  if (!first.axis || !last.axis) return false;
  const rise = Math.abs(last.axis.to - first.axis.from);
  return distance2(first.planAt(first.from), last.planAt(last.to)) <= UPRIGHT * rise;
}
