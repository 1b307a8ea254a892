import type { Point2 } from "../geometry/point.ts";
import type { FactTest } from "../rules/rule-set.ts";
import type { Problem } from "../units/problem.ts";
import type { Quantity } from "./quantity.ts";

/** Every verdict a finding may carry, worst first. */
export const VERDICTS = [
  "concealed",
  "entry-unprotected",
  "too-close",
  "cannot-tell",
  "borderline",
  "clear",
  "not-governed",
] as const;
export type Verdict = (typeof VERDICTS)[number];

/** Verdicts that need nobody's attention: everything else is drawn on the sheet and makes the command line exit with 1. */
export const isQuiet = (verdict: Verdict): boolean => verdict === "clear" || verdict === "not-governed";

/** One step of an explanation: from the verdict down to every value read. */
export interface Reason {
  readonly text: string;
  /** The value this step came to, as it is shown: 13'-2 1/8", 1/4" per foot. */
  readonly value?: string;
  /** Where a value comes from: a section and edition, a table row with its source, a tag on a sheet. */
  readonly source?: string;
  readonly children: readonly Reason[];
  /** The value as a number, where it follows from those of the children or they from it. */
  readonly quantity?: Quantity;
}

/** Something that would make the finding go away. */
export interface Remedy {
  readonly kind: "lower" | "move" | "support" | "change-wiring" | "record-fact" | "settle" | "outline" | "protect";
  readonly text: string;
  /** For "lower" and "move": how far, in inches. */
  readonly byIn?: number;
  /** For "move": what every point of the element is shifted by, sheet space. */
  readonly shift?: Point2;
  /** For "change-wiring": ids of the raceway kinds any of which would do, and what has to hold of the element besides. */
  readonly wiring?: { readonly types: readonly string[]; readonly needs: readonly FactTest[] };
}

/** A part of a run, by distance along its true length from its first vertex, inches. */
export interface Stretch {
  readonly fromIn: number;
  readonly toIn: number;
}

/** What the check says of one element. An element has more than one finding only where it has several problems of different verdict. */
export interface Finding {
  /** 1, 2, 3… over the findings that need attention, in order; null for the quiet ones. The number on the sheet and in the report. */
  readonly number: number | null;
  /** The element's label on the sheet, and its id in the job. */
  readonly element: string;
  readonly elementId: string;
  readonly kind: string;
  /**
   * What else tells it from other findings of the same element and verdict: the number of a raceway on a rack, "through" for a penetration, or
   * both. Absent where element and verdict are enough.
   */
  readonly about?: string;
  /** True where the element passes through the deck: a finding of its own, apart from running too close. */
  readonly penetration?: true;
  readonly verdict: Verdict;
  readonly section: string;
  readonly edition: string;
  /** The distance asked for, inches; 0 where the rule asks for none. */
  readonly requiredIn: number;
  /** Least distance to the deck that governs, its interval from the tolerances, and the vertical gap there; null where it cannot be told. */
  readonly leastIn: number | null;
  readonly intervalIn: readonly [number, number] | null;
  readonly verticalIn: number | null;
  /** Id of the sheet the element is traced on. */
  readonly sheet: string;
  /** Where on that sheet, in sheet space: the spot nearest the deck, or the middle of what cannot be told. */
  readonly at: Point2;
  /** Ids of the deck areas this finding speaks of, the governing one first. */
  readonly areas: readonly string[];
  readonly stretches: readonly Stretch[];
  readonly reasons: Reason;
  readonly remedies: readonly Remedy[];
}

/** What tells a finding from every other of one check. */
export type FindingKey = Pick<Finding, "elementId" | "verdict" | "about">;

/** The key of a finding, and of nothing more. */
export const findingKey = ({ elementId, verdict, about }: FindingKey): FindingKey =>
  about === undefined ? { elementId, verdict } : { elementId, verdict, about };

/** A finding's key as text, the same for the same finding: `ELEMENT-ID:VERDICT`, and `:ABOUT` where that tells it. */
export const findingKeyText = ({ elementId, verdict, about }: FindingKey): string =>
  about === undefined ? `${elementId}:${verdict}` : `${elementId}:${verdict}:${about}`;

/** Whether two keys are of one finding. */
export const isSameFinding = (a: FindingKey, b: FindingKey): boolean =>
  a.elementId === b.elementId && a.verdict === b.verdict && a.about === b.about;

/**
 * Advice beside the code: never a verdict, and never counted as one. "beyond" says that something reaches further than the code distance
 * keeps clear, "cannot-tell" that it may, and names what is not known.
 */
export interface Advisory {
  readonly kind: "fastener-reach";
  readonly says: "beyond" | "cannot-tell";
  /** Id and label of the deck area it speaks of. */
  readonly areaId: string;
  readonly area: string;
  readonly text: string;
  /** How far the fasteners reach below the lowest surface of the deck at most, and the margin to be kept; inches, null where not known. */
  readonly reachIn: number | null;
  readonly marginIn: number;
  readonly requiredIn: number;
  /** What is not known and has to be for an answer. */
  readonly missing: readonly string[];
  /** Labels of elements nearer to that deck than reach and margin together, in the order of the findings. */
  readonly elements: readonly string[];
  readonly reasons: Reason;
}

/** What a check returns: findings in order (sheet, element label, station), and problems of the job's own data. */
export interface CheckResult {
  readonly findings: readonly Finding[];
  readonly counts: Readonly<Record<Verdict, number>>;
  /** What is wrong or doubtful in the job itself: a self-crossing outline, areas that overlap at different elevations… */
  readonly notices: readonly Problem[];
  /** Advice beside the code, by area label. No verdict rests on it. */
  readonly advisories: readonly Advisory[];
}
