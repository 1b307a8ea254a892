import type { CheckResult } from "../check/finding.ts";
import { findingsCsv } from "../issue/findings-csv.ts";
import { findingsJson } from "../issue/findings-json.ts";
import { findingsText as asText } from "../issue/findings-text.ts";
import type { Job } from "../job/schema.ts";

const writers = { json: findingsJson, csv: findingsCsv, text: asText } as const;

/** The findings in the form the command line prints them; "" while nothing has been checked. */
export function findingsText(job: Job, result: CheckResult | null, form: keyof typeof writers): string {
  return result ? writers[form](job, result) : "";
}
