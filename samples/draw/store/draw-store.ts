import { createHash } from "node:crypto";
import { jobText, parseJob } from "../../../src/job/parse-job.ts";
import { writeJobFile } from "../../../src/store/job-file.ts";
import { JOB_FILE_EXTENSION } from "../../../src/store/job-file-kind.ts";
import { pdfFile } from "../pdf-file.ts";
import { loadMetrics } from "../pen.ts";
import { PART_NAMES } from "./building.ts";
import { coverSheet } from "./cover.ts";
import { framingSheet } from "./framing.ts";
import { powerSheet } from "./power.ts";
import { roofSheet } from "./roof.ts";
import { sectionsSheet } from "./sections.ts";
import { storeJob } from "./store-job.ts";
import { LAYERS } from "./store-project.ts";
import { makeWiring } from "./wiring.ts";

/** The files of the larger sample, made anew, by their path in `samples`. The same bytes each time. */
export async function drawStore(): Promise<{ readonly path: string; readonly bytes: Uint8Array }[]> {
  const metrics = await loadMetrics();
  const wiring = makeWiring();
  const pages = [
    coverSheet(metrics, wiring),
    framingSheet(metrics),
    roofSheet(metrics),
    ...PART_NAMES.map((part) => powerSheet(metrics, part, wiring)),
    sectionsSheet(metrics),
  ];
  const bytes = pdfFile("Fennick Lane Store (invented sample)", LAYERS, pages, { packed: true });
  const name = "fennick-lane-store.pdf";
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const job = parseJob(storeJob({ sha256, name, bytes: bytes.length }, wiring));
  if (!job.ok) throw new Error(`The sample's job cannot be read: ${JSON.stringify(job.problems)}`);
  return [
    { path: `fennick-lane-store/${name}`, bytes },
    { path: "fennick-lane-store/job.json", bytes: new TextEncoder().encode(jobText(job.value)) },
    {
      path: `fennick-lane-store${JOB_FILE_EXTENSION}`,
      bytes: await writeJobFile(job.value, new Map([[sha256, bytes]])),
    },
  ];
}
