import { type IntervalSet, totalLength, unite } from "../geometry/interval-set.ts";
import type { Box3 } from "../geometry/solid.ts";
import type { Element } from "../job/elements/element.ts";
import { inches } from "../units/quantity.ts";
import { type Cover, coverage, type Span, stationsWhere } from "./coverage.ts";
import { type DeckArea, hasSurface } from "./deck-area.ts";
import { type DeckShare, shareUnder } from "./deck-share.ts";
import { isQuiet, type Reason, type Remedy, VERDICTS, type Verdict } from "./finding.ts";
import { Explanation, type FindingFacts, FoundFinding } from "./found-finding.ts";
import { cannotTell, judge, type Near, type NextAbove, type Part, ruleText } from "./judge.ts";
import type { ElementShape } from "./kinds/kind.ts";
import { checkKindOf } from "./kinds/kinds.ts";
import { lowerRemedy } from "./lower.ts";
import type { Piece, PlanEnds } from "./piece.ts";
import { type Missing, reason } from "./reading.ts";
import type { Frame, Scene } from "./scene.ts";
import { stationText, VERDICT_WORDS } from "./words.ts";

/** How a finding is explained when somebody asks. */
export interface Explaining {
  /** The scene as it then is: it has to come to the same findings for the element. */
  scene(): Scene;
  /** The remedies of the element's finding with this verdict; without it, those the check itself came upon. */
  readonly remedies?: (scene: Scene, id: string, element: Element, verdict: Verdict) => readonly Remedy[];
}

/** What the check comes to for one element, before it is put together to findings. */
interface Judged {
  readonly shape: ElementShape;
  readonly parts: readonly Part[];
  /** The areas with a known surface that it was measured against. */
  readonly measured: readonly DeckArea[];
}

/**
 * Checks one element. It has one finding, or one for each verdict that needs attention, in order of station. Reasons and remedies
 * are worked out when they are read, by judging the element again: kept ready for every element of a large job, they would take most of the time and memory of its check.
 */
export function checkElement(
  scene: Scene,
  id: string,
  element: Element,
  explaining: Explaining = { scene: () => scene },
): readonly FoundFinding[] {
  const kind = checkKindOf(element);
  if (kind.findings)
    return kind.findings(scene, element, id).map((own) => new FoundFinding({ ...own, number: null }, own));
  const { shape, parts } = judgeElement(scene, id, element);
  const found = verdictsOf(parts).map((verdict) => finding(scene, id, element, shape, parts, verdict, explaining));
  return found.length < 2 ? found : found.sort((a, b) => (a.stretches[0]?.fromIn ?? 0) - (b.stretches[0]?.fromIn ?? 0));
}

function judgeElement(scene: Scene, id: string, element: Element): Judged {
  const shape = checkKindOf(element).shape(scene, element, id);
  const parts: Part[] = shape.gaps.map((gap) =>
    cannotTell(
      element.label,
      () => gap.missing,
      [[gap.from, gap.to]],
      undefined,
      () => shape.reasonsAt(),
    ),
  );
  const { rules } = scene;
  if (!rules) {
    const text = `the rule edition of the job ("${scene.job.settings.job.edition}" is not known here)`;
    const remedy: Remedy = { kind: "record-fact", text: "Choose the rule edition that applies." };
    parts.push(
      cannotTell(
        element.label,
        () => [{ text, remedy }],
        [],
        undefined,
        () => [],
      ),
    );
    return { shape, parts, measured: [] };
  }
  if (shape.pieces.length === 0) return { shape, parts, measured: [] };
  const frame = scene.frame(shape.root ?? "");
  const { areas, spans, inReach } = areasNear(scene, frame, shape);
  const covers: Cover[] = [];
  const nextAbove = new Set<DeckArea | undefined>();
  shape.pieces.forEach((piece, i) => {
    for (const cover of coverage(piece, spans[i]!)) {
      covers.push(cover);
      nextAbove.add(cover.deck);
    }
  });
  const stationsUnder = (deck: DeckArea | undefined): IntervalSet => stationsWhere(covers, (next) => next === deck);
  const measured: DeckArea[] = [];
  const spoken = new Set<DeckArea>();
  // For every piece, a distance within which there is a roof that has been spoken of.
  const within: number[] = shape.pieces.map(() => Number.POSITIVE_INFINITY);
  for (const near of areas) {
    const { deck } = near;
    if (deck.classification.is === "floor-above") continue;
    const part = judge(scene, rules, element, shape, deck, near, {
      anywhere: nextAbove.has(deck),
      stations: () => stationsUnder(deck),
    });
    if (!part) continue;
    if (part.measured) measured.push(deck);
    // A roof that is merely beside and far enough has nothing to say, unless it is the nearest of all.
    if (part.verdict === "clear" && !nextAbove.has(deck)) continue;
    parts.push(part);
    if (!part.measured) continue;
    spoken.add(deck);
    if (deck.classification.is === "roof")
      part.measured.distances.forEach((distance, i) => {
        const n = near.numbers[i]!;
        within[n] = Math.min(within[n]!, distance);
      });
  }
  if (spoken.size > 0)
    for (const deck of nearestRoofs(frame, shape, spoken, within, inReach)) {
      const near = { pieces: shape.pieces, shares: shape.pieces.map((piece) => shareUnder(piece, deck)) };
      const part = judge(scene, rules, element, shape, deck, near, NOWHERE_ABOVE);
      if (part) parts.push(part);
    }
  if (nextAbove.has(undefined)) {
    const elsewhere = nextAbove.size > 1;
    parts.push(...uncovered(scene, element, shape, stationsUnder(undefined), elsewhere, frame));
  }
  const floorsAbove = [...nextAbove].flatMap((deck) => (deck?.classification.is === "floor-above" ? [deck] : []));
  parts.push(...floors(element, floorsAbove));
  return { shape, parts, measured };
}

