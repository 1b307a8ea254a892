import { type IntervalSet, unite } from "../geometry/interval-set.ts";
import { isCloserThan } from "../geometry/tolerance.ts";
import type { Element } from "../job/elements/element.ts";
import type { Lifted, RuleSet } from "../rules/rule-set.ts";
import { bansConcealment, covers as inScope, requiredClearance } from "../rules/scope.ts";
import { type DeckArea, hasSurface } from "./deck-area.ts";
import type { DeckShare } from "./deck-share.ts";
import { distanceSteps } from "./distance-steps.ts";
import { tryExceptions } from "./exceptions.ts";
import type { Reason, Remedy, Verdict } from "./finding.ts";
import type { ElementShape } from "./kinds/kind.ts";
import { type Measured, measure } from "./measure.ts";
import type { Piece } from "./piece.ts";
import { type Missing, reason } from "./reading.ts";
import type { Scene } from "./scene.ts";
import { amendmentText, clearanceText, sourceText, stationText, VERDICT_WORDS } from "./words.ts";

/** What the check comes to for one element and one thing about it: one deck area, or a part that cannot be told. */
export interface Part {
  readonly verdict: Verdict;
  readonly deck: DeckArea | undefined;
  readonly measured: Measured | undefined;
  readonly stretches: IntervalSet;
  /** Why, and what would settle it: put into words only when somebody asks. */
  reason(): Reason;
  remedies(): readonly Remedy[];
  /** True where an exception, not the distance, settled it. */
  readonly excepted: boolean;
}

/** Pieces of an element, and what of each lies in plan inside the area they are judged against. */
export interface Near {
  readonly pieces: readonly Piece[];
  readonly shares: readonly DeckShare[];
}

/** Which areas are the next ones above an element, and at which stations. */
export interface NextAbove {
  isNext(deck: DeckArea): boolean;
  stations(deck: DeckArea): IntervalSet;
}

/** Judges an element against one area near it that is a roof, or may be one. */
export function judge(
  scene: Scene,
  rules: RuleSet,
  element: Element,
  shape: ElementShape,
  deck: DeckArea,
  { pieces, shares }: Near,
  nextAbove: NextAbove,
): Part | undefined {
  const settled = deck.classification.is === "roof";
  const isNext = nextAbove.isNext(deck);
  if (!hasSurface(deck)) {
    const reach = scene.required + scene.planTolerance + deck.planTolerance + shape.planTolerance;
    const beside = isNext || pieces.some((piece) => piece.flat().near(deck.footprint, reach).length > 0);
    return beside
      ? cannotTell(
          element.label,
          () => deck.missing,
          isNext ? nextAbove.stations(deck) : unite(pieces.map((piece) => [piece.from, piece.to] as const)),
          deck,
          () => [deck.explain()],
        )
      : undefined;
  }
  const measured = measure(scene, pieces, shares, deck, shape.planTolerance);
  const asRoof = judgeAsRoof(scene, rules, element, shape, deck, measured);
  if (settled) return asRoof;
  if (!isNext && asRoof.verdict === "clear") return undefined;
  return {
    verdict: "cannot-tell",
    deck,
    measured,
    stretches: isNext ? nextAbove.stations(deck) : asRoof.stretches,
    reason() {
      const { reason: why, follows, missing } = deck.classification;
      const text = `It is not settled whether ${deck.area.label} is a roof${follows ? " here" : ""}`;
      return reason(text, why ? { source: why } : {}, [
        ...(missing ?? []).map((one) => reason(`Missing: ${one.text}`)),
        ...(follows?.() ?? []),
        reason("If it is a roof", { value: VERDICT_WORDS[asRoof.verdict] }, [asRoof.reason()]),
        reason("If there is a floor above it", { value: "not governed" }),
      ]);
    },
    remedies: () =>
      deck.classification.missing?.map(({ remedy }) => remedy) ?? [
        {
          kind: "settle",
          text: `Settle whether ${deck.area.label} is a roof or has a floor above it, and record why.`,
        },
      ],
    excepted: false,
  };
}

