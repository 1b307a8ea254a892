import type { Element } from "../../job/elements/element.ts";
import type { Id } from "../../job/fields.ts";
import { checkElement } from "../check-element.ts";
import type { Remedy, Verdict } from "../finding.ts";
import type { Scene } from "../scene.ts";
import { moveRemedy } from "./move-remedy.ts";
import { type Case, remedySettles } from "./recheck.ts";
import { supportRemedy } from "./support-remedy.ts";
import { workingWiring } from "./wiring-remedy.ts";

/** Verdicts that another place or another support can settle: those that come of a distance. */
const OF_A_DISTANCE: ReadonlySet<Verdict> = new Set(["concealed", "too-close", "borderline"]);

/**
 * Every remedy that would work for the finding of an element with this verdict: those the check came upon, each checked again with the
 * element changed accordingly and left out where the finding would stay, and those of place and support. What a person has to
 * record or settle is passed on as it is.
 */
export function workingRemedies(scene: Scene, id: Id, element: Element, verdict: Verdict): readonly Remedy[] {
  const findings = checkElement(scene, id, element);
  const about: Case = { scene, id, element, findings };
  const finding = findings.find((each) => each.verdict === verdict);
  if (!finding) return [];
  const works = finding.remedies.flatMap((remedy) => working(about, verdict, remedy) ?? []);
  if (!OF_A_DISTANCE.has(verdict)) return works;
  const more = [moveRemedy(about, finding), supportRemedy(about, finding)].filter((each) => each !== undefined);
  const lower = works.filter(({ kind }) => kind === "lower");
  return [...lower, ...more, ...works.filter(({ kind }) => kind !== "lower")];
}

/** The remedy, or as much of it as does what it promises. */
function working(about: Case, verdict: Verdict, remedy: Remedy): Remedy | undefined {
  if (remedy.wiring) return workingWiring(about, verdict, remedy);
  if (remedy.byIn === undefined) return remedy;
  return remedySettles(about, verdict, remedy) ? remedy : undefined;
}