const NOWHERE_ABOVE: NextAbove = { anywhere: false, stations: () => [] };

/** The pieces of an element that an area is over or within reach of, by their numbers too. */
interface NearArea extends Near {
  readonly deck: DeckArea;
  readonly pieces: Piece[];
  readonly shares: DeckShare[];
  readonly numbers: number[];
}

/** How far in plan around an element areas are looked for at once, inches: what is farther is asked of the index. */
const SEARCHED_IN = 24;
/** With more areas than this around an element, each piece asks the index instead of going through them all. */
const MANY_AREAS = 32;

interface AreasNear {
  /** The areas over a piece or within reach of one in plan, in the order in which the pieces come to them. */
  readonly areas: readonly NearArea[];
  /** For every piece, those it lies under. */
  readonly spans: readonly (readonly Span[])[];
  /** Every area that comes within `SEARCHED_IN` of the element in plan; undefined where there are too many to go through. */
  readonly inReach: readonly DeckArea[] | undefined;
}

function areasNear(scene: Scene, frame: Frame, shape: ElementShape): AreasNear {
  const { pieces } = shape;
  const slack = scene.required + scene.planTolerance + shape.planTolerance + frame.slack;
  // The index is asked once for the whole element: its pieces lie close together, so what is around it is little to go through.
  const all = columnOf(pieces);
  const around = frame.footprints.query(all, inches(Math.max(SEARCHED_IN, slack + widestTolerance(pieces))));
  const inReach = around.length > MANY_AREAS ? undefined : around.map((n) => frame.areas[n]!);
  const byDeck = new Map<DeckArea, NearArea>();
  const spans = pieces.map((piece, number) => {
    const reach = slack + piece.tolerance;
    const own: Span[] = [];
    const candidates = inReach ?? frame.footprints.query(columnOf([piece]), inches(reach)).map((n) => frame.areas[n]!);
    for (const deck of candidates) {
      if (!piece.mayReachInPlan(deck.footprint.box, reach)) continue;
      const share = shareUnder(piece, deck);
      if (share.under.length > 0) own.push({ deck, under: share.under });
      let near = byDeck.get(deck);
      if (!near) {
        near = { deck, pieces: [], shares: [], numbers: [] };
        byDeck.set(deck, near);
      }
      near.pieces.push(piece);
      near.shares.push(share);
      near.numbers.push(number);
    }
    return own;
  });
  return { areas: [...byDeck.values()], spans, inReach };
}

/** The box that holds all pieces in plan, at elevation 0, where the footprints lie. */
function columnOf(pieces: readonly Piece[]): Box3 {
  const [most, least] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const ends: PlanEnds = { x0: most, y0: most, x1: least, y1: least };
  for (const piece of pieces) piece.widen(ends);
  return { min: [ends.x0, ends.y0, 0], max: [ends.x1, ends.y1, 0] };
}

const widestTolerance = (pieces: readonly Piece[]): number =>
  pieces.reduce((widest, piece) => Math.max(widest, piece.tolerance), 0);

/** Far above the rounding of distances and boxes. */
const SURELY_IN = 1e-6;

