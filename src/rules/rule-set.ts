import type { SourceId } from "../trade/sources.ts";
import type { Length } from "../units/length.ts";

/** What a piece of wiring is, as far as a rule's scope is concerned. */
export type ElementClass = "cable" | "raceway" | "box" | "conduit-body" | "fitting";
/** What a roof deck is, as far as a rule's scope is concerned. */
export type DeckClass = "metal-corrugated" | "wood" | "concrete" | "other";
/** A value that each unit system states for itself: 1-1/2 in. and 38 mm, though 1-1/2 in. is 38.1 mm. */
export interface StatedLength {
  readonly imperial: Length;
  readonly metric: Length;
}

/** The facts that an exception may ask for. Each is known with where it was read, or not known. */
export type FactName =
  /** What the element is: an `ElementClass`. Always known. */
  | "element.class"
  /** Raceway or cable kind by its id in the raceway table: `rmc`, `imc`, `emt`... For a box: of the runs that enter it. */
  | "wiring.kind"
  /** Are all fittings and boxes of the run listed, and of steel or malleable iron? */
  | "wiring.steelFittings"
  /** Thickness of concrete on the deck, from the top of the corrugations up. 0 where there is none. */
  | "deck.concreteCover"
  /** Is the element cast in concrete? */
  | "element.inConcrete"
  /** Thickness of the concrete the element is cast in. */
  | "element.concreteThickness"
  /** Can the box or conduit body be reached without taking the building apart? Wholly buried in concrete: no. */
  | "element.accessible";
/** The value of a fact: a word, yes or no, or a length with its unit. */
export type FactValue = string | boolean | Length;
/** One fact as recorded, or that it is not. `from` says where it was read, for the reasons of a finding. */
export type Fact =
  | { readonly known: true; readonly value: FactValue; readonly from: string }
  | { readonly known: false };
/** Answers what is recorded of each fact. */
export type Facts = (name: FactName) => Fact;

/** What a fact must be: one of some words, yes or no, or a length not less than a stated one (equal passes). */
export type Requirement =
  | { readonly oneOf: readonly string[] }
  | { readonly is: boolean }
  | { readonly atLeast: StatedLength };

/** One condition of an exception. */
export interface FactTest {
  readonly fact: FactName;
  readonly test: Requirement;
  /** Asked of the person when the fact is missing. */
  readonly question: string;
  /** The test is made only where this holds; where it cannot be told, the test is made. */
  readonly when?: { readonly fact: FactName; readonly test: Requirement };
}

/** What an exception takes away: the distance, or the ban on concealment in the corrugations. */
export type Lifted = "clearance" | "concealment";

/** An exception of a rule set: it applies when every test is known and passed. Paraphrased, never legal text. */
export interface RuleException {
  readonly id: string;
  readonly label: string;
  readonly section: string;
  readonly lifts: readonly Lifted[];
  readonly needs: readonly FactTest[];
  readonly source: SourceId;
}

/** One way to protect conductors where their raceway enters a box or enclosure. */
export interface EntryProtection {
  readonly id: string;
  readonly label: string;
  /** Must its temperature rating be not lower than the insulation's? */
  readonly temperatureRated: boolean;
  /** Does it leave the raceway unsecured, so that a locknut or another mechanical fastening has to be recorded? */
  readonly needsFastening: boolean;
  readonly source: SourceId;
}

/** The sibling rule on conductors that enter a cabinet, box, enclosure or raceway. */
export interface EntryRule {
  readonly section: string;
  /** Smallest conductor the rule covers, by its id in the conductor table: `4` (AWG), which is far smaller than `4/0`. */
  readonly smallestConductor: string;
  /** Must the protection be in place before the conductors are pulled? */
  readonly beforePulling: boolean;
  readonly protections: readonly EntryProtection[];
  /** Plain statements that go with the rule: a bushing does not secure the raceway, plastic raceways are not exempt. */
  readonly notes: readonly string[];
  readonly examples: readonly EntryExample[];
  readonly source: SourceId;
}

/** A case that an entry rule settles, run as a test. Facts left out are not recorded; `protection` "none" is recorded as none. */
export interface EntryExample {
  readonly says: string;
  readonly conductor: string;
  readonly insulation?: string;
  /** A kind of run; absent: EMT. */
  readonly wiring?: string;
  readonly protection?: string;
  readonly ratingC?: number;
  readonly fastened?: boolean;
  readonly beforePulling?: boolean;
  readonly expect: "clear" | "entry-unprotected" | "not-governed" | "cannot-tell";
  readonly source: SourceId;
}

/** A case that the rule set settles, run as a test. `distance` is from the lowest deck surface to the wiring. Where an exception applies it is "not-governed". */
export interface RuleExample {
  readonly says: string;
  readonly element: ElementClass;
  readonly deck: DeckClass;
  readonly units: "imperial" | "metric";
  readonly distance: Length;
  /** Is the element in the corrugations? Absent: no. */
  readonly concealed?: boolean;
  readonly facts: Readonly<Partial<Record<FactName, FactValue>>>;
  readonly expect: "clear" | "too-close" | "concealed" | "not-governed" | "cannot-tell";
  /** The outcome expected of each exception named here. */
  readonly exceptions?: Readonly<Record<string, ExceptionOutcome>>;
  readonly source: SourceId;
}

/** What trying an exception on the recorded facts comes to. */
export type ExceptionOutcome = "applies" | "does not apply" | "lacks a fact";

/** One edition of one code's rule, as data. Every field has a source in `provenance`. */
export interface RuleSet {
  /** `us-2023`: country, edition. */
  readonly id: string;
  readonly edition: string;
  readonly code: string;
  readonly title: string;
  readonly section: string;
  readonly scope: { readonly elements: readonly ElementClass[]; readonly decks: "any" | readonly DeckClass[] };
  readonly clearance: StatedLength;
  /** How the distance is measured, paraphrased. */
  readonly measured: string;
  /** Decks in whose corrugations nothing may be concealed. */
  readonly concealment?: { readonly decks: readonly DeckClass[]; readonly section: string };
  readonly exceptions: readonly RuleException[];
  /** Absent where the edition's rule on entries has not been written down yet. */
  readonly entry?: EntryRule;
  readonly provenance: Readonly<Record<ProvenanceField, SourceId>>;
  readonly examples: readonly RuleExample[];
}
/** The fields of a rule set whose source is recorded beside it; exceptions, entry rule and examples carry their own. */
export type ProvenanceField = "section" | "elements" | "decks" | "clearance" | "measured" | "concealment";
