import type { Element } from "../../job/elements/element.ts";
import type { Id } from "../../job/fields.ts";
import { checkElement } from "../check-element.ts";
import { isQuiet, isSameFinding, type Remedy } from "../finding.ts";
import type { FindingFacts } from "../found-finding.ts";
import type { Scene } from "../scene.ts";
import type { Subject } from "../subject.ts";
import { remedied } from "./remedy-edit.ts";

/** An element that has findings, as remedies for it are worked out. */
export interface Case {
  readonly scene: Scene;
  readonly id: Id;
  readonly element: Element;
  /** What of the element the finding is about. */
  readonly subject: Subject;
  readonly findings: readonly FindingFacts[];
  /** The one of them that is to go away. */
  readonly finding: FindingFacts;
}

/**
 * Whether the finding would be gone with the element as given, checked again as a whole, and none that
 * needs attention be there that was not before.
 */
export function settles({ scene, id, findings, finding }: Case, element: Element, job = scene.job): boolean {
  const after = checkElement({ ...scene, job }, id, element);
  return after.every(
    (found) =>
      isQuiet(found.verdict) ||
      (!isSameFinding(found, finding) && findings.some((before) => isSameFinding(before, found))),
  );
}

/** Whether a remedy that says itself how it is carried out does what it promises. */
export function remedySettles(about: Case, remedy: Remedy): boolean {
  const after = remedied(about.element, remedy);
  return after !== undefined && settles(about, after);
}
