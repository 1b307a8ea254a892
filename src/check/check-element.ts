import { type IntervalSet, totalLength, unite } from "../geometry/interval-set.ts";
import type { Element } from "../job/elements/element.ts";
import type { RuleSet } from "../rules/rule-set.ts";
import { coverage, stationsWhere } from "./coverage.ts";
import { type Finding, isQuiet, type Reason, type Remedy, VERDICTS, type Verdict } from "./finding.ts";
import { cannotTell, judge, type Part, ruleText } from "./judge.ts";
import type { ElementShape } from "./kinds/kind.ts";
import { checkKindOf } from "./kinds/kinds.ts";
import { lowerRemedy } from "./lower.ts";
import type { Piece } from "./piece.ts";
import { reason } from "./reading.ts";
import type { DeckArea, Frame, Scene } from "./scene.ts";
import { stationText, VERDICT_WORDS } from "./words.ts";

/** A finding before it has its number. */
export type UnnumberedFinding = Omit<Finding, "number">;

/** Checks one element. It has one finding, or one for each verdict that needs attention, in order of station. */
export function checkElement(scene: Scene, id: string, element: Element): readonly UnnumberedFinding[] {
  const kind = checkKindOf(element);
  if (kind.findings) return kind.findings(scene, element, id);
  const shape = kind.shape(scene, element, id);
  const parts: Part[] = shape.gaps.map((gap) =>
    cannotTell(element.label, gap.missing, [[gap.from, gap.to]], undefined, shape.reasonsAt()),
  );
  const { rules } = scene;
  if (!rules) {
    const text = `the rule edition of the job ("${scene.job.settings.job.edition}" is not known here)`;
    parts.push(
      cannotTell(
        element.label,
        [{ text, remedy: { kind: "record-fact", text: "Choose the rule edition that applies." } }],
        [],
        undefined,
        [],
      ),
    );
    return assemble(scene, id, element, shape, parts, []);
  }
  const frame = scene.frame(shape.root ?? "");
  const near = areasNear(scene, frame, shape);
  const beside: DeckArea[] = [];
  if (shape.pieces.length > 0) {
    const covers = shape.pieces.flatMap((piece) => coverage(piece, near.get(piece) ?? []));
    const over = (which: (deck: DeckArea | undefined) => boolean): IntervalSet => stationsWhere(covers, which);
    const measured: DeckArea[] = [];
    for (const [deck, pieces] of piecesByDeck(near)) {
      if (deck.area.classification.is === "floor-above") continue;
      const under = over((next) => next === deck);
      const part = judge(scene, rules, element, shape, deck, pieces, under);
      if (!part) continue;
      if (part.measured) beside.push(deck);
      // A roof that is merely beside and far enough has nothing to say, unless it is the nearest of all.
      if (part.verdict === "clear" && under.length === 0) continue;
      parts.push(part);
      if (part.measured) measured.push(deck);
    }
    const floorsAbove = covers.flatMap(({ deck }) => (deck?.area.classification.is === "floor-above" ? [deck] : []));
    const open = over((next) => next === undefined);
    parts.push(...nearestRoof(scene, rules, element, shape, frame, measured));
    parts.push(...uncovered(scene, element, shape, open, frame), ...floors(element, floorsAbove));
  }
  return assemble(scene, id, element, shape, parts, beside);
}

/** For every piece, the areas over it or within reach in plan. */
function areasNear(scene: Scene, frame: Frame, shape: ElementShape): Map<Piece, DeckArea[]> {
  const found = new Map<Piece, DeckArea[]>();
  for (const piece of shape.pieces) {
    const { min, max } = piece.bounds;
    const slack = scene.planTolerance + shape.planTolerance + piece.tolerance;
    const column = { min: [min[0], min[1], 0], max: [max[0], max[1], 0] } as const;
    const reach = scene.required + slack + frame.slack;
    found.set(
      piece,
      frame.footprints.query(column, reach as never).map((n) => frame.areas[n]!),
    );
  }
  return found;
}

function piecesByDeck(near: Map<Piece, DeckArea[]>): Map<DeckArea, Piece[]> {
  const pieces = new Map<DeckArea, Piece[]>();
  for (const [piece, decks] of near)
    for (const deck of decks) {
      const list = pieces.get(deck);
      if (list) list.push(piece);
      else pieces.set(deck, [piece]);
    }
  return pieces;
}

/**
 * The roof nearest to the element when it is none of those over it or within reach: the least distance is over all roofs, however far.
 */
