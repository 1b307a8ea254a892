import { type IntervalSet, normalise, sortFew } from "../geometry/interval-set.ts";
import { type DeckArea, hasSurface, surfaceAt } from "./deck-area.ts";
import type { Piece } from "./piece.ts";

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
  const spans = near.every(isUnder) ? near : near.filter(isUnder);
  const only = spans[0];
  if (!only) return [{ from: start, to: end, deck: undefined }];
  // Most pieces lie wholly under one area.
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
  const ends = [start, end];
  for (const { under } of spans) for (const span of under) ends.push(span[0], span[1]);
  sortFew(ends);
  const covers: Cover[] = [];
  for (let i = 0; i + 1 < ends.length; i++) {
    const from = ends[i]!;
    const to = ends[i + 1]!;
    if (to <= from) continue;
    const middle = (from + to) / 2;
    const over: DeckArea[] = [];
    for (const { deck, under } of spans) if (holds(under, middle)) over.push(deck);
    const deck = nextAbove(piece, middle, over);
    const last = covers[covers.length - 1];
    if (last && last.deck === deck) covers[covers.length - 1] = { from: last.from, to, deck };
    else covers.push({ from, to, deck });
  }
  return covers;
}

/** The stations of covers that `which` admits. */
export const stationsWhere = (covers: readonly Cover[], which: (deck: DeckArea | undefined) => boolean): IntervalSet =>
  normalise(covers.flatMap((cover) => (which(cover.deck) ? [[cover.from, cover.to] as const] : [])));

const isUnder = ({ under }: Span): boolean => under.length > 0;

function holds(set: IntervalSet, at: number): boolean {
  for (const span of set) if (at >= span[0] && at <= span[1]) return true;
  return false;
}

function nextAbove(piece: Piece, station: number, decks: readonly DeckArea[]): DeckArea | undefined {
  if (decks.length <= 1) return decks[0];
  const unknown = decks.find((deck) => !hasSurface(deck) && deck.classification.is !== "floor-above");
  if (unknown) return unknown;
  const at = piece.planAt(station);
  const bottom = piece.bounds.min[2];
  const heights = decks
    .filter(hasSurface)
    .map((deck) => ({ deck, z: surfaceAt(deck, at) }))
    .sort((a, b) => a.z - b.z);
  return (heights.find(({ deck, z }) => z + (deck.depth ?? 0) >= bottom) ?? heights[0])?.deck ?? decks[0];
}
