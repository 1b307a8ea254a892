import type { Element } from "../job/elements/element.ts";
import type { AddedException, Amendment, Ground } from "../rules/amend.ts";
import type { Fact, FactName, Facts, Lifted, Requirement, RuleException, RuleSet } from "../rules/rule-set.ts";
import { type ExceptionTrial, isRuledOut, tryException } from "../rules/try-exception.ts";
import { findRacewayKind } from "../trade/raceways.ts";
import type { SourceId } from "../trade/sources.ts";
import type { UnitSystem } from "../units/length.ts";
import type { DeckArea } from "./deck-area.ts";
import type { Reason, Remedy } from "./finding.ts";
import type { ElementShape } from "./kinds/kind.ts";
import { checkKindOf } from "./kinds/kinds.ts";
import type { Measured } from "./measure.ts";
import { reason } from "./reading.ts";
import { wiringText } from "./remedies/wiring-text.ts";
import type { Scene } from "./scene.ts";
import { amendmentText, asGiven, sourceText } from "./words.ts";

/** An exception as it is tried: one of the edition's own, or one that an amendment adds, which is its source. */
interface TriedException extends Pick<RuleException, "label" | "section" | "lifts" | "needs"> {
  readonly source?: SourceId;
  readonly by?: Amendment;
  /** What an added one does not say of itself: while that is missing it can keep an answer open, and never applies. */
  readonly lacks?: readonly Ground[];
}

/** What the exceptions of a rule set come to for one element under one deck. */
export interface ExceptionOutcomes {
  /** The exception that applies, if one does. */
  readonly applies: TriedException | undefined;
  /** Questions whose answers could make an exception apply; empty when none could. */
  readonly questions: readonly string[];
  /** One step for every exception tried, with every fact it asked for. */
  reasons(): readonly Reason[];
  /** Changes of wiring under which an exception would apply. */
  remedies(): readonly Remedy[];
}

/** Tries every exception that lifts what is in question, and says for each why it does or does not apply. */
export function tryExceptions(
  scene: Scene,
  rules: RuleSet,
  lifted: Lifted,
  element: Element,
  shape: ElementShape,
  deck: DeckArea,
  measured: Measured,
): ExceptionOutcomes {
  const facts = factsOf(scene, element, shape, deck, measured);
  let applies: TriedException | undefined;
  const questions: string[] = [];
  for (const exception of exceptionsOf(scene, rules)) {
    // Most are ruled out by the first fact they ask for; how is worked out again where somebody asks why.
    if (!exception.lifts.includes(lifted) || isRuledOut(exception, facts, scene.system)) continue;
    const trial = tryException(exception, facts, scene.system);
    const lacks = exception.lacks ?? [];
    if (trial.outcome === "applies" && lacks.length === 0) applies ??= exception;
    else questions.push(...lacks.map(groundQuestion(exception)), ...trial.missing.map((test) => test.question));
  }
  return new Outcomes(applies, questions, scene, rules, lifted, facts);
}

/** The edition's own exceptions, then those added locally. */
function exceptionsOf({ amended }: Scene, rules: RuleSet): readonly TriedException[] {
  return amended && amended.added.length > 0 ? [...rules.exceptions, ...amended.added.map(asTried)] : rules.exceptions;
}

function asTried({ by, lacks }: AddedException): TriedException {
  const { label, lifts, needs } = by;
  const section = by.section.trim() || "no section recorded";
  return { label, section, lifts, needs, by, lacks };
}

/** Asked of the person where an exception added locally does not say what it rests on, or by whose decision it applies. */
const groundQuestion =
  ({ label }: TriedException) =>
  (ground: Ground): string =>
    ground === "reason"
      ? `What reason (the ordinance, the letter) does the exception added locally, "${label}", rest on?`
      : `By what authority (whose decision) does the exception added locally, "${label}", apply?`;

class Outcomes implements ExceptionOutcomes {
  constructor(
    readonly applies: TriedException | undefined,
    readonly questions: readonly string[],
    private readonly scene: Scene,
    private readonly rules: RuleSet,
    private readonly lifted: Lifted,
    private readonly facts: Facts,
  ) {}

