import { gapAt, planSpansOf, stretchesNear, writeNearest } from "../geometry/clearance.ts";
import { FACE_NUMBERS, type Face, faceTable } from "../geometry/face.ts";
import { type Interval, type IntervalSet, normalise } from "../geometry/interval-set.ts";
import { WHOLE } from "../geometry/plan-edges.ts";
import type { Point3 } from "../geometry/point.ts";
import { isCloserThan } from "../geometry/tolerance.ts";
import { inches } from "../units/quantity.ts";
import { MANY_AREAS, nearestRoof, SEARCHED_IN } from "./areas-near.ts";
import type { AreaNear, Around } from "./around.ts";
import type { DeckArea } from "./deck-area.ts";
import { type DeckShare, shareUnder } from "./deck-share.ts";
import type { ElementShape } from "./kinds/kind.ts";
import { type Measured, measure, SURELY_IN, slackAt, verticalAt } from "./measure.ts";
import { type Piece, ROUND, ROUND_STRIDE, SPOT_NUMBERS } from "./piece.ts";
import type { Frame, Scene } from "./scene.ts";

/** Numbers of a box: least x y z, greatest x y z. */
const BOX_NUMBERS = 6;

const surveys = new WeakMap<Frame, RoundSurvey>();

/** The survey of a frame: one for all that is checked in it. */
export function surveyOf(frame: Frame): RoundSurvey {
  const known = surveys.get(frame);
  if (known) return known;
  const fresh = new RoundSurvey(frame);
  surveys.set(frame, fresh);
  return fresh;
}

/**
 * The areas around an element, found as `AreasNear` finds them and to the bit the same, but in one pass over numbers that lie side by side: for what
 * nearly every element of a large job is, straight round pieces under roofs of one plane each, none of which lies over another there. One of these serves a
 * frame: it keeps its arrays from element to element, so what it answers holds until the next one is surveyed, and is not kept by any finding.
 */
class RoundSurvey implements Around {
  areas: RoundNear[] = [];
  scene!: Scene;
  shape!: ElementShape;
  /** The pieces, `ROUND_STRIDE` numbers each. */
  rounds = new Float64Array(64 * ROUND_STRIDE);
  /** For every pair of an area and a piece near it: the piece, the area's next pair, and the least distance of axis and face and where along the piece. */
  pieceOf = new Int32Array(256);
  nextPair = new Int32Array(256);
  apart = new Float64Array(256);
  along = new Float64Array(256);
  #pairs = 0;
  /** For every piece, a distance within which there is a roof that has been spoken of. */
  #within = new Float64Array(64);
  /** The numbers of the areas that may come within `SEARCHED_IN`, and which of `areas` each of them is; -1 where no piece is near it. */
  #around: readonly number[] = [];
  #placeOf = new Int32Array(MANY_AREAS);
  /** Stations between which no area lies over the element. */
  #open: Interval[] = [];
  /** The spans of one piece, in order: stations from and to. */
  readonly #spans: number[] = [];
  #spanNumbers = 0;
  readonly #boxes: Float64Array;
  readonly #isPlain: Uint8Array;
  /** The face of every area that has one and its numbers; of any other they are those of its footprint, and not read. */
  readonly faces: readonly Face[];
  readonly table: Float64Array;

