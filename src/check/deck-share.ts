import type { Face } from "../geometry/face.ts";
import { unite } from "../geometry/interval-set.ts";
import { planDistance2 } from "../geometry/plan-edges.ts";
import { elevationAt } from "../geometry/plane.ts";
import type { DeckArea } from "./deck-area.ts";
import type { Piece, PlanShare, TopGap } from "./piece.ts";

/** What of a piece lies in plan inside a deck area, with the vertical gaps to its lowest surface there. */
export interface DeckShare extends PlanShare {
  /** The face each gap is measured to; absent where the surface is one face, or is not known. */
  readonly over?: readonly Face[];
}

/**
 * What of a piece lies in plan inside a deck area. Where the surface has several faces, a run has a gap under each of them, one after the
 * other, and a piece with one station has one gap in all: the least from its top, the greatest from its bottom. What lies in
 * plan inside the area has a gap, on a line between two faces too.
 */
export function shareUnder(piece: Piece, deck: DeckArea): DeckShare {
  const { faces } = deck;
  const [first] = faces;
  if (!first || faces.length === 1) return piece.share(first ?? deck.footprint);
  const { under } = piece.share(deck.footprint);
  const gaps: TopGap[] = [];
  const over: Face[] = [];
  for (const face of faces) {
    if (!piece.mayReachInPlan(face.box, REACH_IN)) continue;
    for (const gap of piece.share(face).gaps) {
      gaps.push(gap);
      over.push(face);
    }
  }
  if (gaps.length === 0) return under.length === 0 ? { under, gaps } : acrossTheLine(piece, deck, under);
  if (piece.from === piece.to) return { under, ...inOne(gaps, over) };
  const inTurn = gaps.map((gap, i) => ({ gap, face: over[i]! })).sort((a, b) => a.gap.from - b.gap.from);
  // Where a run passes from face to face rounding may leave nothing between them that is under neither.
  let end = Number.NEGATIVE_INFINITY;
  const joined = inTurn.map(({ gap }) => {
    const from = gap.from > end && gap.from - end < REACH_IN ? end : gap.from;
    end = Math.max(end, gap.to);
    return from === gap.from ? gap : { ...gap, from };
  });
  return {
    under: unite(
      under,
      joined.map(({ from, to }) => [from, to] as const),
    ),
    gaps: joined,
    over: inTurn.map(({ face }) => face),
  };
}

/** What rounding may part: boxes from what they hold, and faces from each other; inches. */
const REACH_IN = 1e-6;

/** The gaps of a piece with one station, as one. */
function inOne(gaps: readonly TopGap[], over: readonly Face[]): Pick<DeckShare, "gaps" | "over"> {
  let least = 0;
  for (let i = 1; i < gaps.length; i++) if (gaps[i]!.gapFrom < gaps[least]!.gapFrom) least = i;
  const greatest = Math.max(...gaps.map(({ axisFrom }) => axisFrom));
  return { gaps: [{ ...gaps[least]!, axisFrom: greatest, axisTo: greatest }], over: [over[least]!] };
}

/** A piece that rounding has put between all faces: its gaps by the face nearest in plan, as that goes on. */
function acrossTheLine(piece: Piece, deck: DeckArea, under: PlanShare["under"]): DeckShare {
  const [x, y] = piece.planAt(piece.from);
  const apart = (face: Face): number => planDistance2(face.edges, x - face.origin[0], y - face.origin[1]);
  const face = deck.faces.reduce((best, each) => (apart(each) < apart(best) ? each : best));
  const { min, max } = piece.bounds;
  const gaps = under.map(([from, to]): TopGap => {
    const [start, end] = [elevationAt(face.plane, piece.planAt(from)), elevationAt(face.plane, piece.planAt(to))];
    return {
      from,
      to,
      gapFrom: start - max[2],
      gapTo: end - max[2],
      axisFrom: start - (piece.axis?.from ?? min[2]),
      axisTo: end - (piece.axis?.to ?? min[2]),
    };
  });
  return { under, gaps, over: gaps.map(() => face) };
}
