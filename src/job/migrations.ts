/** Turns a job of one version into the next one. Plain data in, plain data out; what it cannot know it leaves to the schema. */
export interface Migration {
  /** The version it starts from; it yields `from + 1`. */
  readonly from: number;
  /** What changed, in a few words. */
  readonly name: string;
  readonly up: (job: Record<string, unknown>) => Record<string, unknown>;
}

/** Every migration, oldest first, without gaps: from 1 up to the version before the present one. None yet. */
export const migrations: readonly Migration[] = [];

/** The job as the present version has it. */
export function migrateJob(job: Record<string, unknown>, version: number): Record<string, unknown> {
  return migrations
    .filter((step) => step.from >= version)
    .reduce((older, step) => ({ ...step.up(older), version: step.from + 1 }), job);
}