  constructor(private readonly frame: Frame) {
    this.#boxes = new Float64Array(frame.areas.length * BOX_NUMBERS);
    frame.areas.forEach(({ footprint, faces }, n) => {
      const { min, max } = footprint.box;
      const low = Math.min(...faces.map(({ box }) => box.min[2]));
      const high = Math.max(...faces.map(({ box }) => box.max[2]));
      this.#boxes.set([min[0], min[1], low, max[0], max[1], high], n * BOX_NUMBERS);
    });
    this.faces = frame.areas.map(({ faces, footprint }) => faces[0] ?? footprint);
    this.table = faceTable(this.faces);
    this.#isPlain = Uint8Array.from(frame.areas, ({ faces, classification }) =>
      faces.length === 1 && classification.is === "roof" ? 1 : 0,
    );
  }

  /** The areas around an element; undefined where it or they are not of the kind this is for. */
  around(scene: Scene, shape: ElementShape): Around | undefined {
    this.scene = scene;
    this.shape = shape;
    const { pieces, planTolerance, standOut } = shape;
    const widest = this.#read(pieces);
    if (widest === undefined) return undefined;
    const slack = scene.required + scene.planTolerance + planTolerance + this.frame.slack + (standOut?.by ?? 0);
    this.#around = this.frame.footprints.query(this.#column(), inches(Math.max(SEARCHED_IN, slack + widest)));
    if (this.#around.length > MANY_AREAS) return undefined;
    this.areas = [];
    this.#open = [];
    this.#pairs = 0;
    this.#placeOf.fill(-1, 0, this.#around.length);
    for (let i = 0; i < pieces.length; i++) if (!this.#pairUp(i, slack)) return undefined;
    return this;
  }

  isNext(deck: DeckArea | undefined): boolean {
    if (deck === undefined) return this.#open.length > 0;
    for (const near of this.areas) if (near.deck === deck) return near.isOver;
    return false;
  }

  get isUnderAny(): boolean {
    return this.areas.some(({ isOver }) => isOver);
  }

  get floors(): readonly DeckArea[] {
    return NONE;
  }

  stations(deck: DeckArea | undefined): IntervalSet {
    if (deck !== undefined)
      throw new Error("only decks that are not settled, or not known, are asked for by their stations");
    return normalise(this.#open);
  }

  /** None lies over another, so there is none that the element lies above and not under. */
  over(): undefined {
    return undefined;
  }

  speakOf(near: RoundNear, measured: Measured): void {
    near.isSpoken = true;
    const distances = near.rises ? measured.distances : undefined;
    let place = 0;
    for (let pair = near.first; pair >= 0; pair = this.nextPair[pair]!) {
      const i = this.pieceOf[pair]!;
      const radius = this.rounds[i * ROUND_STRIDE + ROUND.radius]!;
      const distance = distances ? distances[place++]! : this.apart[pair]! - radius;
      if (distance < this.#within[i]!) this.#within[i] = distance;
    }
  }

  nearestUnspoken(spoken: readonly DeckArea[]): readonly DeckArea[] {
    const { frame, shape } = this;
    const others = this.#around.filter((_, c) => !this.areas[this.#placeOf[c]!]?.isSpoken);
    const found: DeckArea[] = [];
    for (let i = 0; i < shape.pieces.length; i++) {
      if (this.#within[i]! + SURELY_IN < SEARCHED_IN && !this.#mayReach(i, others)) continue;
      const deck = nearestRoof(frame, shape.pieces[i]!, NONE);
      if (deck && !spoken.includes(deck) && !found.includes(deck)) found.push(deck);
    }
    return found;
  }

  /** Whether one of these areas may be as near to a piece as the nearest that has been spoken of. */
  #mayReach(piece: number, areas: readonly number[]): boolean {
    const { rounds } = this;
    const boxes = this.#boxes;
    const p = piece * ROUND_STRIDE;
    const far = this.#within[piece]! + SURELY_IN + rounds[p + ROUND.radius]!;
    for (const n of areas) {
      const at = n * BOX_NUMBERS;
      const apart = (k: number): boolean =>
        Math.min(rounds[p + k]!, rounds[p + 3 + k]!) - far > boxes[at + 3 + k]! ||
        Math.max(rounds[p + k]!, rounds[p + 3 + k]!) + far < boxes[at + k]!;
      if (!apart(0) && !apart(1) && !apart(2)) return true;
    }
    return false;
  }

  /** Reads the pieces, and answers their widest tolerance; undefined where one is not round, not straight, has no length, or is counted from a deck. */
  #read(pieces: readonly Piece[]): number | undefined {
    const count = pieces.length;
    if (this.#within.length < count) {
      this.rounds = new Float64Array(2 * count * ROUND_STRIDE);
      this.#within = new Float64Array(2 * count);
    }
    let widest = 0;
    let sum = 0;
    for (let i = 0; i < count; i++) {
      const piece = pieces[i]!;
      if (!piece.writeRound || piece.counted || !(piece.to > piece.from)) return undefined;
      const at = i * ROUND_STRIDE;
      piece.writeRound(this.rounds, at);
      this.#within[i] = Number.POSITIVE_INFINITY;
      widest = Math.max(widest, piece.tolerance);
      for (let k = 0; k < 6; k++) sum += this.rounds[at + k]!;
    }
    if (!Number.isFinite(sum)) throw new RangeError("a coordinate of an element is not finite");
    return widest;
  }

  /** The box that holds all pieces in plan, at elevation 0, where the footprints lie. */
  #column(): { readonly min: Point3; readonly max: Point3 } {
    const { rounds, shape } = this;
    let x0 = Number.POSITIVE_INFINITY;
    let y0 = Number.POSITIVE_INFINITY;
    let x1 = Number.NEGATIVE_INFINITY;
    let y1 = Number.NEGATIVE_INFINITY;
    for (let at = 0; at < shape.pieces.length * ROUND_STRIDE; at += ROUND_STRIDE) {
      const radius = rounds[at + ROUND.radius]!;
      x0 = Math.min(x0, rounds[at]! - radius, rounds[at + 3]! - radius);
      y0 = Math.min(y0, rounds[at + 1]! - radius, rounds[at + 4]! - radius);
      x1 = Math.max(x1, rounds[at]! + radius, rounds[at + 3]! + radius);
      y1 = Math.max(y1, rounds[at + 1]! + radius, rounds[at + 4]! + radius);
    }
    return { min: [x0, y0, 0], max: [x1, y1, 0] };
  }

  /** Pairs a piece with every area near it; false where that takes more than this can tell. */
  #pairUp(piece: number, slack: number): boolean {
    const { rounds } = this;
    const boxes = this.#boxes;
    const at = piece * ROUND_STRIDE;
    const radius = rounds[at + ROUND.radius]!;
    const reach = slack + rounds[at + ROUND.tolerance]!;
    const x0 = Math.min(rounds[at]!, rounds[at + 3]!) - radius - reach;
    const y0 = Math.min(rounds[at + 1]!, rounds[at + 4]!) - radius - reach;
    const x1 = Math.max(rounds[at]!, rounds[at + 3]!) + radius + reach;
    const y1 = Math.max(rounds[at + 1]!, rounds[at + 4]!) + radius + reach;
    let whole = false;
    this.#spanNumbers = 0;
    for (let c = 0; c < this.#around.length; c++) {
      const n = this.#around[c]!;
      const box = n * BOX_NUMBERS;
      if (boxes[box]! > x1 || boxes[box + 1]! > y1 || boxes[box + 3]! < x0 || boxes[box + 4]! < y0) continue;
      if (this.#isPlain[n] === 0) return false;
      const near = this.#nearOf(c, n);
      this.#addPair(near, piece);
      const spans = near.spansOf(rounds, at);
      if (spans.length === 0) continue;
      near.isOver = true;
      near.see(rounds, at, spans);
      // One over another: which of them is next above takes more than their plans.
      if (whole) return false;
      if (spans === WHOLE) whole = true;
      else this.#addSpans(at, spans);
      if (whole && this.#spanNumbers > 0) return false;
    }
    return whole || this.#closeSpans(at);
  }

  #nearOf(candidate: number, area: number): RoundNear {
    const place = this.#placeOf[candidate]!;
    if (place >= 0) return this.areas[place]!;
    this.#placeOf[candidate] = this.areas.length;
    const near = new RoundNear(this, this.frame.areas[area]!, this.faces[area]!, area * FACE_NUMBERS);
    this.areas.push(near);
    return near;
  }

  #addPair(near: RoundNear, piece: number): void {
    const pair = this.#pairs++;
    if (pair === this.pieceOf.length) {
      this.pieceOf = grown(this.pieceOf, new Int32Array(2 * pair));
      this.nextPair = grown(this.nextPair, new Int32Array(2 * pair));
      this.apart = grown(this.apart, new Float64Array(2 * pair));
      this.along = grown(this.along, new Float64Array(2 * pair));
    }
    this.pieceOf[pair] = piece;
    this.nextPair[pair] = -1;
    if (near.first < 0) near.first = pair;
    else this.nextPair[near.last] = pair;
    near.last = pair;
  }

  #addSpans(at: number, spans: IntervalSet): void {
    const own = this.#spans;
    const from = this.rounds[at + ROUND.from]!;
    const length = this.rounds[at + ROUND.length]!;
    for (const span of spans) {
      const start = from + span[0] * length;
      let place = this.#spanNumbers;
      this.#spanNumbers += 2;
      for (; place > 0 && own[place - 2]! > start; place -= 2) {
        own[place] = own[place - 2]!;
        own[place + 1] = own[place - 1]!;
      }
      own[place] = start;
      own[place + 1] = from + span[1] * length;
    }
  }

  /** Notes what lies between the spans of a piece; false where they overlap, or one is so short that it may be another's by rounding. */
  #closeSpans(at: number): boolean {
    const own = this.#spans;
    let end = this.rounds[at + ROUND.from]!;
    const last = end + this.rounds[at + ROUND.length]!;
    for (let i = 0; i < this.#spanNumbers; i += 2) {
      const from = own[i]!;
      const to = own[i + 1]!;
      if (to - from < SHORT_IN || (i > 0 && from < end - ROUNDING_IN)) return false;
      if (from > end) this.#open.push([end, from]);
      end = to;
    }
    if (last > end) this.#open.push([end, last]);
    return true;
  }
}

