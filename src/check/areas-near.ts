import type { IntervalSet } from "../geometry/interval-set.ts";
import type { Box3 } from "../geometry/solid.ts";
import { inches } from "../units/quantity.ts";
import type { Around } from "./around.ts";
import { type Cover, coverage, type Span, stationsWhere } from "./coverage.ts";
import { type DeckArea, hasSurface } from "./deck-area.ts";
import { type DeckShare, shareUnder } from "./deck-share.ts";
import type { ElementShape } from "./kinds/kind.ts";
import { type OverDeck, overDeck } from "./lower-deck.ts";
import { type Measured, SURELY_IN } from "./measure.ts";
import type { Near } from "./near.ts";
import type { Piece, PlanEnds } from "./piece.ts";
import type { Frame, Scene } from "./scene.ts";

/** The pieces of an element that an area is over or within reach of, by their numbers too. */
export class NearArea implements Near {
  readonly pieces: Piece[] = [];
  readonly shares: DeckShare[] = [];
  readonly numbers: number[] = [];

  constructor(readonly deck: DeckArea) {}

  add(piece: Piece, share: DeckShare, number: number): void {
    this.pieces.push(piece);
    this.shares.push(share);
    this.numbers.push(number);
  }
}

/** How far in plan around an element areas are looked for at once, inches: what is farther is asked of the index. */
export const SEARCHED_IN = 24;
/** With more areas than this around an element, each piece asks the index instead of going through them all. */
export const MANY_AREAS = 32;

/** The areas around an element, and which of them are the next ones above it. */
export class AreasNear implements Around {
  /** The areas over a piece or within reach of one in plan, in the order in which the pieces come to them. */
  readonly areas: NearArea[] = [];
  /** The areas that are next above some part of the element, in order along it; undefined among them where none is. */
  readonly #next: (DeckArea | undefined)[] = [];
  /** Every area that comes within `SEARCHED_IN` of the element in plan; undefined where there are too many to go through. */
  readonly #inReach: readonly DeckArea[] | undefined;
  /** For every piece, a distance within which there is a roof that has been spoken of. */
  readonly #within: number[];
  /** Which area is next above each part: for pieces that lie wholly under one area, worked out when asked. */
  readonly #covers: (readonly Cover[] | NearArea)[] = [];

  constructor(
    private readonly scene: Scene,
    private readonly frame: Frame,
    private readonly shape: ElementShape,
  ) {
    const { pieces, planTolerance, standOut } = shape;
    this.#within = new Array<number>(pieces.length).fill(Number.POSITIVE_INFINITY);
    const slack = scene.required + scene.planTolerance + planTolerance + frame.slack + (standOut?.by ?? 0);
    // The index is asked once for the whole element: its pieces lie close together, so what is around it is little to go through.
    const around = frame.footprints.query(
      columnOf(pieces),
      inches(Math.max(SEARCHED_IN, slack + widestTolerance(pieces))),
    );
    const all: NearArea[] = [];
    if (around.length <= MANY_AREAS) {
      for (const n of around) all.push(new NearArea(frame.areas[n]!));
      this.#inReach = all.map(({ deck }) => deck);
    }
    keepBoxes(all);
    const byNumber = this.#inReach ? undefined : new Map<number, NearArea>();
    for (let i = 0; i < pieces.length; i++) {
      const piece = pieces[i]!;
      const reach = slack + piece.tolerance + (piece.counted?.tolerance ?? 0);
      const candidates = byNumber ? areasAt(frame, piece, reach, byNumber) : all;
      if (byNumber) keepBoxes(candidates);
      this.#addPiece(piece, i, candidates, reach);
    }
  }

  isNext(deck: DeckArea | undefined): boolean {
    return this.#next.includes(deck);
  }

  stations(deck: DeckArea | undefined): IntervalSet {
    const covers = this.#covers.flatMap((_, i) => this.#coversOf(i));
    return stationsWhere(covers, (next) => next === deck);
  }

  get isUnderAny(): boolean {
    return this.#next.some((deck) => deck !== undefined);
  }

  get floors(): readonly DeckArea[] {
    return this.#next.filter((deck) => deck !== undefined).filter((deck) => deck.classification.is === "floor-above");
  }

  over(near: NearArea): OverDeck | undefined {
    return overDeck(this.scene, near.deck, near, (i) => this.#coversOf(near.numbers[i]!), this.shape);
  }

  speakOf({ numbers }: NearArea, { distances }: Measured): void {
    for (let i = 0; i < distances.length; i++)
      this.#within[numbers[i]!] = Math.min(this.#within[numbers[i]!]!, distances[i]!);
  }

  nearestUnspoken(spoken: readonly DeckArea[], noMatter: readonly DeckArea[]): readonly DeckArea[] {
    return nearestRoofs(this.frame, this.shape, spoken, noMatter, this.#within, this.#inReach);
  }

  /** Which decks are next above a piece of the element, by its number. */
  #coversOf(number: number): readonly Cover[] {
    const own = this.#covers[number]!;
    if (!(own instanceof NearArea)) return own;
    const { from, to } = own.pieces[own.numbers.indexOf(number)]!;
    return [{ from, to, deck: own.deck }];
  }

  #addPiece(piece: Piece, number: number, candidates: readonly NearArea[], reach: number): void {
    // Most pieces lie wholly under one area.
    let whole: NearArea | undefined;
    let spans: Span[] | undefined;
    const ends = endsOf(piece);
    const x0 = ends.x0 - reach;
    const y0 = ends.y0 - reach;
    const x1 = ends.x1 + reach;
    const y1 = ends.y1 + reach;
    for (let c = 0; c < candidates.length; c++) {
      const at = 4 * c;
      if (boxes[at]! > x1 || boxes[at + 1]! > y1 || boxes[at + 2]! < x0 || boxes[at + 3]! < y0) continue;
      const near = candidates[c]!;
      const share = shareUnder(piece, near.deck);
      if (near.numbers.length === 0) this.areas.push(near);
      near.add(piece, share, number);
      if (share.isWhole && !whole && !spans) {
        whole = near;
        continue;
      }
      const { under } = share;
      if (under.length === 0) continue;
      spans ??= [];
      if (whole) spans.push({ deck: whole.deck, under: [[piece.from, piece.to]] });
      whole = undefined;
      spans.push({ deck: near.deck, under });
    }
    if (whole) {
      this.#covers.push(whole);
      this.#addNext(whole.deck);
      return;
    }
    const covers = coverage(piece, spans ?? []);
    this.#covers.push(covers);
    for (const { deck } of covers) this.#addNext(deck);
  }

