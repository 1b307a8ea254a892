import { type IntervalSet, normalise } from "../geometry/interval-set.ts";
import { elevationAt } from "../geometry/plane.ts";
import type { Piece } from "./piece.ts";
import type { DeckArea } from "./scene.ts";

/** Which deck is the next one above a part of an element; undefined where no outlined area lies above it. */
export interface Cover {
  readonly from: number;
  readonly to: number;
  readonly deck: DeckArea | undefined;
}

/** The stations at which a piece lies in plan inside an area. */
export interface Span {
  readonly deck: DeckArea;
  readonly under: IntervalSet;
}

/**
 * The deck next above each part of a piece, by the areas it lies under. Where several lie over one place, the lowest one that is not wholly
 * below the piece counts; an area whose elevation is not known counts before any that is, since it could be the next.
 */
export function coverage(piece: Piece, near: readonly Span[]): readonly Cover[] {
  const { from: start, to: end } = piece;
  const spans = near.filter(({ under }) => under.length > 0);
  const [only] = spans;
  if (!only) return [{ from: start, to: end, deck: undefined }];
  // Nearly every piece lies wholly under one area.
  if (spans.length === 1 && only.under.length === 1 && only.under[0]![0] === start && only.under[0]![1] === end)
    return [{ from: start, to: end, deck: only.deck }];
  if (start === end) {
    const deck = nextAbove(
      piece,
      start,
      spans.map((span) => span.deck),
    );
    return [{ from: start, to: end, deck }];
  }
  const ends = [start, end, ...spans.flatMap(({ under }) => under.flat())].sort((a, b) => a - b);
  const covers: Cover[] = [];
  for (let i = 0; i + 1 < ends.length; i++) {
    const [from, to] = [ends[i]!, ends[i + 1]!];
    if (to <= from) continue;
    const middle = (from + to) / 2;
    const over = spans.filter(({ under }) => holds(under, middle)).map((span) => span.deck);
    const deck = nextAbove(piece, middle, over);
    const last = covers.at(-1);
    if (last && last.deck === deck) covers[covers.length - 1] = { ...last, to };
    else covers.push({ from, to, deck });
  }
  return covers;
}

/** The stations of covers that `which` admits. */
export const stationsWhere = (covers: readonly Cover[], which: (deck: DeckArea | undefined) => boolean): IntervalSet =>
  normalise(covers.filter((cover) => which(cover.deck)).map((cover) => [cover.from, cover.to] as const));

const holds = (set: IntervalSet, at: number): boolean => set.some(([from, to]) => at >= from && at <= to);

function nextAbove(piece: Piece, station: number, decks: readonly DeckArea[]): DeckArea | undefined {
  if (decks.length <= 1) return decks[0];
  const unknown = decks.find((deck) => !deck.face && deck.area.classification.is !== "floor-above");
  if (unknown) return unknown;
  const at = piece.planAt(station);
  const bottom = piece.bounds.min[2];
  const heights = decks
    .filter((deck) => deck.face)
    .map((deck) => ({ deck, z: elevationAt(deck.face!.plane, at) }))
    .sort((a, b) => a.z - b.z);
  return (heights.find(({ deck, z }) => z + (deck.depth ?? 0) >= bottom) ?? heights[0])?.deck ?? decks[0];
}