/** Two areas that share an edge may overlap by this for rounding; what is not longer than some of that may be either's. Inches. */
const ROUNDING_IN = 1e-7;
const SHORT_IN = 1e-5;
const NONE: readonly DeckArea[] = [];

function grown<A extends Int32Array | Float64Array>(old: A, fresh: A): A {
  fresh.set(old);
  return fresh;
}

/** An area near a surveyed element: its pairs in order, and whether it is over any piece. */
class RoundNear implements AreaNear {
  first = -1;
  last = -1;
  isOver = false;
  isSpoken = false;
  /** Whether some of the element under it has its axis above its surface, and some below. */
  rises = false;
  below = false;
  #pieces: readonly Piece[] | undefined;
  #shares: readonly DeckShare[] | undefined;

  constructor(
    private readonly survey: RoundSurvey,
    readonly deck: DeckArea,
    readonly face: Face,
    /** Where the numbers of its face begin. */
    private readonly row: number,
  ) {}

  /** What of a piece lies in plan inside it. */
  spansOf(rounds: Float64Array, at: number): IntervalSet {
    return planSpansOf(rounds, at, this.survey.table, this.row, this.face);
  }

  /** Looks on which side of the surface a piece lies within some spans of it. */
  see(rounds: Float64Array, at: number, spans: IntervalSet): void {
    for (const span of spans) {
      const from = gapAt(rounds, at, this.survey.table, this.row, span[0]);
      const to = gapAt(rounds, at, this.survey.table, this.row, span[1]);
      if (from < 0 || to < 0) this.rises = true;
      if (from > 0 || to > 0) this.below = true;
    }
  }

