import { checkJob } from "../../check/check-job.ts";
import { deckSchedule } from "../../issue/tables/deck-schedule.ts";
import { tableCsv } from "../../issue/tables/table-csv.ts";
import { tablesXlsx } from "../../issue/tables/table-xlsx.ts";
import { wiringSchedule } from "../../issue/tables/wiring-schedule.ts";
import { handOver, type Written } from "../hand-over.ts";
import { loadJob } from "../load-job.ts";
import type { Outcome } from "../outcome.ts";
import { statusOf, underRules } from "./check.ts";

/** What `schedule` may be told. */
export interface ScheduleOptions extends Written {
  /** The table, where one is written as comma-separated values; a workbook holds both. */
  readonly of: "wiring" | "decks";
  readonly format: "csv" | "xlsx";
  readonly rules?: string;
  readonly password?: string;
}

/** `schedule JOB`: the wiring or the deck areas as a table. Status 1 when any finding needs attention. */
export async function scheduleCommand(path: string, options: ScheduleOptions): Promise<Outcome> {
  const job = underRules((await loadJob(path, options.password)).job, options.rules);
  const result = checkJob(job);
  const content =
    options.format === "xlsx"
      ? await tablesXlsx([wiringSchedule(job, result), deckSchedule(job)])
      : tableCsv(options.of === "decks" ? deckSchedule(job) : wiringSchedule(job, result));
  return handOver(content, path, options, statusOf(result));
}
