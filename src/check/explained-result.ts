import type { Element } from "../job/elements/element.ts";
import type { Job } from "../job/schema.ts";
import { checkElement } from "./check-element.ts";
import { type CheckResult, type Finding, isSameFinding, type Reason, type Remedy } from "./finding.ts";
import { BareFinding, Explanation, FoundFinding } from "./found-finding.ts";
import { workingRemedies } from "./remedies/working-remedies.ts";
import { makeScene, type Scene, sameScene } from "./scene.ts";

/** A result whose findings come without their explanations. */
export type BareResult = Omit<CheckResult, "findings"> & { readonly findings: readonly BareFinding[] };

/** A result without reasons and remedies; none is worked out for it. */
export const bareResult = ({ findings, counts, notices, advisories }: CheckResult): BareResult => ({
  findings: findings.map((finding) => new BareFinding(finding)),
  counts,
  notices,
  advisories,
});

/** Makes bare results of jobs whole again. */
export type Explainer = (job: Job, bare: BareResult) => CheckResult;

/**
 * An explainer: reasons and remedies of a finding are worked out here when they are read, by checking that one element. It remembers the
 * scene of the job before, which most edits leave as it is.
 */
export function createExplainer(): Explainer {
  let last: Scene | undefined;
  const sceneOf = (job: Job): Scene => {
    if (last?.job === job) return last;
    last = last && sameScene(last.job, job) ? { ...last, job } : makeScene(job);
    return last;
  };
  return (job, bare) => ({ ...bare, findings: bare.findings.map((finding) => explained(job, finding, sceneOf)) });
}

const explained = (job: Job, bare: BareFinding, sceneOf: (job: Job) => Scene): Finding =>
  new FoundFinding(bare, new LateExplanation(job, bare, sceneOf));

class LateExplanation extends Explanation {
  constructor(
    private readonly job: Job,
    private readonly finding: BareFinding,
    private readonly sceneOf: (job: Job) => Scene,
  ) {
    super();
  }

  protected findReasons(): Reason {
    const { elementId, verdict } = this.finding;
    const findings = checkElement(this.sceneOf(this.job), elementId, this.element());
    const own = findings.find((one) => isSameFinding(one, this.finding));
    if (!own) throw new Error(`element ${elementId} has no finding "${verdict}"`);
    return own.reasons;
  }

  protected findRemedies(): readonly Remedy[] {
    return workingRemedies(this.sceneOf(this.job), this.finding.elementId, this.element(), this.finding);
  }

  private element(): Element {
    const { elementId } = this.finding;
    const found = this.job.elements[elementId];
    if (!found) throw new Error(`a finding of element ${elementId}, which the job does not have`);
    return found;
  }
}
