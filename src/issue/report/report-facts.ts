import type { MarkOptions } from "../marks-of.ts";

/** What a report states beside the job and its findings. */
export interface ReportFacts {
  /** The moment of issue; the report shows its date, UTC. */
  readonly now: Date;
  /** Who issues; "" when not said. */
  readonly author: string;
  /** How the marks are drawn that the report cuts its pictures from. */
  readonly marks?: Omit<MarkOptions, "sheets" | "only" | "quiet">;
}

/** The day of a moment, UTC: 2026-11-25. */
export const isoDate = (date: Date): string => date.toISOString().slice(0, 10);