  get pieces(): readonly Piece[] {
    if (this.#pieces) return this.#pieces;
    const { pieceOf, nextPair, shape } = this.survey;
    const pieces: Piece[] = [];
    this.#pieces = pieces;
    for (let pair = this.first; pair >= 0; pair = nextPair[pair]!) pieces.push(shape.pieces[pieceOf[pair]!]!);
    return pieces;
  }

  get shares(): readonly DeckShare[] {
    this.#shares ??= this.pieces.map((piece) => shareUnder(piece, this.deck));
    return this.#shares;
  }

  /** As `measure` does; not where any of it rises above the surface, which takes more than distances. */
  measured(): Measured | undefined {
    if (this.rises) return undefined;
    const { survey, deck, face } = this;
    const { scene, shape, rounds } = survey;
    const plan = scene.planTolerance + deck.planTolerance + shape.planTolerance;
    const standsOut = shape.standOut?.by ?? 0;
    let least = Number.POSITIVE_INFINITY;
    let lo = Number.POSITIVE_INFINITY;
    let hi = Number.POSITIVE_INFINITY;
    let widest = 0;
    let best = this.first;
    for (let pair = this.first; pair >= 0; pair = survey.nextPair[pair]!) {
      const at = survey.pieceOf[pair]! * ROUND_STRIDE;
      writeNearest(rounds, at, survey.table, this.row, face, spot);
      survey.apart[pair] = spot[0]!;
      survey.along[pair] = spot[1]!;
      const here = spot[0]! - rounds[at + ROUND.radius]!;
      const slack = slackAt(spot, face, rounds[at + ROUND.tolerance]! + deck.tolerance, plan);
      lo = Math.min(lo, here - slack - standsOut);
      hi = Math.min(hi, here + slack);
      widest = Math.max(widest, slack + standsOut);
      if (here >= least) continue;
      least = here;
      best = pair;
    }
    return new RoundMeasured(survey, this, least, lo, hi, widest, best);
  }
}

/** Where a piece comes nearest to a face: read before the next one is asked about. */
const spot = new Float64Array(SPOT_NUMBERS);
const NOWHERE: IntervalSet = [];

/** What was measured of a surveyed element that lies wholly below the surface, or beside it. What only explanations ask for is measured again. */
class RoundMeasured implements Measured {
  readonly inDepth = NOWHERE;
  readonly aboveDeck = NOWHERE;
  readonly below: boolean;

