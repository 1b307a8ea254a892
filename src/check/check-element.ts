import { type IntervalSet, totalLength, unite } from "../geometry/interval-set.ts";
import type { Point2 } from "../geometry/point.ts";
import { locate, type Polygon } from "../geometry/polygon.ts";
import type { Element } from "../job/elements/element.ts";
import { AreasNear } from "./areas-near.ts";
import type { Around, NextAbove } from "./around.ts";
import type { DeckArea } from "./deck-area.ts";
import { shareUnder } from "./deck-share.ts";
import { isQuiet, type Reason, type Remedy, type Stretch, VERDICTS, type Verdict } from "./finding.ts";
import { Explanation, FoundFinding, type GivenFacts } from "./found-finding.ts";
import { cannotTell, judge, type Part, ruleText } from "./judge.ts";
import type { ElementShape } from "./kinds/kind.ts";
import { checkKindOf } from "./kinds/kinds.ts";
import { lowerRemedy } from "./lower.ts";
import { besideOnly, type OverDeck, overDeckReason } from "./lower-deck.ts";
import { type Missing, reason } from "./reading.ts";
import { surveyOf } from "./round-survey.ts";
import type { Frame, Scene } from "./scene.ts";
import { aboutOf, type Subject, subjectsOf, type Which } from "./subject.ts";
import { stationText, VERDICT_WORDS } from "./words.ts";

/** How a finding is explained when somebody asks. */
export interface Explaining {
  /** The scene as it then is: it has to come to the same findings for the element. */
  scene(): Scene;
  /** The remedies of one of the element's findings; without it, those the check itself came upon. */
  readonly remedies?: (scene: Scene, id: string, element: Element, which: Which) => readonly Remedy[];
}

/** What the check comes to for one element, before it is put together to findings. */
interface Judged {
  readonly shape: ElementShape;
  readonly parts: readonly Part[];
  /** The areas with a known surface that it was measured against. */
  readonly measured: readonly DeckArea[];
  /** The decks it lies well above, under another one. */
  readonly lower: readonly OverDeck[];
}

/** Looks for what is around an element. */
export type FindAround = (scene: Scene, frame: Frame, shape: ElementShape) => Around;

/** What is around any element. */
export const aroundAny: FindAround = (scene, frame, shape) => new AreasNear(scene, frame, shape);
/** The same, found sooner for what most elements are. Explanations do without it: they are asked for one at a time. */
const aroundMost: FindAround = (scene, frame, shape) =>
  surveyOf(frame).around(scene, shape) ?? aroundAny(scene, frame, shape);

/**
 * Checks one element. It has one finding, or one for each verdict that needs attention, in order of station. Reasons and remedies
 * are worked out when they are read, by judging the element again: kept ready for every element of a large job, they would take most of the time and memory of its check.
 */
export function checkElement(
  scene: Scene,
  id: string,
  element: Element,
  explaining: Explaining = { scene: () => scene },
  find: FindAround = aroundMost,
): readonly FoundFinding[] {
  const kind = checkKindOf(element);
  if (kind.findings)
    return kind.findings(scene, element, id).map((own) => new FoundFinding({ ...own, number: null }, own));
  const subjects = subjectsOf(scene, id, element);
  return subjects.length === 1
    ? checkSubject(scene, id, element, subjects[0]!, explaining, find)
    : subjects.flatMap((subject) => checkSubject(scene, id, element, subject, explaining, find));
}

function checkSubject(
  scene: Scene,
  id: string,
  whole: Element,
  subject: Subject,
  explaining: Explaining,
  find: FindAround,
): readonly FoundFinding[] {
  const { shape, parts } = judgeSubject(scene, subject, find);
  const found = groupsOf(parts).map((group) => finding(scene, id, whole, subject, shape, parts, group, explaining));
  return found.length < 2 ? found : found.sort((a, b) => firstStation(a) - firstStation(b));
}

const firstStation = ({ stretches }: FoundFinding): number => stretches[0]?.fromIn ?? 0;

