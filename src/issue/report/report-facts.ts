/** What a report states beside the job and its findings. */
export interface ReportFacts {
  /** The moment of issue; the report shows its date, UTC. */
  readonly now: Date;
  /** Who issues; "" when not said. */
  readonly author: string;
}

/** The day of a moment, UTC: 2026-11-25. */
export const isoDate = (date: Date): string => date.toISOString().slice(0, 10);
