import { type IntervalSet, unite } from "../geometry/interval-set.ts";
import { isCloserThan } from "../geometry/tolerance.ts";
import type { Element } from "../job/elements/element.ts";
import type { Lifted, RuleSet } from "../rules/rule-set.ts";
import { bansConcealment, covers as inScope, requiredClearance } from "../rules/scope.ts";
import type { NextAbove } from "./around.ts";
import { type DeckArea, hasSurface } from "./deck-area.ts";
import { distanceSteps } from "./distance-steps.ts";
import { type ExceptionOutcomes, tryExceptions } from "./exceptions.ts";
import type { Reason, Remedy, Verdict } from "./finding.ts";
import type { ElementShape } from "./kinds/kind.ts";
import type { OverDeck } from "./lower-deck.ts";
import { type Measured, measure } from "./measure.ts";
import type { Near } from "./near.ts";
import { type Passage, passageOf } from "./penetration.ts";
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
  /** True where it is about the passage of the element through the deck. */
  readonly penetration?: boolean;
}

/** What the judging of an element against one area comes to. */
export interface Judgement {
  /** None where the area has nothing to say. */
  readonly parts: readonly Part[];
  /** The element as a whole against the area, where its surface is known. */
  readonly measured: Measured | undefined;
}

/** Judges an element against one area near it that is a roof, or may be one. `over`: it lies above that deck, under another one. */
export function judge(
  scene: Scene,
  rules: RuleSet,
  element: Element,
  shape: ElementShape,
  deck: DeckArea,
  near: Near,
  nextAbove: NextAbove,
  over?: OverDeck,
): Judgement {
  const { pieces } = near;
  const settled = deck.classification.is === "roof";
  const isNext = nextAbove.isNext(deck);
  if (!hasSurface(deck)) {
    const doubt = scene.planTolerance + deck.planTolerance + shape.planTolerance;
    const reach = scene.required + doubt + (shape.standOut?.by ?? 0);
    const beside = isNext || pieces.some((piece) => piece.flat().near(deck.footprint, reach).length > 0);
    const part = cannotTell(
      element.label,
      () => deck.missing,
      isNext ? nextAbove.stations(deck) : unite(pieces.map((piece) => [piece.from, piece.to] as const)),
      deck,
      () => [deck.explain()],
    );
    return { parts: beside ? [part] : [], measured: undefined };
  }
  const standsOut = shape.standOut?.by;
  const measured = near.measured?.() ?? measure(scene, pieces, near.shares, deck, shape.planTolerance, standsOut);
  const about: RoofCase = { scene, rules, element, shape, deck, measured, over };
  const asRoof = judgeAsRoof(about);
  if (settled && !asRoof.penetration) return { parts: [asRoof], measured };
  if (settled) {
    const { through, rest, passage } = passageOf(deck, near);
    const parts: Part[] = [];
    for (const [own, passes] of [
      [through, passage],
      [rest, undefined],
    ] as const) {
      if (own.pieces.length === 0) continue;
      const alone = measure(scene, own.pieces, own.shares, deck, shape.planTolerance, standsOut);
      parts.push(judgeAsRoof({ ...about, measured: alone, passage: passes }));
    }
    return { parts, measured };
  }
  if (!isNext && asRoof.verdict === "clear") return { parts: [], measured };
  const unsettled: Part = {
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
  return { parts: [unsettled], measured };
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

/** What is judged as a roof: one element under one deck, and what is asked of it. */
interface RoofCase {
  readonly scene: Scene;
  readonly rules: RuleSet;
  readonly element: Element;
  readonly shape: ElementShape;
  readonly deck: DeckArea;
  readonly measured: Measured;
  /** How it lies above the deck, where it does and there is another one above it. */
  readonly over?: OverDeck | undefined;
  /** How it passes through the deck, where that has been looked at. */
  readonly passage?: Passage | undefined;
}

/** What a part says, and what would settle it, of its case and the exceptions tried. */
interface Wording {
  says(about: RoofCase, tried: ExceptionOutcomes | undefined): string;
  remedies?(about: RoofCase, tried: ExceptionOutcomes | undefined): readonly Remedy[];
  /** Steps of its own, before those of the exceptions. */
  steps?(about: RoofCase): readonly Reason[];
  readonly penetration?: boolean;
}

/** A part judged as a roof. A class, since a large job has several for each element and most are never explained. */
class RoofPart implements Part {
  constructor(
    private readonly about: RoofCase,
    readonly verdict: Verdict,
    private readonly wording: Wording,
    readonly stretches: IntervalSet = NOWHERE,
    private readonly tried?: ExceptionOutcomes,
  ) {}

  get deck(): DeckArea {
    return this.about.deck;
  }

  get measured(): Measured {
    return this.about.measured;
  }

  get excepted(): boolean {
    return this.tried?.applies !== undefined;
  }

  get penetration(): boolean {
    return this.wording.penetration ?? false;
  }

  reason(): Reason {
    const { about, verdict, wording, tried } = this;
    const value = { value: VERDICT_WORDS[verdict], source: ruleText(about.rules) };
    return reason(wording.says(about, tried), value, [
      ...(wording.steps?.(about) ?? []),
      ...distanceReasons(about),
      ...(tried?.reasons() ?? []),
    ]);
  }

  remedies(): readonly Remedy[] {
    return this.wording.remedies?.(this.about, this.tried) ?? [];
  }
}

const NOWHERE: IntervalSet = [];

function judgeAsRoof(about: RoofCase): RoofPart {
  const { scene, rules, element, shape, deck, measured } = about;
  const { required } = scene;
  if (!inScope(rules, shape.elementClass, deck.deckClass)) return new RoofPart(about, "not-governed", OUT_OF_SCOPE);
  const aboveDeck = measured.aboveDeck;
  const above = aboveDeck.length > 0;
  if (!isCloserThan(measured.lo, required) && !above) return new RoofPart(about, "clear", CLEAR);
  if (above && !measured.below && !about.passage)
    return new RoofPart(about, "cannot-tell", ABOVE_DECK, unite(aboveDeck, measured.near()));

  const tryFor = (lifted: Lifted) => tryExceptions(scene, rules, lifted, element, shape, deck, measured);
  const inDepth = above || !bansConcealment(rules, deck.deckClass) ? NOWHERE : measured.inDepth;
  const banTried = inDepth.length > 0 ? tryFor("concealment") : undefined;
  // Where the ban on concealment is lifted, the distance still has to be.
  const stillConcealed = banTried !== undefined && !banTried.applies;
  const tried = stillConcealed ? banTried : tryFor("clearance");
  if (tried.applies) return new RoofPart(about, "not-governed", EXCEPTED, NOWHERE, tried);
  const tooClose = isCloserThan(measured.hi, required);
  const stretches = stillConcealed
    ? unite(measured.near(), inDepth)
    : tooClose
      ? measured.near()
      : measured.maybeNear();
  if (above || about.passage) {
    const [verdict, wording] = about.passage?.upright
      ? (["cannot-tell", STRAIGHT_THROUGH] as const)
      : (["too-close", THROUGH_DECK] as const);
    return new RoofPart(about, verdict, wording, stretches, tried);
  }
  if (tried.questions.length > 0) return new RoofPart(about, "cannot-tell", MAY_BE_EXCEPTED, stretches, tried);
  if (stillConcealed) return new RoofPart(about, "concealed", CONCEALED, stretches, tried);
  if (tooClose) return new RoofPart(about, "too-close", TOO_CLOSE, stretches, tried);
  const { standOut } = shape;
  const byCoupling = standOut !== undefined && !isCloserThan(measured.lo + standOut.by, required);
  return new RoofPart(about, "borderline", byCoupling ? AT_COUPLINGS : BORDERLINE, stretches, tried);
}

const shown = ({ scene }: RoofCase, length: number): string => clearanceText(length, scene.system);
const leastShown = (about: RoofCase): string => shown(about, about.measured.least);
const needShown = (about: RoofCase): string => shown(about, about.scene.required);
const placeShown = ({ measured, deck }: RoofCase): string =>
  `${measured.vertical === null ? "from the edge of the deck of" : "under the deck of"} ${deck.area.label}`;
const exceptionRemedies = (_: RoofCase, tried: ExceptionOutcomes | undefined) => tried?.remedies() ?? [];

const OUT_OF_SCOPE: Wording = {
  says: (about) => `${outOfScope(about)}: ${about.element.label} is not governed under ${about.deck.area.label}`,
};

const CLEAR: Wording = {
  says: (about) =>
    `${about.element.label} is ${leastShown(about)} ${placeShown(about)}; not less than ${needShown(about)} is asked for`,
};

const ABOVE_DECK: Wording = {
  says: ({ element, deck }) => `${element.label} lies above the deck of ${deck.area.label}`,
  steps: ({ deck, over }) => {
    if (!over) return [];
    const names = over.under.map(({ area }) => area.label).join(" and ");
    return over.buildUp === undefined
      ? [reason(`Missing: what lies on the deck of ${deck.area.label}, to tell whether ${names} alone is above it`)]
      : [reason(`It is too near the build-up of ${deck.area.label} to be judged under ${names} alone`)];
  },
  remedies: ({ element, deck, over }) => [
    {
      kind: "record-fact",
      text: `Check the elevation tags of ${element.label} and the elevation of ${deck.area.label}: the wiring comes out above the deck.`,
    },
    ...(over && over.buildUp === undefined
      ? [
          {
            kind: "record-fact" as const,
            text: `Record the depth of the deck of ${deck.area.label} and the thickness of everything that lies on it.`,
          },
        ]
      : []),
  ],
};

const EXCEPTED: Wording = {
  says(about, tried) {
    const { element, deck, measured } = about;
    const place =
      measured.aboveDeck.length > 0
        ? `passes through the deck of ${deck.area.label}`
        : `is ${leastShown(about)} from the deck of ${deck.area.label}`;
    const by = tried?.applies?.by ? ` (${amendmentText(tried.applies.by)})` : "";
    return `${element.label} ${place}, and an exception applies: ${tried?.applies?.label}${by}`;
  },
};

const MAY_BE_EXCEPTED: Wording = {
  says: (about, tried) =>
    `${about.element.label} is ${leastShown(about)} from the deck of ${about.deck.area.label} where ${needShown(about)} is asked for, and an exception may apply. Missing: ${tried?.questions.join(" ")}`,
  remedies: (_, tried) =>
    (tried?.questions ?? []).map((question) => ({ kind: "record-fact", text: `Record the answer: ${question}` })),
};

const CONCEALED: Wording = {
  says: ({ element, deck }) => `${element.label} lies in the flutes of the deck of ${deck.area.label}`,
  remedies: exceptionRemedies,
};

/** What settles a penetration: somebody looks at it. */
const penetrationRemedies = ({ element, deck }: RoofCase, tried: ExceptionOutcomes | undefined): readonly Remedy[] => [
  {
    kind: "record-fact",
    text: `Have the penetration of ${element.label} through ${deck.area.label} looked at by itself: whether it is meant, where it comes out, and how those who work on the roof will see it. If it is not meant, correct the tags of ${element.label} or the elevation of ${deck.area.label}.`,
  },
  ...(tried?.questions ?? []).map(
    (question): Remedy => ({ kind: "record-fact", text: `Record the answer: ${question}` }),
  ),
  ...(tried?.remedies() ?? []),
];

const STRAIGHT_THROUGH: Wording = {
  penetration: true,
  says: (about) =>
    `${about.element.label} passes through the deck of ${about.deck.area.label}: a penetration, which no distance settles`,
  steps: () => [
    reason(
      "Straight through a deck, a stretch just below it cannot be avoided. The rule states a distance below the deck and does not speak of what passes through it, so the authority having jurisdiction decides",
    ),
    reason("What lies above the deck is outside the rule; what hangs below it elsewhere is judged by itself"),
  ],
  remedies: penetrationRemedies,
};

const THROUGH_DECK: Wording = {
  penetration: true,
  says: (about) =>
    `${about.element.label} passes through the deck of ${about.deck.area.label} at a slope: a penetration, and ${needShown(about)} below it is asked for up to there`,
  steps: () => [reason("It lies within the distance for longer than going straight through would need")],
  remedies: penetrationRemedies,
};

const AT_COUPLINGS: Wording = {
  says: (about) => {
    const { shape, measured, element } = about;
    const across = shown(about, shape.standOut?.across ?? 0);
    return `${element.label} itself is ${leastShown(about)} ${placeShown(about)}, but a coupling or connector ${across} across would come within ${shown(about, measured.lo)} of it; ${needShown(about)} is asked for, and where they sit is not recorded`;
  },
  remedies: (about, tried) => [
    {
      kind: "record-fact",
      text: `Keep couplings and connectors of ${about.element.label} out of these stretches, and say so on the drawing: where they sit cannot be recorded here.`,
    },
    ...exceptionRemedies(about, tried),
  ],
};

const TOO_CLOSE: Wording = {
  says: (about) =>
    about.measured.least < 0
      ? `${about.element.label} reaches ${shown(about, -about.measured.least)} above the lowest surface of the deck of ${about.deck.area.label}; ${needShown(about)} below it is asked for`
      : `${about.element.label} is ${leastShown(about)} ${placeShown(about)}; ${needShown(about)} is asked for`,
  remedies: exceptionRemedies,
};

const BORDERLINE: Wording = {
  says: (about) =>
    `${about.element.label} is between ${shown(about, about.measured.lo)} and ${shown(about, about.measured.hi)} ${placeShown(about)}; ${needShown(about)} is asked for, and the readings do not settle it`,
  remedies: exceptionRemedies,
};

/** The rule as a source: code, edition, section. */
export const ruleText = (rules: RuleSet): string => `${rules.code}, ${rules.edition} edition, ${rules.section}`;

/** Why the rule does not reach this element or deck. */
function outOfScope({ rules, shape, deck }: RoofCase): string {
  const { elements, decks } = rules.scope;
  return elements.includes(shape.elementClass)
    ? `The ${rules.edition} rule speaks of ${decks === "any" ? "any" : decks.join(", ")} decking, not of ${deck.deckClass}`
    : `The ${rules.edition} rule speaks of ${elements.join(", ")}, not of a ${shape.elementClass}`;
}

/** From the required clearance and the least distance down to every value read. */
function distanceReasons({ scene, rules, shape, deck, measured }: RoofCase): Reason[] {
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