/**
 * The roofs that are the nearest of all to a piece, though none of those spoken of: the least distance is over all roofs, however far.
 * `within[i]` is a distance of piece i to a roof that has been spoken of: only where another may come nearer is the index searched.
 */
function nearestRoofs(
  frame: Frame,
  { pieces }: ElementShape,
  spoken: ReadonlySet<DeckArea>,
  within: readonly number[],
  inReach: readonly DeckArea[] | undefined,
): ReadonlySet<DeckArea> {
  const others = inReach?.filter((deck) => hasSurface(deck) && deck.classification.is === "roof" && !spoken.has(deck));
  const isRoof = (n: number): boolean => frame.surfaceAreas[n]?.classification.is === "roof";
  const found = new Set<DeckArea>();
  pieces.forEach((piece, i) => {
    const reach = within[i]! + SURELY_IN;
    if (
      others &&
      reach < SEARCHED_IN &&
      !others.some(({ faces }) => faces.some(({ box }) => piece.mayReach(box, reach)))
    )
      return;
    const nearest = piece.nearest(frame.surfaces, isRoof);
    const deck = nearest === undefined ? undefined : frame.surfaceAreas[nearest];
    if (deck && !spoken.has(deck)) found.add(deck);
  });
  return found;
}

/**
 * Parts of an element with no outlined deck above them. Slivers within the plan tolerance are gaps of tracing, not of the roof, where
 * it lies under decks elsewhere; an element that is no longer than that and under none is not one of them.
 */
function uncovered(
  scene: Scene,
  element: Element,
  shape: ElementShape,
  stations: IntervalSet,
  elsewhere: boolean,
  frame: Frame,
): Part[] {
  const least = elsewhere ? 2 * (scene.planTolerance + shape.planTolerance) : 0;
  const open = stations.filter(([from, to]) => to === from || to - from > least);
  if (open.length === 0) return [];
  const missing = (): Missing[] => [missingDeck(scene, element, shape, open, frame)];
  return [cannotTell(element.label, missing, open, undefined, () => shape.reasonsAt())];
}

function missingDeck(scene: Scene, element: Element, shape: ElementShape, open: IntervalSet, frame: Frame): Missing {
  const elsewhere = frame.areas.length === 0 && Object.keys(scene.job.areas).length > 0;
  const text = elsewhere
    ? `the deck above ${element.label}: no deck area lies on a sheet registered to its own`
    : `the deck above ${element.label}${placeText(scene, open, shape)}: no deck area is outlined there`;
  const remedy: Remedy = elsewhere
    ? { kind: "outline", text: "Register its sheet to the sheet with the deck areas, by two shared points." }
    : { kind: "outline", text: "Outline the deck area above it, as roof or as floor." };
  return { text, remedy };
}

function placeText(scene: Scene, open: IntervalSet, shape: ElementShape): string {
  if (!shape.pieces.some((piece) => piece.to > piece.from)) return "";
  const spans = open.map(([from, to]) => `${stationText(from, scene.system)} to ${stationText(to, scene.system)}`);
  return ` at stations ${spans.join(", ")}`;
}

/** The parts below a deck with a floor above it: not a roof, so not governed. */
function floors(element: Element, decks: readonly DeckArea[]): Part[] {
  return [...new Set(decks)].map((deck) => ({
    verdict: "not-governed",
    deck,
    measured: undefined,
    stretches: [],
    reason: () =>
      reason(
        `${element.label} lies under ${deck.area.label}, which has a floor above it${deck.classification.follows ? " there" : ""} and is not a roof`,
        { value: VERDICT_WORDS["not-governed"], source: deck.classification.reason || "no reason recorded" },
        deck.classification.follows?.(),
      ),
    remedies: () => [],
    excepted: false,
  }));
}

/** The verdicts findings are made for: each that needs attention; if there is none, one that says clear or not governed. */
function verdictsOf(parts: readonly Part[]): Verdict[] {
  const loud = VERDICTS.filter((verdict) => !isQuiet(verdict) && parts.some((part) => part.verdict === verdict));
  return loud.length > 0 ? loud : [quietVerdict(parts)];
}

/** The parts a finding with this verdict speaks of, those with a distance first, the least of them governing. */
function partsFor(parts: readonly Part[], verdict: Verdict): readonly Part[] {
  const own = isQuiet(verdict) ? parts : parts.filter((part) => part.verdict === verdict);
  if (own.length < 2) return own;
  const measured = own.filter((part) => part.measured).sort((a, b) => a.measured!.least - b.measured!.least);
  return [...measured, ...own.filter((part) => !part.measured)];
}