  constructor(
    private readonly survey: RoundSurvey,
    private readonly area: RoundNear,
    readonly least: number,
    readonly lo: number,
    readonly hi: number,
    private readonly widest: number,
    /** The pair that has the least distance. */
    private readonly best: number,
  ) {
    this.below = area.below;
  }

  get station(): number {
    const at = this.survey.pieceOf[this.best]! * ROUND_STRIDE;
    const { rounds, along } = this.survey;
    return rounds[at + ROUND.from]! + along[this.best]! * rounds[at + ROUND.length]!;
  }

  get vertical(): number | null {
    const piece = this.survey.shape.pieces[this.survey.pieceOf[this.best]!]!;
    return verticalAt(piece, shareUnder(piece, this.area.deck).gaps, this.station);
  }

  near(): IntervalSet {
    return this.#nearWithin(this.survey.scene.required, this.least);
  }

  maybeNear(): IntervalSet {
    return this.#nearWithin(this.survey.scene.required + this.widest, this.lo + this.widest);
  }

  get face(): Face {
    return this.area.face;
  }

  get onElement(): Point3 {
    return this.#again().onElement;
  }

  get onFace(): Point3 {
    return this.#again().onFace;
  }

  get distances(): readonly number[] {
    return this.#again().distances;
  }

  #again(): Measured {
    const { survey, area } = this;
    const { scene, shape } = survey;
    return measure(scene, area.pieces, area.shares, area.deck, shape.planTolerance, shape.standOut?.by);
  }

  #nearWithin(clearance: number, leastThere: number): IntervalSet {
    if (!isCloserThan(leastThere, clearance)) return NOWHERE;
    const { rounds, pieceOf, nextPair, apart, along } = this.survey;
    const parts: Interval[] = [];
    for (let pair = this.area.first; pair >= 0; pair = nextPair[pair]!) {
      const at = pieceOf[pair]! * ROUND_STRIDE;
      const reach = clearance + rounds[at + ROUND.radius]!;
      if (apart[pair]! > reach + SURELY_IN) continue;
      const from = rounds[at + ROUND.from]!;
      const length = rounds[at + ROUND.length]!;
      for (const [a, b] of stretchesNear(rounds, at, this.area.face, inches(reach), apart[pair]!, along[pair]!))
        parts.push([from + a * length, from + b * length]);
    }
    return normalise(parts);
  }
}
