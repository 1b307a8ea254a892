import type { Element } from "../../job/elements/element.ts";
import type { Id } from "../../job/fields.ts";
import { checkElement } from "../check-element.ts";
import { isQuiet, type Remedy, type Verdict } from "../finding.ts";
import type { FindingFacts } from "../found-finding.ts";
import type { Scene } from "../scene.ts";
import { remedied } from "./remedy-edit.ts";

/** An element that has findings, as remedies for it are worked out. */
export interface Case {
  readonly scene: Scene;
  readonly id: Id;
  readonly element: Element;
  readonly findings: readonly FindingFacts[];
}

/**
 * Whether the finding of this verdict would be gone with the element as given, checked again as a whole, and no verdict that
 * needs attention be there that was not before.
 */
export function settles({ scene, id, findings }: Case, verdict: Verdict, element: Element, job = scene.job): boolean {
  const after = checkElement({ ...scene, job }, id, element);
  return after.every(
    (found) =>
      isQuiet(found.verdict) ||
      (found.verdict !== verdict && findings.some((before) => before.verdict === found.verdict)),
  );
}

/** Whether a remedy that says itself how it is carried out does what it promises. */
export function remedySettles(about: Case, verdict: Verdict, remedy: Remedy): boolean {
  const after = remedied(about.element, remedy);
  return after !== undefined && settles(about, verdict, after);
}
