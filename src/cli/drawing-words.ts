import type { Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import { readPage } from "../pdf/read/plan-reader.ts";
import type { Drawings } from "../store/job-file.ts";
import { openDrawing } from "./pdf-engine.ts";

/**
 * The words of the drawings themselves, by sheet, so that labels keep off them as they do on the screen. A page whose words cannot be
 * read has none here; it is issued all the same.
 */
export async function drawingWords(
  job: Job,
  drawings: Drawings,
  password?: string,
): Promise<Readonly<Record<string, readonly TextRun[]>>> {
  const words: Record<string, readonly TextRun[]> = {};
  for (const hash of new Set(Object.values(job.sheets).map((sheet) => sheet.file.sha256))) {
    const bytes = drawings.get(hash);
    if (!bytes) continue;
    const plan = await openDrawing(bytes.slice(), { password });
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
