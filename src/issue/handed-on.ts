import type { CheckResult } from "../check/finding.ts";
import type { FontFace } from "../geometry/picture.ts";
import type { Job } from "../job/schema.ts";
import { ok, type Result } from "../units/problem.ts";
import { commentPages } from "./comments/comment-pages.ts";
import { commentsTitle } from "./comments/comment-words.ts";
import { commentsTable } from "./comments/comments-table.ts";
import { commentsText } from "./comments/comments-text.ts";
import type { ReportFacts } from "./report/report-facts.ts";
import { pagesPdf } from "./report/report-pdf.ts";
import { deckSchedule } from "./tables/deck-schedule.ts";
import { tableCsv } from "./tables/table-csv.ts";
import { tablesXlsx } from "./tables/table-xlsx.ts";
import { wiringSchedule } from "./tables/wiring-schedule.ts";

/** What is handed on beside the sheets: the review comments, or the schedules, each in the forms there are of it. */
export type HandedOn =
  | { readonly is: "comments"; readonly form: "text" | "csv" | "xlsx" | "pdf" }
  /** A workbook holds both tables. */
  | { readonly is: "schedule"; readonly form: "csv" | "xlsx"; readonly of: "wiring" | "decks" };

/** The faces a letter is set in, loaded only when one is written. */
type LoadFonts = () => Readonly<Record<FontFace, Uint8Array>> | Promise<Readonly<Record<FontFace, Uint8Array>>>;

/** Writes what is to be handed on: text, or the bytes of a workbook or a PDF. Problems: those of `pagesPdf`. */
export async function handedOn(
  job: Job,
  result: CheckResult,
  wanted: HandedOn,
  facts: ReportFacts,
  loadFonts: LoadFonts,
): Promise<Result<string | Uint8Array>> {
  if (wanted.is === "schedule") {
    if (wanted.form === "xlsx") return ok(await tablesXlsx([wiringSchedule(job, result), deckSchedule(job)]));
    return ok(tableCsv(wanted.of === "decks" ? deckSchedule(job) : wiringSchedule(job, result)));
  }
  if (wanted.form === "csv") return ok(tableCsv(commentsTable(job, result)));
  if (wanted.form === "xlsx") return ok(await tablesXlsx([commentsTable(job, result)]));
  if (wanted.form === "text") return ok(commentsText(job, result, facts));
  return pagesPdf(commentPages(job, result, facts), await loadFonts(), { title: commentsTitle(job), ...facts });
}