/** A part that cannot be told, naming everything that is missing. */
export function cannotTell(
  label: string,
  missing: () => readonly Missing[],
  stretches: IntervalSet,
  deck: DeckArea | undefined,
  children: () => readonly Reason[],
): Part {
  return {
    verdict: "cannot-tell",
    deck,
    measured: undefined,
    stretches,
    reason() {
      const texts = missing().map(({ text }) => text);
      const each = texts.map((text) => reason(`Missing: ${text}`));
      return reason(`Cannot tell for ${label}. Missing: ${texts.join("; ")}`, {}, [...each, ...children()]);
    },
    remedies: () => missing().map(({ remedy }) => remedy),
    excepted: false,
  };
}

function judgeAsRoof(
  scene: Scene,
  rules: RuleSet,
  element: Element,
  shape: ElementShape,
  deck: DeckArea,
  measured: Measured,
): Part {
  const { system, required } = scene;
  const { label } = element;
  const name = deck.area.label;
  const part = (
    verdict: Verdict,
    text: () => string,
    more: Partial<Part> & { steps?(): readonly Reason[] } = {},
  ): Part => ({
    verdict,
    deck,
    measured,
    stretches: more.stretches ?? [],
    reason: () =>
      reason(text(), { value: VERDICT_WORDS[verdict], source: ruleText(rules) }, [
        ...distanceReasons(scene, rules, shape, deck, measured),
        ...(more.steps?.() ?? []),
      ]),
    remedies: more.remedies ?? (() => []),
    excepted: more.excepted ?? false,
  });
  const scope = outOfScope(rules, shape, deck);
  if (scope) return part("not-governed", () => `${scope}: ${label} is not governed under ${name}`);

  const banned = bansConcealment(rules, deck.deckClass);
  const above = measured.aboveDeck.length > 0;
  const through = above && measured.below;
  const concealed = banned && measured.inDepth.length > 0 && !above;
  const least = (): string => clearanceText(measured.least, system);
  const need = (): string => clearanceText(required, system);
  const where = measured.vertical === null ? "from the edge of the deck of" : "under the deck of";
  if (!isCloserThan(measured.lo, required) && !above)
    return part("clear", () => `${label} is ${least()} ${where} ${name}; not less than ${need()} is asked for`);
  if (above && !through)
    return part("cannot-tell", () => `${label} lies above the deck of ${name}`, {
      stretches: measured.aboveDeck,
      remedies: () => [
        {
          kind: "record-fact",
          text: `Check the elevation tags of ${label} and the elevation of ${name}: the wiring comes out above the deck.`,
        },
      ],
    });

  const tryFor = (lifted: Lifted) => tryExceptions(scene, rules, lifted, element, shape, deck, measured);
  const banTried = concealed ? tryFor("concealment") : undefined;
  // Where the ban on concealment is lifted, the distance still has to be.
  const stillConcealed = banTried !== undefined && !banTried.applies;
  const tried = stillConcealed ? banTried : tryFor("clearance");
  const steps = tried.reasons;
  if (tried.applies) {
    const { label: exception } = tried.applies;
    return part(
      "not-governed",
      () => `${label} is ${least()} from the deck of ${name}, and an exception applies: ${exception}`,
      { steps, excepted: true },
    );
  }
  const stretches = stillConcealed
    ? unite(measured.near(), measured.inDepth)
    : isCloserThan(measured.hi, required)
      ? measured.near()
      : measured.maybeNear();
  if (tried.questions.length > 0) {
    return part(
      "cannot-tell",
      () =>
        `${label} is ${least()} from the deck of ${name} where ${need()} is asked for, and an exception may apply. Missing: ${tried.questions.join(" ")}`,
      {
        steps,
        stretches,
        remedies: () =>
          tried.questions.map((question) => ({ kind: "record-fact", text: `Record the answer: ${question}` })),
      },
    );
  }
  if (stillConcealed)
    return part("concealed", () => `${label} lies in the flutes of the deck of ${name}`, {
      steps,
      stretches,
      remedies: tried.remedies,
    });
  if (isCloserThan(measured.hi, required)) {
    const text = (): string =>
      through
        ? `${label} passes through the deck of ${name}; ${need()} below it is asked for up to there`
        : measured.least < 0
          ? `${label} reaches ${clearanceText(-measured.least, system)} above the lowest surface of the deck of ${name}; ${need()} below it is asked for`
          : `${label} is ${least()} ${where} ${name}; ${need()} is asked for`;
    return part("too-close", text, { steps, stretches, remedies: tried.remedies });
  }
  return part(
    "borderline",
    () =>
      `${label} is between ${clearanceText(measured.lo, system)} and ${clearanceText(measured.hi, system)} ${where} ${name}; ${need()} is asked for, and the readings do not settle it`,
    {
      steps,
      stretches,
      remedies: tried.remedies,
    },
  );
}

