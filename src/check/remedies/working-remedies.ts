import type { Element } from "../../job/elements/element.ts";
import type { Id } from "../../job/fields.ts";
import { checkElement } from "../check-element.ts";
import type { Remedy, Verdict } from "../finding.ts";
import type { Scene } from "../scene.ts";
import { subjectOf, type Which } from "../subject.ts";
import { moveRemedy } from "./move-remedy.ts";
import { type Case, remedySettles } from "./recheck.ts";
import { supportRemedy } from "./support-remedy.ts";
import { workingWiring } from "./wiring-remedy.ts";

/** Verdicts that another place or another support can settle: those that come of a distance. */
const OF_A_DISTANCE: ReadonlySet<Verdict> = new Set(["concealed", "too-close", "borderline"]);

/**
 * Every remedy that would work for a finding of an element with this verdict: those the check came upon, each checked again with the
 * element changed accordingly and left out where the finding would stay, and those of place and support. What a person has to
 * record or settle is passed on as it is.
 */
export function workingRemedies(scene: Scene, id: Id, element: Element, which: Which): readonly Remedy[] {
  const findings = checkElement(scene, id, element);
  const finding = findings.find((each) => each.verdict === which.verdict && each.about === which.about);
  const subject = subjectOf(scene, id, element, which);
  if (!finding || !subject) return [];
  const about: Case = { scene, id, element, subject, findings, finding };
  const works = finding.remedies.flatMap((remedy) => working(about, remedy) ?? []);
  if (!OF_A_DISTANCE.has(which.verdict) || finding.penetration) return works;
  const more = [moveRemedy(about), supportRemedy(about)].filter((each) => each !== undefined);
  const lower = works.filter(({ kind }) => kind === "lower");
  return [...lower, ...more, ...works.filter(({ kind }) => kind !== "lower")];
}

/** The remedy, or as much of it as does what it promises. */
function working(about: Case, remedy: Remedy): Remedy | undefined {
  if (remedy.wiring) return workingWiring(about, remedy);
  if (remedy.byIn === undefined) return remedy;
  return remedySettles(about, remedy) ? remedy : undefined;
}
