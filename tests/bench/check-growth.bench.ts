import { createChecker } from "../../src/check/check-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { type BenchRow, benchRow, leastTimes } from "./bench-row.ts";
import { buildingJob } from "./check-job.bench.ts";
import { answerOf } from "./forced-answer.ts";

const SEGMENTS = 10;

/**
 * How the check grows: with segments from 10,000 to 1,000,000 under the same 1,000 deck areas, and with deck areas from 100 to 10,000, in
 * a building that grows by bays of the same size. Areas are read once and kept: reading them grows with their number, whatever the runs.
 */
export async function run(): Promise<BenchRow[]> {
  let sink = 0;
  const keep = (n: number): void => {
    sink += n;
  };
  const segments = (runs: number) => again(buildingJob(40, 25, runs, SEGMENTS));
  const areas = (side: number) => again(buildingJob(side, side, 1_000, SEGMENTS));
  const [few = 0, overHundred = 0, overTenThousand = 0] = leastTimes(6, [segments(1_000), areas(10), areas(100)], keep);
  const [more = 0] = leastTimes(4, [segments(10_000)], keep);
  const [most = 0] = leastTimes(2, [segments(100_000)], keep);
  if (!(sink > 0)) throw new Error("nothing was measured");
  return [
    benchRow("check: 100,000 segments, for each 10,000", more / 10, "10,000 segments", few, "1 = cost grows linearly"),
    benchRow(
      "check: 1,000,000 segments, for each 10,000",
      most / 100,
      "10,000 segments",
      few,
      "1 = cost grows linearly",
    ),
    benchRow(
      "check: 10,000 segments under 10,000 deck areas",
      overTenThousand,
      "10,000 segments under 100",
      overHundred,
      "2 = cost grows with the logarithm of the areas",
    ),
  ];
}

/** A check of all elements of a job whose areas have been read: the elements are made new each time, so that none is known. */
function again(job: Job): () => number {
  const checker = createChecker();
  checker({ ...job, elements: {} });
  return () => {
    const elements = Object.fromEntries(Object.entries(job.elements).map(([id, element]) => [id, { ...element }]));
    return answerOf(checker({ ...job, elements }));
  };
}