  #addNext(deck: DeckArea | undefined): void {
    if (!this.#next.includes(deck)) this.#next.push(deck);
  }
}

/** The boxes of candidates in plan, least x y and greatest x y: kept from call to call, and side by side, since they are gone through for every piece. */
let boxes = new Float64Array(4 * MANY_AREAS);

function keepBoxes(candidates: readonly NearArea[]): void {
  if (boxes.length < 4 * candidates.length) boxes = new Float64Array(8 * candidates.length);
  for (let c = 0; c < candidates.length; c++) {
    const { min, max } = candidates[c]!.deck.footprint.box;
    boxes[4 * c] = min[0];
    boxes[4 * c + 1] = min[1];
    boxes[4 * c + 2] = max[0];
    boxes[4 * c + 3] = max[1];
  }
}

/** The areas within reach of one piece of an element that has too many around it, each the same for every piece. */
function areasAt(frame: Frame, piece: Piece, reach: number, byNumber: Map<number, NearArea>): NearArea[] {
  return frame.footprints.query(columnOf([piece]), inches(reach)).map((n) => {
    const near = byNumber.get(n) ?? new NearArea(frame.areas[n]!);
    byNumber.set(n, near);
    return near;
  });
}

/** The box that holds all pieces in plan, at elevation 0, where the footprints lie. */
function columnOf(pieces: readonly Piece[]): Box3 {
  const ends: PlanEnds = { ...NO_ENDS };
  for (const piece of pieces) piece.widen(ends);
  return { min: [ends.x0, ends.y0, 0], max: [ends.x1, ends.y1, 0] };
}

const NO_ENDS: PlanEnds = {
  x0: Number.POSITIVE_INFINITY,
  y0: Number.POSITIVE_INFINITY,
  x1: Number.NEGATIVE_INFINITY,
  y1: Number.NEGATIVE_INFINITY,
};

/** Where a piece ends in plan; in the same object each time. */
function endsOf(piece: Piece): PlanEnds {
  ownEnds.x0 = Number.POSITIVE_INFINITY;
  ownEnds.y0 = Number.POSITIVE_INFINITY;
  ownEnds.x1 = Number.NEGATIVE_INFINITY;
  ownEnds.y1 = Number.NEGATIVE_INFINITY;
  piece.widen(ownEnds);
  return ownEnds;
}

const ownEnds: PlanEnds = { ...NO_ENDS };

/**
 * As `Around` says. `within[i]` is a distance of piece i to a roof that has been spoken of: only where another may come nearer is the index
 * searched. `inReach` are the areas that may come within `SEARCHED_IN`, where they have been looked for.
 */
function nearestRoofs(
  frame: Frame,
  { pieces }: ElementShape,
  spoken: readonly DeckArea[],
  noMatter: readonly DeckArea[],
  within: ArrayLike<number>,
  inReach: readonly DeckArea[] | undefined,
): readonly DeckArea[] {
  const others = inReach?.filter((deck) => hasSurface(deck) && isRoof(deck, noMatter) && !spoken.includes(deck));
  const found: DeckArea[] = [];
  for (let i = 0; i < pieces.length; i++) {
    const piece = pieces[i]!;
    const reach = within[i]! + SURELY_IN;
    if (others && reach < SEARCHED_IN && !mayReachAny(piece, others, reach)) continue;
    const deck = nearestRoof(frame, piece, noMatter);
    if (deck && !spoken.includes(deck) && !found.includes(deck)) found.push(deck);
  }
  return found;
}

const isRoof = (deck: DeckArea | undefined, noMatter: readonly DeckArea[]): boolean =>
  deck !== undefined && deck.classification.is === "roof" && !noMatter.includes(deck);

/** The roof nearest to a piece, however far, of all but those that are no matter. */
export function nearestRoof(frame: Frame, piece: Piece, noMatter: readonly DeckArea[]): DeckArea | undefined {
  const nearest = piece.nearest(frame.surfaces, (n) => isRoof(frame.surfaceAreas[n], noMatter));
  return nearest === undefined ? undefined : frame.surfaceAreas[nearest];
}

function mayReachAny(piece: Piece, decks: readonly DeckArea[], reach: number): boolean {
  for (const { faces } of decks) for (const { box } of faces) if (piece.mayReach(box, reach)) return true;
  return false;
}

const widestTolerance = (pieces: readonly Piece[]): number =>
  pieces.reduce((widest, { tolerance, counted }) => Math.max(widest, tolerance + (counted?.tolerance ?? 0)), 0);
