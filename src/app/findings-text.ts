import type { CheckProgress } from "../check/check-job.ts";
import type { CheckResult } from "../check/finding.ts";
import { findingsCsv } from "../issue/findings-csv.ts";
import { findingsJson } from "../issue/findings-json.ts";
import { findingsText as asText } from "../issue/findings-text.ts";
import type { Job } from "../job/schema.ts";
import type { FindingsForm } from "../ui/host.ts";

const writers = { json: findingsJson, csv: findingsCsv, text: asText } as const;

/** The findings in the form the command line prints them. */
export const findingsText = (job: Job, result: CheckResult, form: FindingsForm): string => writers[form](job, result);

/** Works out the reasons and remedies of every finding, which is most of the cost of writing them, resting after each. */
export function* explainInSteps({ findings }: CheckResult): Generator<CheckProgress, void, void> {
  for (const [i, finding] of findings.entries()) {
    void finding.reasons;
    void finding.remedies;
    yield { done: i + 1, total: findings.length };
  }
}