  reasons(): readonly Reason[] {
    const { scene, lifted } = this;
    return [
      ...this.trials().map(({ exception, trial }) => trialReason(exception, trial, scene.system)),
      ...(scene.amended?.struck ?? [])
        .filter(({ exception }) => exception.lifts.includes(lifted))
        .map(({ exception, by }) => reason(exception.label, { value: "struck here", source: amendmentText(by) })),
    ];
  }

  remedies(): readonly Remedy[] {
    return this.trials().flatMap(({ exception, trial }) =>
      !exception.lacks?.length && trial.outcome === "does not apply" ? changeOfWiring(trial) : [],
    );
  }

  private trials(): { readonly exception: TriedException; readonly trial: ExceptionTrial }[] {
    return exceptionsOf(this.scene, this.rules)
      .filter(({ lifts }) => lifts.includes(this.lifted))
      .map((exception) => ({ exception, trial: tryException(exception, this.facts, this.scene.system) }));
  }
}

/** Facts about an element under a deck, each with where it was read. */
function factsOf(scene: Scene, element: Element, shape: ElementShape, deck: DeckArea, measured: Measured): Facts {
  return (name: FactName): Fact => {
    if (name === "element.class")
      return { known: true, value: shape.elementClass, from: `the kind of ${element.label}` };
    if (name === "deck.concreteCover") return concreteCover(deck);
    if (name === "element.inConcrete" && measured.least > 0)
      return { known: true, value: false, from: `${element.label} hangs below the lowest surface of the deck` };
    const own = checkKindOf(element).fact(scene, element, name);
    if (
      name === "element.inConcrete" &&
      own?.known !== true &&
      deck.area.deck.concreteCover.is === "none" &&
      deck.deckClass !== "concrete"
    )
      return { known: true, value: false, from: `no concrete on ${deck.area.label}, as recorded for it` };
    return own ?? { known: false };
  };
}

function concreteCover({ area }: DeckArea): Fact {
  const { concreteCover: cover } = area.deck;
  const from = `recorded for ${area.label}`;
  if (cover.is === "not-recorded") return { known: false };
  return { known: true, value: cover.is === "none" ? { value: 0, unit: "in" } : cover.thickness, from };
}

function trialReason(exception: TriedException, trial: ExceptionTrial, system: UnitSystem): Reason {
  const steps = trial.trail.map(({ test, fact, passed }) =>
    reason(
      test.question,
      {
        value: fact.known ? factText(fact.value, system) : "not recorded",
        source: fact.known ? fact.from : "",
      },
      [
        reason(
          `Needs ${requirementText(test.test, system)}: ${passed === undefined ? "cannot tell" : passed ? "met" : "not met"}`,
        ),
      ],
    ),
  );
  const lacks = trial.outcome === "does not apply" ? [] : (exception.lacks ?? []);
  const value = {
    applies: lacks.length === 0 ? "applies" : `cannot tell: no ${lacks.join(" and no ")} recorded`,
    "does not apply": "does not apply",
    "lacks a fact": "cannot tell: a fact is missing",
  }[trial.outcome];
  const from = exception.by ? amendmentText(exception.by) : sourceText(exception.source ?? "");
  const asked = lacks.map((ground) => reason(`Missing: ${groundQuestion(exception)(ground)}`));
  return reason(exception.label, { value, source: `${exception.section}; ${from}` }, [...asked, ...steps]);
}

function requirementText(test: Requirement, system: UnitSystem): string {
  if ("oneOf" in test) return test.oneOf.map((id) => findRacewayKind(id)?.short ?? id).join(" or ");
  if ("is" in test) return test.is ? "yes" : "no";
  return `at least ${asGiven(test.atLeast[system], system)}`;
}

function factText(value: Parameters<typeof asGiven>[0] | string | boolean, system: UnitSystem): string {
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") return findRacewayKind(value)?.short ?? value;
  return asGiven(value, system);
}

/** Where only the type of wiring stands against an exception: which types would do, and what else it asks. */
function changeOfWiring(trial: ExceptionTrial): Remedy[] {
  const failed = trial.trail.filter((step) => step.passed === false);
  const [first] = failed;
  if (failed.length !== 1 || !first || first.test.fact !== "wiring.kind" || !("oneOf" in first.test.test)) return [];
  const types = first.test.test.oneOf;
  const needs = trial.trail.filter((step) => step.passed === undefined).map((step) => step.test);
  return [{ kind: "change-wiring", text: wiringText(types, needs), wiring: { types, needs } }];
}
