import { createHash } from "node:crypto";
import { jobText, parseJob } from "../../src/job/parse-job.ts";
import { writeJobFile } from "../../src/store/job-file.ts";
import { JOB_FILE_EXTENSION } from "../../src/store/job-file-kind.ts";
import { ceilingSheet } from "./ceiling-sheet.ts";
import { framingSheet } from "./framing-sheet.ts";
import { pdfFile } from "./pdf-file.ts";
import { loadMetrics } from "./pen.ts";
import { SECOND_ISSUE } from "./second-issue.ts";
import { workshopJob } from "./workshop-job.ts";

/** Layers of the set, in the order in which they are listed. */
const LAYERS = ["TITLE", "GRID", "DECK", "STEEL", "DETAILS", "WALLS", "CEILING", "LIGHTING", "RACEWAYS", "NOTES"];

/** The files of the sample, made anew, by their path in `samples`: drawings, job, and the job file that carries both. The same bytes each time. */
export async function drawWorkshop(): Promise<{ readonly path: string; readonly bytes: Uint8Array }[]> {
  const metrics = await loadMetrics();
  const pages = [framingSheet(metrics, LAYERS), ceilingSheet(metrics, LAYERS)];
  const bytes = pdfFile("Riverside Workshop (invented sample)", LAYERS, pages);
  const again = pdfFile("Riverside Workshop, A-131 issued again (invented sample)", LAYERS, [
    ceilingSheet(metrics, LAYERS, SECOND_ISSUE),
  ]);
  const name = "riverside-workshop.pdf";
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const job = parseJob(workshopJob({ sha256, name, bytes: bytes.length }));
  if (!job.ok) throw new Error(`The sample's job cannot be read: ${JSON.stringify(job.problems)}`);
  return [
    { path: `riverside-workshop/${name}`, bytes },
    { path: "riverside-workshop/a-131-second-issue.pdf", bytes: again },
    { path: "riverside-workshop/job.json", bytes: new TextEncoder().encode(jobText(job.value)) },
    {
      path: `riverside-workshop${JOB_FILE_EXTENSION}`,
      bytes: await writeJobFile(job.value, new Map([[sha256, bytes]])),
    },
  ];
}
