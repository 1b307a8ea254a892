import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";

/** The sheets of a job as a person would count them: by file name, then page, then id. */
export function sheetsInOrder(job: Pick<Job, "sheets">): readonly Id[] {
  return Object.entries(job.sheets)
    .toSorted(([a, { file, page }], [b, other]) => {
      if (file.name !== other.file.name) return file.name < other.file.name ? -1 : 1;
      return page - other.page || (a < b ? -1 : 1);
    })
    .map(([id]) => id);
}

/** The sheet to show when none is; null when there is none. */
export const firstSheet = (job: Job): Id | null => sheetsInOrder(job)[0] ?? null;

/** The viewport to work in when none was chosen: one for the whole page before those of a region. */
export function firstViewport(job: Job, sheet: Id | null): Id | null {
  const own = Object.entries(job.viewports).filter(([, viewport]) => viewport.sheet === sheet);
  return (own.find(([, { region }]) => region === null) ?? own[0])?.[0] ?? null;
}