/** Clear where a roof is above and far enough; not governed where an exception or the scope settled any of it, or no roof is above. */
function quietVerdict(parts: readonly Part[]): Verdict {
  if (parts.some((part) => part.excepted)) return "not-governed";
  return parts.some((part) => part.verdict === "clear") ? "clear" : "not-governed";
}

function finding(
  scene: Scene,
  id: string,
  element: Element,
  shape: ElementShape,
  all: readonly Part[],
  verdict: Verdict,
  explaining: Explaining,
): FoundFinding {
  const parts = partsFor(all, verdict);
  const m = parts[0]?.measured;
  const stretches = unite(...parts.map((part) => part.stretches));
  const station =
    m && (stretches.length === 0 || totalLength(stretches) === 0 || inside(stretches, m.station))
      ? m.station
      : middle(stretches);
  const facts: FindingFacts = {
    number: null,
    element: element.label,
    elementId: id,
    kind: element.kind,
    verdict,
    section: scene.rules?.section ?? "",
    edition: scene.rules?.edition ?? "",
    requiredIn: scene.required,
    leastIn: m ? m.least : null,
    intervalIn: m ? [m.lo, m.hi] : null,
    verticalIn: m ? m.vertical : null,
    sheet: scene.job.viewports[element.viewport]?.sheet ?? "",
    at: shape.sheetAt(station),
    areas: areasOf(parts),
    stretches: stretches.filter(([from, to]) => to > from).map(([fromIn, toIn]) => ({ fromIn, toIn })),
  };
  return new FoundFinding(facts, new ElementExplanation(explaining, id, element, verdict));
}

/** Ids of the areas that parts speak of, each once. */
function areasOf(parts: readonly Part[]): string[] {
  const ids: string[] = [];
  for (const { deck } of parts) if (deck && !ids.includes(deck.id)) ids.push(deck.id);
  return ids;
}

class ElementExplanation extends Explanation {
  constructor(
    private readonly explaining: Explaining,
    private readonly id: string,
    private readonly element: Element,
    private readonly verdict: Verdict,
  ) {
    super();
  }

  protected findReasons(): Reason {
    return reasonsOf(this.explaining.scene(), this.id, this.element, this.verdict);
  }

  protected findRemedies(): readonly Remedy[] {
    const { explaining, id, element, verdict } = this;
    const scene = explaining.scene();
    return explaining.remedies
      ? explaining.remedies(scene, id, element, verdict)
      : remediesOf(scene, id, element, verdict);
  }
}

function reasonsOf(scene: Scene, id: string, element: Element, verdict: Verdict): Reason {
  const { parts } = judgeElement(scene, id, element);
  return whole(scene, element, verdict, partsFor(parts, verdict));
}

function remediesOf(scene: Scene, id: string, element: Element, verdict: Verdict): Remedy[] {
  const { shape, parts, measured } = judgeElement(scene, id, element);
  const lower =
    isQuiet(verdict) || verdict === "cannot-tell" ? undefined : lowerRemedy(scene, element, shape, measured);
  // In the order in which the parts were judged, whichever of them governs.
  const own = isQuiet(verdict) ? parts : parts.filter((part) => part.verdict === verdict);
  return unique([...(lower ? [lower] : []), ...own.flatMap((part) => part.remedies())]);
}

/** One part speaks for itself; several stand under one verdict. */
function whole(scene: Scene, element: Element, verdict: Verdict, parts: readonly Part[]): Reason {
  const [only, second] = parts;
  if (only && !second) return { ...only.reason(), value: VERDICT_WORDS[verdict] };
  return reason(
    `${element.label}: ${VERDICT_WORDS[verdict]}`,
    { value: VERDICT_WORDS[verdict], ...(scene.rules ? { source: ruleText(scene.rules) } : {}) },
    parts.map((part) => part.reason()),
  );
}

const inside = (set: IntervalSet, at: number): boolean =>
  set.some(([from, to]) => at >= from - 1e-6 && at <= to + 1e-6);

function middle(set: IntervalSet): number {
  const first = set[0];
  return first ? (first[0] + first[1]) / 2 : 0;
}

function unique(remedies: readonly Remedy[]): Remedy[] {
  const seen = new Set<string>();
  return remedies.filter((remedy) => !seen.has(remedy.text) && seen.add(remedy.text));
}
