import type { Job } from "../job/schema.ts";
import { checkElement } from "./check-element.ts";
import type { CheckResult, Finding } from "./finding.ts";
import { workingRemedies } from "./remedies/working-remedies.ts";
import { makeScene, type Scene, sameScene } from "./scene.ts";

/** A finding as it is sent from where jobs are checked to where they are shown: without its explanation. */
export type BareFinding = Omit<Finding, "reasons" | "remedies">;
export type BareResult = Omit<CheckResult, "findings"> & { readonly findings: readonly BareFinding[] };

/** A result without reasons and remedies; none is worked out for it. */
export const bareResult = ({ findings, counts, notices, advisories }: CheckResult): BareResult => ({
  findings: findings.map(bareFinding),
  counts,
  notices,
  advisories,
});

const bareFinding = (finding: Finding): BareFinding => ({
  number: finding.number,
  element: finding.element,
  elementId: finding.elementId,
  kind: finding.kind,
  verdict: finding.verdict,
  section: finding.section,
  edition: finding.edition,
  requiredIn: finding.requiredIn,
  leastIn: finding.leastIn,
  intervalIn: finding.intervalIn,
  verticalIn: finding.verticalIn,
  sheet: finding.sheet,
  at: finding.at,
  areas: finding.areas,
  stretches: finding.stretches,
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

function explained(job: Job, bare: BareFinding, sceneOf: (job: Job) => Scene): Finding {
  const { elementId, verdict } = bare;
  const element = () => {
    const found = job.elements[elementId];
    if (!found) throw new Error(`a finding of element ${elementId}, which the job does not have`);
    return found;
  };
  let reasons: Finding["reasons"] | undefined;
  let remedies: Finding["remedies"] | undefined;
  return {
    ...bare,
    get reasons() {
      reasons ??= checkElement(sceneOf(job), elementId, element()).find((one) => one.verdict === verdict)?.reasons;
      if (!reasons) throw new Error(`element ${elementId} has no finding "${verdict}"`);
      return reasons;
    },
    get remedies() {
      remedies ??= workingRemedies(sceneOf(job), elementId, element(), verdict);
      return remedies;
    },
  };
}
