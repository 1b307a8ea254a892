import type { Finding, Reason, Remedy } from "./finding.ts";

/** What a finding says before anybody asks why. */
export type FindingFacts = Omit<Finding, "reasons" | "remedies">;

/** The same as it is put together: what it has not got may be left out or undefined. */
export type GivenFacts = Omit<FindingFacts, "about" | "penetration"> & {
  readonly about?: string | undefined;
  readonly penetration?: boolean | undefined;
};

/** A finding as it is sent from where jobs are checked to where they are shown: plain data, without its explanation. */
export class BareFinding implements FindingFacts {
  number: Finding["number"];
  readonly element: Finding["element"];
  readonly elementId: Finding["elementId"];
  readonly kind: Finding["kind"];
  readonly about?: string;
  readonly penetration?: true;
  readonly verdict: Finding["verdict"];
  readonly section: Finding["section"];
  readonly edition: Finding["edition"];
  readonly requiredIn: Finding["requiredIn"];
  readonly leastIn: Finding["leastIn"];
  readonly intervalIn: Finding["intervalIn"];
  readonly verticalIn: Finding["verticalIn"];
  readonly sheet: Finding["sheet"];
  readonly at: Finding["at"];
  readonly areas: Finding["areas"];
  readonly stretches: Finding["stretches"];

  constructor(facts: GivenFacts) {
    this.number = facts.number;
    this.element = facts.element;
    this.elementId = facts.elementId;
    this.kind = facts.kind;
    if (facts.about !== undefined) this.about = facts.about;
    if (facts.penetration) this.penetration = true;
    this.verdict = facts.verdict;
    this.section = facts.section;
    this.edition = facts.edition;
    this.requiredIn = facts.requiredIn;
    this.leastIn = facts.leastIn;
    this.intervalIn = facts.intervalIn;
    this.verticalIn = facts.verticalIn;
    this.sheet = facts.sheet;
    this.at = facts.at;
    this.areas = facts.areas;
    this.stretches = facts.stretches;
  }
}

/** Why, worked out when somebody first asks, and then kept. */
export abstract class Explanation {
  #reasons: Reason | undefined;
  #remedies: readonly Remedy[] | undefined;

  get reasons(): Reason {
    this.#reasons ??= this.findReasons();
    return this.#reasons;
  }

  get remedies(): readonly Remedy[] {
    this.#remedies ??= this.findRemedies();
    return this.#remedies;
  }

  protected abstract findReasons(): Reason;
  protected abstract findRemedies(): readonly Remedy[];
}

/**
 * A finding with its explanation. A class, since a large job has tens of thousands of these, and getters of their own for each would take longer than
 * its check. So reasons and remedies are not own properties: a structured clone, a spread and `Object.keys` have the facts alone; JSON has all.
 */
export class FoundFinding extends BareFinding implements Finding {
  readonly #explanation: Pick<Finding, "reasons" | "remedies">;

  constructor(facts: GivenFacts, explanation: Pick<Finding, "reasons" | "remedies">) {
    super(facts);
    this.#explanation = explanation;
  }

  get reasons(): Reason {
    return this.#explanation.reasons;
  }

  get remedies(): readonly Remedy[] {
    return this.#explanation.remedies;
  }

  /** The finding with a number. One that never had any gets it for good; one that has another may stand in an older result, which keeps it. */
  numbered(number: number | null): FoundFinding {
    if (this.number === number) return this;
    if (this.number !== null) return new FoundFinding({ ...new BareFinding(this), number }, this.#explanation);
    this.number = number;
    return this;
  }

  toJSON(): Finding {
    return { ...new BareFinding(this), reasons: this.reasons, remedies: this.remedies };
  }
}
