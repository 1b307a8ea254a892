import type { DeckArea } from "./deck-area.ts";
import type { Piece } from "./piece.ts";

/** Whether a piece hangs so much below this very deck: where the deck is higher or lower than given, so is the piece. On a folded deck that holds at a tag alone. */
export const hangsFrom = ({ counted, from, to }: Piece, { id, faces }: DeckArea): boolean =>
  counted?.area === id && (faces.length === 1 || from === to);

/** How far the height between a piece and a deck may be off, each way, by the doubts of both; inches. */
export function uprightDoubt(piece: Piece, deck: DeckArea): number {
  if (!piece.counted) return piece.tolerance + deck.tolerance;
  if (hangsFrom(piece, deck)) return piece.tolerance;
  const own = piece.counted.area === deck.id ? 0 : piece.counted.tolerance;
  return piece.tolerance + deck.tolerance + own;
}
