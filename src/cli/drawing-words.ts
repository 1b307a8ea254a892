import type { Job } from "../job/schema.ts";
import { openPlan } from "../pdf/read/open-plan.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import { readPage } from "../pdf/read/plan-reader.ts";
import type { Drawings } from "../store/job-file.ts";
import { engineSettings } from "./pdf-engine.ts";

/**
 * The words of the drawings themselves, by sheet, so that labels keep off them as they do on the screen. A page whose words cannot be
 * read has none here; it is issued all the same.
 */
export async function drawingWords(
  job: Job,
  drawings: Drawings,
  password?: string,
): Promise<Readonly<Record<string, readonly TextRun[]>>> {
  const { getDocument } = await import("pdfjs-dist/legacy/build/pdf.mjs");
  const words: Record<string, readonly TextRun[]> = {};
  for (const hash of new Set(Object.values(job.sheets).map((sheet) => sheet.file.sha256))) {
    const bytes = drawings.get(hash);
    if (!bytes) continue;
    // pdf.js takes over the bytes it is given.
    const plan = await openPlan({ getDocument }, bytes.slice(), {
      engineSettings: engineSettings(),
      ...(password === undefined ? {} : { password }),
    });
    if (!plan.ok) continue;
    try {
      for (const [id, sheet] of Object.entries(job.sheets))
        if (sheet.file.sha256 === hash)
          words[id] = await readPage(plan.value, sheet.page).then(
            ({ texts }) => texts,
            () => [],
          );
    } finally {
      await plan.value.close();
    }
  }
  return words;
}