/** The rule as a source: code, edition, section. */
export const ruleText = (rules: RuleSet): string => `${rules.code}, ${rules.edition} edition, ${rules.section}`;

/** Why the rule does not reach this element or deck, or undefined where it does. */
function outOfScope(rules: RuleSet, shape: ElementShape, deck: DeckArea): string | undefined {
  if (inScope(rules, shape.elementClass, deck.deckClass)) return undefined;
  const { elements, decks } = rules.scope;
  return elements.includes(shape.elementClass)
    ? `The ${rules.edition} rule speaks of ${decks === "any" ? "any" : decks.join(", ")} decking, not of ${deck.deckClass}`
    : `The ${rules.edition} rule speaks of ${elements.join(", ")}, not of a ${shape.elementClass}`;
}

/** From the required clearance and the least distance down to every value read. */
function distanceReasons(
  scene: Scene,
  rules: RuleSet,
  shape: ElementShape,
  deck: DeckArea,
  measured: Measured,
): Reason[] {
  const { system } = scene;
  const where = shape.pieces.some((piece) => piece.to > piece.from)
    ? `, at station ${stationText(measured.station, system)}`
    : "";
  return [
    requiredReason(scene, rules),
    reason(
      `Least distance from the surface of the wiring to the deck${where}`,
      { value: clearanceText(measured.least, system), quantity: { is: "least", in: measured.least } },
      distanceSteps(scene, shape, deck, measured),
    ),
    ...shape.reasonsAt(measured.station),
    deck.explain({ face: measured.face, at: measured.onFace }),
    classificationReason(deck),
  ];
}

/** What an area is here, why, and who says so. */
function classificationReason({ area: { label, classification: own }, classification }: DeckArea): Reason {
  const { is, reason: why, by, follows } = classification;
  const extra = { value: (follows ? own.reason : why) || "no reason recorded", source: by ? `decided by ${by}` : "" };
  return follows
    ? reason(`${label} is ${CLASS_WORDS[is]} here, by the outline of the storey above`, extra, follows())
    : reason(`${label} is recorded as ${CLASS_WORDS[is]}`, extra);
}

/** The clearance asked for and where it comes from: the edition, or a local amendment of it. */
function requiredReason({ amended, required, system }: Scene, rules: RuleSet): Reason {
  const measured = reason(rules.measured, { source: sourceText(rules.provenance.measured) });
  const value = clearanceText(required, system);
  const source = sourceText(rules.provenance.clearance);
  const quantity = { is: "required", in: required } as const;
  if (!amended?.clearanceBy) return reason("Required clearance", { value, source, quantity }, [measured]);
  const own = clearanceText(requiredClearance(amended.unamended, system), system);
  return reason(
    "Required clearance, by local amendment",
    { value, source: amendmentText(amended.clearanceBy), quantity },
    [reason(`The ${rules.edition} edition itself asks for`, { value: own, source }), measured],
  );
}

const CLASS_WORDS = {
  roof: "a roof",
  "floor-above": "a deck with a floor above",
  "not-settled": "not settled",
} as const;
