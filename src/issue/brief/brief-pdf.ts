import type { FontFace } from "../../geometry/picture.ts";
import type { Job } from "../../job/schema.ts";
import type { Result } from "../../units/problem.ts";
import type { ReportFacts } from "../report/report-facts.ts";
import { pagesPdf } from "../report/report-pdf.ts";
import type { BriefLanguage } from "./brief-languages.ts";
import { briefPages, briefTitle } from "./brief-pages.ts";

/** The crew's brief as a PDF of its own. The same job, facts and language give the same bytes. Problems: `issue.missing-glyph`, `issue.bad-font`. */
export const briefPdf = (
  job: Job,
  fonts: Readonly<Record<FontFace, Uint8Array>>,
  facts: ReportFacts,
  language: BriefLanguage = "en",
): Promise<Result<Uint8Array>> =>
  pagesPdf(briefPages(job, facts, language), fonts, { title: briefTitle(job, language), ...facts, language });
