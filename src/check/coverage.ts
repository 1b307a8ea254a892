import { type IntervalSet, normalise, sortFew } from "../geometry/interval-set.ts";
import { elevationAt } from "../geometry/plane.ts";
import { sharesInTurn } from "../geometry/shares-in-turn.ts";
import { type DeckArea, faceOver, hasSurface, surfaceAt } from "./deck-area.ts";
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
    const decks = spans.map((span) => span.deck);
    return nextAboveSomewhere(piece, start, decks).map((deck) => ({ from: start, to: end, deck }));
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
    let deck: DeckArea | undefined;
    let several: DeckArea[] | undefined;
    for (const span of spans) {
      if (!holds(span.under, middle)) continue;
      if (several) several.push(span.deck);
      else if (deck) several = [deck, span.deck];
      else deck = span.deck;
    }
    if (!several) addCover(covers, from, to, deck);
    else {
      const turns = [from, ...turnsWithin(piece, from, to, several), to];
      for (let k = 0; k + 1 < turns.length; k++)
        addCover(covers, turns[k]!, turns[k + 1]!, nextAbove(piece, (turns[k]! + turns[k + 1]!) / 2, several));
    }
  }
  return covers;
}

function addCover(covers: Cover[], from: number, to: number, deck: DeckArea | undefined): void {
  const last = covers[covers.length - 1];
  if (last && last.deck === deck) covers[covers.length - 1] = { from: last.from, to, deck };
  else covers.push({ from, to, deck });
}

/** Shorter parts than this, inches, are not told apart. */
const SHORTEST_IN = 1e-6;

/**
 * Stations between which the order of decks over a stretch cannot change, but for its ends: where two surfaces cross over it, or one, its deck's depth
 * counted, comes to the bottom of the piece. Over one face a surface is linear along the stretch; faces part it further.
 */
function turnsWithin(piece: Piece, from: number, to: number, decks: readonly DeckArea[]): readonly number[] {
  const known = decks.filter(hasSurface);
  if (known.length === 0) return [];
  const edges = known.flatMap(({ faces }) =>
    faces.length > 1 ? faces.flatMap((face) => piece.under(face).flatMap((span) => [span[0], span[1]])) : [],
  );
  const ends = inside([from, ...edges, to], from, to);
  const bottom = piece.bounds.min[2];
  const turns = [...edges];
  for (let i = 0; i + 1 < ends.length; i++) {
    const [a, b] = [ends[i]!, ends[i + 1]!];
    const [ofA, ofB] = [piece.planAt(a), piece.planAt(b)];
    const middle = piece.planAt((a + b) / 2);
    // Each by the plane over the middle: at the ends two faces meet.
    const lines = known.map((deck) => {
      const { plane } = faceOver(deck, middle);
      return { depth: deck.depth ?? 0, atA: elevationAt(plane, ofA), atB: elevationAt(plane, ofB) };
    });
    const crossing = (overA: number, overB: number): void => {
      if (overA * overB < 0) turns.push(a + ((b - a) * overA) / (overA - overB));
    };
    lines.forEach((one, n) => {
      crossing(one.atA + one.depth - bottom, one.atB + one.depth - bottom);
      for (const other of lines.slice(n + 1)) crossing(one.atA - other.atA, one.atB - other.atB);
    });
  }
  return inside(turns, from, to).filter((at) => at > from + SHORTEST_IN && at < to - SHORTEST_IN);
}

/** Stations from one to another, in order, each once. */
const inside = (stations: readonly number[], from: number, to: number): number[] =>
  [...new Set(stations)].filter((at) => at >= from && at <= to).sort((a, b) => a - b);

/** The stations of covers that `which` admits. */
export const stationsWhere = (covers: readonly Cover[], which: (deck: DeckArea | undefined) => boolean): IntervalSet =>
  normalise(covers.flatMap((cover) => (which(cover.deck) ? [[cover.from, cover.to] as const] : [])));

const isUnder = ({ under }: Span): boolean => under.length > 0;

function holds(set: IntervalSet, at: number): boolean {
  for (const span of set) if (at >= span[0] && at <= span[1]) return true;
  return false;
}

const nextAbove = (piece: Piece, station: number, decks: readonly DeckArea[]): DeckArea | undefined =>
  decks.length <= 1 ? decks[0] : inOrder(piece, station, decks)[0];

/** The decks in the order in which each would be the next one above, were those before it not there. */
function inOrder(piece: Piece, station: number, decks: readonly DeckArea[]): readonly DeckArea[] {
  const unknown = decks.filter((deck) => !hasSurface(deck) && deck.classification.is !== "floor-above");
  const at = piece.planAt(station);
  const bottom = piece.bounds.min[2];
  const heights = decks
    .filter(hasSurface)
    .map((deck) => ({ deck, z: surfaceAt(deck, at) }))
    .sort((a, b) => a.z - b.z);
  const above = heights.filter(({ deck, z }) => z + (deck.depth ?? 0) >= bottom);
  const below = heights.filter((each) => !above.includes(each));
  const floors = decks.filter((deck) => !hasSurface(deck) && deck.classification.is === "floor-above");
  return [...unknown, ...above.map(({ deck }) => deck), ...below.map(({ deck }) => deck), ...floors];
}

/** For what stands at one place: the decks that are next above some part of its outline. Decks side by side all are, one over another is not. */
function nextAboveSomewhere(piece: Piece, station: number, decks: readonly DeckArea[]): readonly DeckArea[] {
  const { corners } = piece.outline();
  const order = inOrder(piece, station, decks);
  if (corners.length < 3) return order.slice(0, 1);
  const shares = sharesInTurn(
    corners,
    order.map((deck) => deck.polygon),
  );
  const found = order.filter((_, i) => shares[i]! > LEAST_PART);
  return found.length > 0 ? found : order.slice(0, 1);
}

/** Less of an outline than this, square inches, is two edges that touch. */
const LEAST_PART = 1e-6;
