import type { CheckResult } from "../check/finding.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { Stage } from "./stage.ts";

/** Something a stage still lacks, counted; worded by `wordLack` of words.ts. */
export interface Lack {
  readonly stage: Stage;
  /** Such as "areas-without-elevation". */
  readonly code: string;
  readonly count: number;
  /** The records that lack it, in the order of their labels; empty where it is the job itself. */
  readonly ids: readonly Id[];
}

/** What every stage still lacks, in the order of the stages. */
export function lacks(_job: Job, _result: CheckResult | null): readonly Lack[] {
  return [];
}
