import type { Element } from "../job/elements/element.ts";
import type { Job } from "../job/schema.ts";
import { checkElement } from "./check-element.ts";
import { type CheckResult, type Finding, isSameFinding, type Reason, type Remedy } from "./finding.ts";
import { BareFinding, Explanation, FoundFinding } from "./found-finding.ts";
import { changedList, type ListChange, listChange } from "./list-change.ts";
import { workingRemedies } from "./remedies/working-remedies.ts";
import { sceneOf } from "./scene.ts";

/** A result without reasons and remedies, said by what is new in it since the one before. */
export interface BareResult {
  readonly findings: ListChange<BareFinding>;
  readonly counts: CheckResult["counts"];
  /** Absent: those of the result before. */
  readonly notices?: CheckResult["notices"];
  readonly advisories?: CheckResult["advisories"];
}

/** A result as it is sent after `before`: no reasons and remedies are worked out for it. */
export function bareResult(result: CheckResult, before?: CheckResult): BareResult {
  const { findings, counts, notices, advisories } = result;
  const change = listChange<Finding>(before?.findings ?? [], findings);
  return {
    findings: change.map((part) =>
      "fresh" in part ? { fresh: part.fresh.map((finding) => new BareFinding(finding)) } : part,
    ),
    counts,
    ...(before?.notices === notices ? {} : { notices }),
    ...(before && sameText(before.advisories, advisories) ? {} : { advisories }),
  };
}

const sameText = (a: unknown, b: unknown): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);

/** Makes bare results whole again. Each is said by the one before: none may be left out. */
export type Explainer = (job: Job, bare: BareResult) => CheckResult;

/**
 * An explainer: reasons and remedies of a finding are worked out here when they are read, by checking that one element. Findings that stay
 * are the same objects from one result to the next; they are explained in the newest job, since no edit that leaves a finding as it is changes why,
 * and those that went in the last job they stood in, so that no older one is kept for their sake.
 */
export function createExplainer(): Explainer {
  let entries: readonly Entry[] = [];
  let result: CheckResult | undefined;
  let newest: { job: Job } | undefined;
  return (job, bare) => {
    const current = newest;
    const before = entries;
    let next = 0;
    for (const part of bare.findings) {
      if ("fresh" in part) continue;
      for (; next < part.from; next++) before[next]!.explanation.stayIn(current?.job);
      next = Math.max(next, part.from + part.count);
    }
    for (; next < before.length; next++) before[next]!.explanation.stayIn(current?.job);
    const now = current ?? { job };
    now.job = job;
    newest = now;
    const entryOf = (finding: BareFinding): Entry => {
      const explanation = new LateExplanation(now, finding);
      return { finding: new FoundFinding(finding, explanation), explanation };
    };
    entries = changedList(
      before,
      bare.findings.map((part) => ("fresh" in part ? { fresh: part.fresh.map(entryOf) } : part)),
    );
    result = {
      findings: entries.map(({ finding }) => finding),
      counts: bare.counts,
      notices: bare.notices ?? result?.notices ?? [],
      advisories: bare.advisories ?? result?.advisories ?? [],
    };
    return result;
  };
}

interface Entry {
  readonly finding: Finding;
  readonly explanation: LateExplanation;
}

class LateExplanation extends Explanation {
  /** The job it is explained in. */
  private of: { readonly job: Job };

  constructor(
    newest: { readonly job: Job },
    private readonly finding: BareFinding,
  ) {
    super();
    this.of = newest;
  }

  /** From now on it is explained in this job, whatever the newest is. */
  stayIn(job: Job | undefined): void {
    if (job) this.of = { job };
  }

  protected findReasons(): Reason {
    const { elementId, verdict } = this.finding;
    const findings = checkElement(sceneOf(this.of.job), elementId, this.element());
    const own = findings.find((one) => isSameFinding(one, this.finding));
    if (!own) throw new Error(`element ${elementId} has no finding "${verdict}"`);
    return own.reasons;
  }

  protected findRemedies(): readonly Remedy[] {
    return workingRemedies(sceneOf(this.of.job), this.finding.elementId, this.element(), this.finding);
  }

  private element(): Element {
    const { elementId } = this.finding;
    const found = this.of.job.elements[elementId];
    if (!found) throw new Error(`a finding of element ${elementId}, which the job does not have`);
    return found;
  }
}
