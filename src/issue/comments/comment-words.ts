import type { Job } from "../../job/schema.ts";

/** The title of a job's review comments. */
export const commentsTitle = (job: Pick<Job, "settings">): string =>
  `${job.settings.job.name || "Job without a name"}: review comments`;

/** What a list of so many comments begins with. */
export function introduction(count: number): string {
  if (count === 0) return "Nothing needs attention on the values given.";
  const counted = count === 1 ? "One comment" : `${count} comments`;
  return `${counted}, numbered as on the sheets and in the report. Please answer by number.`;
}
