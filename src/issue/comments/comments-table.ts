import type { CheckResult } from "../../check/finding.ts";
import type { Job } from "../../job/schema.ts";
import { type ColumnOf, type Table, tableOf } from "../tables/table.ts";
import { type ReviewComment, reviewComments } from "./review-comments.ts";

const COLUMNS: readonly ColumnOf<ReviewComment>[] = [
  { heading: "Number", width: 8, cell: ({ number }) => number },
  { heading: "Section", width: 22, cell: ({ citation }) => citation || null },
  { heading: "Sheet", width: 28, cell: ({ sheet }) => sheet },
  { heading: "Location", width: 36, cell: ({ location }) => location },
  { heading: "Remark", width: 40, cell: ({ remark }) => remark },
  { heading: "Asked", width: 60, cell: ({ action }) => action },
  { heading: "Answer", width: 40, cell: () => null },
];

/** The comments as a table, with a column left for the answers. */
export const commentsTable = (job: Job, result: CheckResult): Table =>
  tableOf("Comments", COLUMNS, reviewComments(job, result));