function judgeSubject(scene: Scene, subject: Subject, find: FindAround): Judged {
  const { element } = subject;
  const shape = subject.shape();
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
    return { shape, parts, measured: [], lower: [] };
  }
  if (shape.pieces.length === 0) return { shape, parts, measured: [], lower: [] };
  const frame = scene.frame(shape.root ?? "");
  const around = find(scene, frame, shape);
  const measured: DeckArea[] = [];
  const spoken: DeckArea[] = [];
  const lower: OverDeck[] = [];
  for (const own of around.areas) {
    const { deck } = own;
    if (deck.classification.is === "floor-above") continue;
    const isNext = around.isNext(deck);
    const over = isNext ? undefined : around.over(own);
    if (over?.isClear) lower.push(over);
    const judged = over?.isClear ? besideOnly(own) : own;
    const judgement = judge(scene, rules, element, shape, deck, judged, around, over);
    if (judgement.measured && judgement.parts.length > 0) measured.push(deck);
    // A roof that is merely beside and far enough has nothing to say, unless it is the nearest of all.
    let speaks = false;
    for (const part of judgement.parts) {
      if (part.verdict === "clear" && !isNext) continue;
      parts.push(part);
      speaks = true;
    }
    if (!speaks || !judgement.measured) continue;
    spoken.push(deck);
    if (deck.classification.is === "roof") around.speakOf(own, judgement.measured);
  }
  const noMatter = lower.length === 0 ? [] : lower.map(({ deck }) => deck).filter((deck) => !spoken.includes(deck));
  if (spoken.length > 0)
    for (const deck of around.nearestUnspoken(spoken, noMatter)) {
      const all = { pieces: shape.pieces, shares: shape.pieces.map((piece) => shareUnder(piece, deck)) };
      parts.push(...judge(scene, rules, element, shape, deck, all, NOWHERE_ABOVE).parts);
    }
  if (around.isNext(undefined))
    parts.push(...uncovered(scene, element, shape, around.stations(undefined), around.isUnderAny, frame));
  for (const deck of around.floors) parts.push(underFloor(element, deck));
  return { shape, parts, measured, lower };
}

const NOWHERE_ABOVE: NextAbove = { isNext: () => false, stations: () => [] };

/** What rounding may leave between two areas that share an edge, inches. */
const ROUNDING_IN = 1e-6;

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
  const least = elsewhere ? Math.max(ROUNDING_IN, 2 * (scene.planTolerance + shape.planTolerance)) : 0;
  const open = stations.filter(([from, to]) => to === from || to - from > least);
  if (open.length === 0) return [];
  const missing = (): Missing[] => [missingDeck(scene, element, shape, open, frame)];
  return [cannotTell(element.label, missing, open, undefined, () => shape.reasonsAt())];
}

function missingDeck(scene: Scene, element: Element, shape: ElementShape, open: IntervalSet, frame: Frame): Missing {
  const hole = holeOver(shape, open, frame);
  if (hole)
    return {
      text: `the deck above ${element.label}${placeText(scene, open, shape)}: a hole is recorded there in ${hole.area.label}. A distance to the surface of a deck settles nothing under it; its rim counts like any other edge`,
      remedy: {
        kind: "outline",
        text: `Outline what closes the hole in ${hole.area.label}, as roof or as floor, where something does; over an open shaft or a skylight, have the place looked at by itself.`,
      },
    };
  const elsewhere = frame.areas.length === 0 && Object.keys(scene.job.areas).length > 0;
  const text = elsewhere
    ? `the deck above ${element.label}: no deck area lies on a sheet registered to its own`
    : `the deck above ${element.label}${placeText(scene, open, shape)}: no deck area is outlined there`;
  const remedy: Remedy = elsewhere
    ? { kind: "outline", text: "Register its sheet to the sheet with the deck areas, by two shared points." }
    : { kind: "outline", text: "Outline the deck area above it, as roof or as floor." };
  return { text, remedy };
}

/** The area in a hole of which all that lies open is, if there is one. */
function holeOver({ pieces }: ElementShape, open: IntervalSet, frame: Frame): DeckArea | undefined {
  const spots = open.flatMap(([from, to]) => {
    const at = (from + to) / 2;
    const piece = pieces.find((each) => each.from <= at && at <= each.to);
    return piece ? [piece.planAt(at)] : [];
  });
  if (spots.length === 0) return undefined;
  return frame.areas.find(
    ({ area, polygon }) => area.holes.length > 0 && spots.every((spot) => isInHole(polygon, spot)),
  );
}

const isInHole = ({ holes }: Polygon, spot: Point2): boolean =>
  holes.some((hole) => locate({ outline: hole, holes: [] }, spot) !== "outside");

function placeText(scene: Scene, open: IntervalSet, shape: ElementShape): string {
  if (!shape.pieces.some((piece) => piece.to > piece.from)) return "";
  const spans = open.map(([from, to]) => `${stationText(from, scene.system)} to ${stationText(to, scene.system)}`);
  return ` at stations ${spans.join(", ")}`;
}

/** The part below a deck with a floor above it: not a roof, so not governed. */
const underFloor = (element: Element, deck: DeckArea): Part => ({
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
});

/** The parts of one finding: those with one verdict, penetrations apart from the others. */
interface Group {
  readonly verdict: Verdict;
  readonly penetration: boolean;
}

/** The findings that are made: one for each verdict that needs attention; if there is none, one that says clear or not governed. */
function groupsOf(parts: readonly Part[]): Group[] {
  const loud: Group[] = [];
  for (const group of LOUD) if (parts.some((part) => isOf(part, group))) loud.push(group);
  return loud.length > 0 ? loud : [{ verdict: quietVerdict(parts), penetration: false }];
}

