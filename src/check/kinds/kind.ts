import type { Point2 } from "../../geometry/point.ts";
import type { Element } from "../../job/elements/element.ts";
import type { ElementClass, Fact, FactName } from "../../rules/rule-set.ts";
import type { Inches } from "../../units/quantity.ts";
import type { Finding, Reason, Verdict } from "../finding.ts";
import type { Piece } from "../piece.ts";
import type { Missing } from "../reading.ts";
import type { Scene } from "../scene.ts";

/** A part of an element whose place in the building is not known, and what is missing for it. */
export interface Gap {
  readonly from: number;
  readonly to: number;
  readonly missing: readonly Missing[];
}

/** Something on an element whose place along it nobody knows, and which stands out beyond its surface: couplings on a run. */
export interface StandOut {
  /** How far beyond the surface of the pieces, inches. */
  readonly by: Inches;
  /** Its outside diameter. */
  readonly across: Inches;
}

/** An element as the check sees it: solids in building space, and what could not be placed. */
export interface ElementShape {
  readonly elementClass: ElementClass;
  /** Viewport frame it lies in, or undefined while its viewport has no scale. */
  readonly root: string | undefined;
  readonly pieces: readonly Piece[];
  readonly gaps: readonly Gap[];
  /** What may sit anywhere along it and reach farther than its pieces; absent where nothing of the kind is recorded. */
  readonly standOut?: StandOut;
  /** How its size was found, and the elevations that settle a station; all of them where no station is given. */
  reasonsAt(station?: number): readonly Reason[];
  /** Where a station lies on the sheet, sheet space. */
  sheetAt(station: number): Point2;
  /** Plan tolerance from the registration of its viewport. */
  readonly planTolerance: number;
  /** New tags after lowering everything by so much, for a remedy: "13'-2 1/8\" centre at vertex 1". */
  loweredTags(by: number): readonly string[];
}

/** One of several things that an element is made of, checked and found by itself. */
export interface Member {
  /** What tells its findings from those of the others. */
  readonly about: string;
  /** The member as an element: its label, facts and viewport are read off it. */
  readonly element: Element;
  readonly shape: () => ElementShape;
}

/** What an element kind answers for itself. A new kind is one file with one of these, and one line in `kinds.ts`. */
export interface CheckKind<E extends Element = Element> {
  shape(scene: Scene, element: E, id: string): ElementShape;
  /** For an element that is several things side by side: each of them by itself, in order. Left out by kinds that are one thing. */
  members?(scene: Scene, element: E): readonly Member[];
  /** Verdicts that only this kind can have: where a job has none of it, nobody asked for them. */
  readonly ownVerdicts?: readonly Verdict[];
  /** The findings of a kind whose rule does not measure a distance to decks; left out, its shape is measured against them. */
  findings?(scene: Scene, element: E, id: string): readonly Omit<Finding, "number">[];
  /**
   * For what stands at one point: how near, in sheet units, a vertex of a run has to come for the run to count as traced up to it, so
   * that a change of the run touches it; undefined where that cannot be told. Left out by kinds that runs do not bear on.
   */
  reach?(scene: Scene, element: E): number | undefined;
  /** Facts about the element that exceptions ask for; undefined where the kind has no say. */
  fact(scene: Scene, element: E, name: FactName): Fact | undefined;
}
