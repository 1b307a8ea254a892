import type { CheckResult } from "../../src/check/finding.ts";

/** One number out of everything each finding of a check says in figures, so that none of it can be left for later: verdict, least distance, interval, vertical gap, place, stretches. */
export function answerOf({ findings }: CheckResult): number {
  let sum = 0;
  for (const { verdict, leastIn, intervalIn, verticalIn, at, areas, stretches } of findings) {
    sum += verdict.length + (leastIn ?? 0) + (intervalIn ? intervalIn[0] + intervalIn[1] : 0) + (verticalIn ?? 0);
    sum += at[0] + at[1] + areas.length;
    for (const { fromIn, toIn } of stretches) sum += toIn - fromIn;
  }
  return sum;
}