/** The groups there may be that need attention, in their order. */
const LOUD: readonly Group[] = VERDICTS.filter((verdict) => !isQuiet(verdict)).flatMap((verdict) => [
  { verdict, penetration: false },
  { verdict, penetration: true },
]);

const isOf = (part: Part, { verdict, penetration }: Group): boolean =>
  part.verdict === verdict && (part.penetration === true) === penetration;

const ownParts = (parts: readonly Part[], group: Group): readonly Part[] =>
  isQuiet(group.verdict) ? parts : parts.filter((part) => isOf(part, group));

/** The parts a finding speaks of, those with a distance first, the least of them governing. */
function partsFor(parts: readonly Part[], group: Group): readonly Part[] {
  const own = ownParts(parts, group);
  if (own.length < 2) return own;
  const ordered: Part[] = [];
  for (const part of own) {
    if (!part.measured) continue;
    // Few, and put in place one by one: `Array.sort` takes memory each time, which tells where it is done for every element.
    let at = ordered.length;
    while (at > 0 && ordered[at - 1]!.measured!.least > part.measured.least) at--;
    ordered.splice(at, 0, part);
  }
  for (const part of own) if (!part.measured) ordered.push(part);
  return ordered;
}

/** Clear where a roof is above and far enough; not governed where an exception or the scope settled any of it, or no roof is above. */
function quietVerdict(parts: readonly Part[]): Verdict {
  if (parts.some((part) => part.excepted)) return "not-governed";
  return parts.some((part) => part.verdict === "clear") ? "clear" : "not-governed";
}

function finding(
  scene: Scene,
  id: string,
  whole: Element,
  subject: Subject,
  shape: ElementShape,
  all: readonly Part[],
  group: Group,
  explaining: Explaining,
): FoundFinding {
  const { verdict, penetration } = group;
  const { element } = subject;
  const parts = partsFor(all, group);
  const about = aboutOf(subject, penetration);
  const m = parts[0]?.measured;
  const stretches = stretchesOfAll(parts);
  const station =
    m && (stretches.length === 0 || totalLength(stretches) === 0 || inside(stretches, m.station))
      ? m.station
      : middle(stretches);
  const facts: GivenFacts = {
    number: null,
    element: element.label,
    elementId: id,
    kind: whole.kind,
    about,
    penetration,
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
    stretches: stretchesOf(stretches),
  };
  return new FoundFinding(facts, new ElementExplanation(explaining, id, whole, subject.about, group, about));
}

/** The stretches of all parts; most findings have one part with any. */
function stretchesOfAll(parts: readonly Part[]): IntervalSet {
  const having = parts.length === 1 ? parts : parts.filter(({ stretches }) => stretches.length > 0);
  return having.length === 1 ? having[0]!.stretches : unite(...having.map(({ stretches }) => stretches));
}

function stretchesOf(set: IntervalSet): Stretch[] {
  const stretches: Stretch[] = [];
  for (const [fromIn, toIn] of set) if (toIn > fromIn) stretches.push({ fromIn, toIn });
  return stretches;
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
    private readonly member: string | undefined,
    private readonly group: Group,
    private readonly about: string | undefined,
  ) {
    super();
  }

  protected findReasons(): Reason {
    const scene = this.explaining.scene();
    const subject = this.subject(scene);
    const { parts, lower } = judgeSubject(scene, subject, aroundAny);
    const { children, ...why } = whole(scene, subject.element, this.group.verdict, partsFor(parts, this.group));
    const above = lower.map((over) => overDeckReason(scene, subject.element.label, over));
    return { ...why, children: [...children, ...above] };
  }

  protected findRemedies(): readonly Remedy[] {
    const { explaining, id, element, group, about } = this;
    const scene = explaining.scene();
    const which = { verdict: group.verdict, ...(about === undefined ? {} : { about }) };
    return explaining.remedies?.(scene, id, element, which) ?? remediesOf(scene, element, this.subject(scene), group);
  }

  /** What it is about, as it is in a scene of now. */
  private subject(scene: Scene): Subject {
    const found = subjectsOf(scene, this.id, this.element).find((one) => one.about === this.member);
    if (!found) throw new Error(`element ${this.id} has no part ${this.member}`);
    return found;
  }
}

function remediesOf(scene: Scene, element: Element, subject: Subject, group: Group): Remedy[] {
  const { shape, parts, measured } = judgeSubject(scene, subject, aroundAny);
  const { verdict } = group;
  const lower =
    isQuiet(verdict) || verdict === "cannot-tell" ? undefined : lowerRemedy(scene, element, shape, measured);
  // In the order in which the parts were judged, whichever of them governs.
  return unique([...(lower ? [lower] : []), ...ownParts(parts, group).flatMap((part) => part.remedies())]);
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
