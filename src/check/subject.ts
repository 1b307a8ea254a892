import type { Element } from "../job/elements/element.ts";
import type { Finding } from "./finding.ts";
import type { ElementShape } from "./kinds/kind.ts";
import { checkKindOf } from "./kinds/kinds.ts";
import type { Scene } from "./scene.ts";

/** What is checked and found by itself: an element, or one of the things it is made of. */
export interface Subject {
  /** The member of its element; undefined for an element that is one thing. */
  readonly about: string | undefined;
  /** What its label, facts and viewport are read off: the element, or the member as one. */
  readonly element: Element;
  shape(): ElementShape;
}

/** One of an element's findings. */
export type Which = Pick<Finding, "verdict" | "about">;

/** What is checked of an element: itself, or each of its members. */
export function subjectsOf(scene: Scene, id: string, element: Element): readonly Subject[] {
  const kind = checkKindOf(element);
  return kind.members?.(scene, element) ?? [{ about: undefined, element, shape: () => kind.shape(scene, element, id) }];
}

/** The subject that a finding is about; undefined where the element has it no more. */
export const subjectOf = (scene: Scene, id: string, element: Element, { about }: Which): Subject | undefined =>
  subjectsOf(scene, id, element).find((one) => one.about === memberIn(about));

/** What a penetration is about, by itself and after the number of a member. */
const THROUGH = "through";

/** What a finding is about: a member, a penetration, or the penetration of a member; undefined for neither. */
export function aboutOf({ about }: Subject, penetration: boolean): string | undefined {
  if (!penetration) return about;
  return about === undefined ? THROUGH : `${about}-${THROUGH}`;
}

/** The member that what a finding is about names; undefined where it names none. */
export function memberIn(about: string | undefined): string | undefined {
  if (about === undefined || about === THROUGH) return undefined;
  return about.endsWith(`-${THROUGH}`) ? about.slice(0, -THROUGH.length - 1) : about;
}