function nearestRoof(
  scene: Scene,
  rules: RuleSet,
  element: Element,
  shape: ElementShape,
  frame: Frame,
  measured: readonly DeckArea[],
): Part[] {
  const isRoof = (n: number): boolean => frame.surfaceAreas[n]?.area.classification.is === "roof";
  const found = new Set<DeckArea>();
  for (const piece of shape.pieces) {
    const nearest = piece.nearest(frame.surfaces, isRoof);
    const deck = nearest && frame.surfaceAreas[nearest.face];
    if (deck && measured.includes(deck)) continue;
    if (deck) found.add(deck);
  }
  if (measured.length === 0) return [];
  return [...found].flatMap((deck) => judge(scene, rules, element, shape, deck, shape.pieces, []) ?? []);
}

/** Parts of an element with no outlined deck above them. Slivers within the plan tolerance are gaps of tracing, not of the roof. */
function uncovered(scene: Scene, element: Element, shape: ElementShape, stations: IntervalSet, frame: Frame): Part[] {
  const least = 2 * (scene.planTolerance + shape.planTolerance);
  const open = stations.filter(([from, to]) => to === from || to - from > least);
  if (open.length === 0) return [];
  const elsewhere = frame.areas.length === 0 && Object.keys(scene.job.areas).length > 0;
  const text = elsewhere
    ? `the deck above ${element.label}: no deck area lies on a sheet registered to its own`
    : `the deck above ${element.label}${placeText(scene, open, shape)}: no deck area is outlined there`;
  const remedy: Remedy = elsewhere
    ? { kind: "outline", text: "Register its sheet to the sheet with the deck areas, by two shared points." }
    : { kind: "outline", text: "Outline the deck area above it, as roof or as floor." };
  return [cannotTell(element.label, [{ text, remedy }], open, undefined, shape.reasonsAt())];
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
    reason: reason(`${element.label} lies under ${deck.area.label}, which has a floor above it and is not a roof`, {
      value: VERDICT_WORDS["not-governed"],
      source: deck.area.classification.reason || "no reason recorded",
    }),
    remedies: [],
    excepted: false,
  }));
}

/** Parts to findings: one for each verdict that needs attention; if there is none, one that says clear or not governed. */
function assemble(
  scene: Scene,
  id: string,
  element: Element,
  shape: ElementShape,
  parts: readonly Part[],
  roofs: readonly DeckArea[],
): UnnumberedFinding[] {
  const loud = VERDICTS.filter((verdict) => !isQuiet(verdict) && parts.some((part) => part.verdict === verdict));
  if (loud.length === 0) return [finding(scene, id, element, shape, quietVerdict(parts), parts, [])];
  const lower = loud.some((verdict) => verdict !== "cannot-tell")
    ? lowerRemedy(scene, element, shape, roofs)
    : undefined;
  return loud
    .map((verdict) => {
      const own = parts.filter((part) => part.verdict === verdict);
      return finding(scene, id, element, shape, verdict, own, verdict !== "cannot-tell" && lower ? [lower] : []);
    })
    .sort((a, b) => (a.stretches[0]?.fromIn ?? 0) - (b.stretches[0]?.fromIn ?? 0));
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
  verdict: Verdict,
  parts: readonly Part[],
  more: readonly Remedy[],
): UnnumberedFinding {
  const measured = parts.filter((part) => part.measured).sort((a, b) => a.measured!.least - b.measured!.least);
  const governing = measured[0];
  const m = governing?.measured;
  const stretches = unite(...parts.map((part) => part.stretches));
  const station =
    m && (stretches.length === 0 || totalLength(stretches) === 0 || inside(stretches, m.station))
      ? m.station
      : middle(stretches);
  const ordered = [...measured, ...parts.filter((part) => !part.measured)];
  return {
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
    areas: [...new Set(ordered.flatMap((part) => (part.deck ? [part.deck.id] : [])))],
    stretches: stretches.filter(([from, to]) => to > from).map(([fromIn, toIn]) => ({ fromIn, toIn })),
    reasons: whole(scene, element, verdict, ordered),
    remedies: unique([...more, ...parts.flatMap((part) => part.remedies)]),
  };
}

/** One part speaks for itself; several stand under one verdict. */
function whole(scene: Scene, element: Element, verdict: Verdict, parts: readonly Part[]): Reason {
  const [only, second] = parts;
  if (only && !second) return { ...only.reason, value: VERDICT_WORDS[verdict] };
  return reason(
    `${element.label}: ${VERDICT_WORDS[verdict]}`,
    { value: VERDICT_WORDS[verdict], ...(scene.rules ? { source: ruleText(scene.rules) } : {}) },
    parts.map((part) => part.reason),
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
